/**
 * Where power comes from and goes to, in the order it flows. Each term has its own law; their sum is a test, never a definition. `heats` — it becomes
 * heat of the network's bodies, or is stirred into the air by the rotor; what wires, gear and propeller lose is not followed further.
 *
 * @module
 */

import type { Term } from '../problems/index.js';

/** Key, words and nature of each term. */
export const POWER_TERMS = {
  batteryChemical: { words: 'out of the cells', kind: 'source', heats: false },
  batteryLoss: { words: 'cells', kind: 'loss', heats: true },
  polarisationStored: { words: 'stored in the cells’ polarisation', kind: 'store', heats: false },
  wiringLoss: { words: 'wiring', kind: 'loss', heats: false },
  otherLoads: { words: 'other loads', kind: 'use', heats: false },
  controllerIdle: { words: 'controller idle', kind: 'loss', heats: true },
  controllerConduction: { words: 'controller conduction', kind: 'loss', heats: true },
  controllerSwitching: { words: 'controller switching', kind: 'loss', heats: true },
  copperLoss: { words: 'copper', kind: 'loss', heats: true },
  ironLoss: { words: 'iron', kind: 'loss', heats: true },
  frictionLoss: { words: 'bearings and windage', kind: 'loss', heats: true },
  shaftStored: { words: 'held in the turning shaft', kind: 'store', heats: false },
  gearLoss: { words: 'gear and shaft', kind: 'loss', heats: false },
  propellerLoss: { words: 'propeller', kind: 'loss', heats: false },
  useful: { words: 'moves the vehicle', kind: 'use', heats: false },
} as const satisfies Record<string, { readonly words: Term; readonly kind: 'source' | 'loss' | 'store' | 'use'; readonly heats: boolean }>;

/** One of `POWER_TERMS`. */
export type PowerTerm = keyof typeof POWER_TERMS;
/** Keys of `POWER_TERMS`, in their order. */
export const POWER_TERM_IDS = Object.keys(POWER_TERMS) as readonly PowerTerm[];
/** Watts, or joules over a run, by term. */
export type PowerAccount = { readonly [K in PowerTerm]: number };
/** The same as a reused record, which the kernel fills anew each time; not a number until it has. */
export type PowerFlows = { -readonly [K in PowerTerm]: number };
/** A record to be written over. */
export const emptyPowerFlows = (): PowerFlows => Object.fromEntries(POWER_TERM_IDS.map((id) => [id, Number.NaN])) as PowerFlows;

/** What the controller loses in all [W]. */
export const controllerLossIn = ({ controllerIdle, controllerConduction, controllerSwitching }: PowerAccount): number =>
  controllerIdle + controllerConduction + controllerSwitching;
