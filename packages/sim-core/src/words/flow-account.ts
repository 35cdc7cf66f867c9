/** What flows in and out at one moment, ready to be drawn and told. @module */

import { POWER_TERMS, type PowerAccount, type PowerTerm } from '../drive/power-terms.js';
import { formatNumber } from '../quantities/index.js';
import type { CandidateResult } from '../results/run-result.js';

/** Power [W] that goes one way, with its words. */
export interface Outflow {
  readonly terms: readonly PowerTerm[];
  readonly heatsMotor: boolean;
  readonly words: string;
  readonly power: number;
}

/** Losses that one part makes leave in one stream; the table beneath has them apart. */
const STREAMS: readonly { readonly words: string; readonly terms: readonly PowerTerm[]; readonly heatsMotor?: true }[] = [
  { words: POWER_TERMS.batteryLoss.words, terms: ['batteryLoss'] },
  { words: POWER_TERMS.polarisationStored.words, terms: ['polarisationStored'] },
  { words: POWER_TERMS.wiringLoss.words, terms: ['wiringLoss'] },
  { words: POWER_TERMS.otherLoads.words, terms: ['otherLoads'] },
  { words: 'controller', terms: ['controllerIdle', 'controllerConduction', 'controllerSwitching'] },
  { words: POWER_TERMS.copperLoss.words, terms: ['copperLoss'], heatsMotor: true },
  { words: 'iron and bearings', terms: ['ironLoss', 'frictionLoss'], heatsMotor: true },
  { words: POWER_TERMS.shaftStored.words, terms: ['shaftStored'] },
  { words: POWER_TERMS.gearLoss.words, terms: ['gearLoss'] },
  { words: POWER_TERMS.propellerLoss.words, terms: ['propellerLoss'] },
];

/** What flows in, [W]: out of the cells and, when they give back, out of their slow part and of a turning shaft that slows down. */
export const inflow = ({ batteryChemical, polarisationStored, shaftStored }: PowerAccount): number =>
  batteryChemical + Math.max(0, -polarisationStored) + Math.max(0, -shaftStored);

/** Everything that leaves, in the order of the flow, without what is nothing. */
export function outflows(power: PowerAccount): readonly Outflow[] {
  return STREAMS.map(({ words, terms, heatsMotor = false }) => ({
    terms,
    words,
    heatsMotor,
    power: terms.reduce((sum, term) => sum + power[term], 0),
  })).filter((outflow) => outflow.power > 0);
}

/** What one drive's share of the pack gives at its terminals [W]. */
export const atBattery = ({ batteryChemical, batteryLoss, polarisationStored }: PowerAccount): number =>
  batteryChemical - batteryLoss - polarisationStored;

/** How many equal drives the pack feeds: its power is that of all, the account that of one. */
export const drivesOnPack = ({ power, channels }: CandidateResult['moment']): number =>
  Math.max(1, Math.round(channels.batteryPower / atBattery(power)));

/** A moment without power, or one where the vehicle drives the motor, is no flow from left to right. */
export const hasFlow = ({ moment }: CandidateResult): boolean =>
  inflow(moment.power) > 0 && moment.power.useful >= 0 && Number.isFinite(moment.power.useful);

/** A power [W] with its unit. */
export const wattText = (power: number): string => `${formatNumber(power, power < 9.95 ? { decimals: 1 } : { decimals: 0 })}\u202fW`;
/** A share [1] as percent. */
export const percentText = (share: number): string => `${formatNumber(share * 100, { decimals: 1 })}\u202f%`;
