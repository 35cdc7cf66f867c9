/** What the run says about the choice of the motor. @module */

import { fromUnit } from '../../quantities/convert.js';
import { type Dimension, formatNumber } from '../../quantities/index.js';
import type { Oddity, OddityKind } from '../../results/audit-result.js';
import type { CandidateResult } from '../../results/run-result.js';
import type { SheetFigures } from './figures.js';
import {
  AIR_OVER_SPEED,
  CAN_TEMPERATURE,
  DISCHARGE,
  LIGHT_LOAD,
  LOADED_SPEED,
  MEAN_INPUT_PER_MASS,
  passed,
  SUSTAINED_SHARE,
  TIP_MACH,
} from './marks.js';
import { PRACTICE, type Remark } from './remark.js';
import { celsius, percent, perGram, text } from './words.js';

/** A winding without any loss is one with next to none [1]. */
const LEAST_COPPER = 1e-9;

/** Remarks on one candidate's run. */
export function runRemarks(sheet: SheetFigures, run: Pick<CandidateResult, 'trace' | 'headline'>): Remark[] {
  const found: Remark[] = [];
  const { system, input, loadedSpeedRatio } = sheet;
  const { motor, limits } = system;
  const remark = (
    kind: OddityKind,
    weight: Oddity['weight'],
    [value, bound, unit]: readonly [number, number, string],
    says: string,
  ): void => void found.push({ kind, candidate: input.name, weight, says, basis: PRACTICE, value, bound, unit });
  const share = sheet.meanInput / limits.inputPower;
  if (share > SUSTAINED_SHARE)
    remark(
      'sustained-over-half-of-rating',
      'note',
      [share, SUSTAINED_SHARE, '1'],
      `${text(sheet.meanInput, 'power', 'W', 0)} on average over the run, rated ${text(limits.inputPower, 'power', 'W', 0)}`,
    );
  const perMass = sheet.meanInput / motor.mass;
  if (perMass > MEAN_INPUT_PER_MASS)
    remark('input-per-mass-high', 'note', [perMass, MEAN_INPUT_PER_MASS, 'W/kg'], `${perGram(perMass)} on average over the run`);
  const beyond = loadedSpeedRatio === undefined ? undefined : passed(loadedSpeedRatio, LOADED_SPEED);
  if (loadedSpeedRatio !== undefined && beyond !== undefined)
    remark(
      'loaded-speed-out-of-band',
      'unusual',
      [loadedSpeedRatio, beyond, '1'],
      `at full throttle it turns at ${formatNumber(loadedSpeedRatio, { decimals: 2 })} of Kv times the pack’s resting voltage`,
    );
  const { noLoadEnergy, copperEnergy, inputEnergy } = sheet;
  if (noLoadEnergy > LIGHT_LOAD.overCopper * copperEnergy && noLoadEnergy > LIGHT_LOAD.ofInput * inputEnergy)
    remark(
      'load-light',
      'note',
      [noLoadEnergy / Math.max(copperEnergy, LEAST_COPPER * noLoadEnergy), LIGHT_LOAD.overCopper, '1'],
      `iron and friction take ${percent(noLoadEnergy / inputEnergy)} of its input over the run, the copper ${percent(copperEnergy / inputEnergy)}`,
    );
  if (sheet.tipMach !== undefined && sheet.tipMach > TIP_MACH)
    remark(
      'tip-mach-high',
      'unusual',
      [sheet.tipMach, TIP_MACH, '1'],
      `blade tips at Mach ${formatNumber(sheet.tipMach, { decimals: 2 })}`,
    );
  const can = run.headline.peakCanTemperature.nominal;
  const most = fromUnit<Dimension>(CAN_TEMPERATURE, '°C');
  if (can > most) remark('can-hotter-than-practised', 'note', [can, most, 'K'], `can at ${celsius(can)}`);
  const air = input.given.cooling?.air?.speed?.value ?? 0;
  const top = run.headline.topSpeed.nominal;
  // a propeller in air blows at its motor
  if (air - top > AIR_OVER_SPEED && top > 0 && sheet.tipMach === undefined)
    remark(
      'air-at-motor-fast',
      'unusual',
      [air - top, AIR_OVER_SPEED, 'm/s'],
      `${text(air, 'speed', 'm/s', 0)} of air past the motor is written, in a vehicle that reaches ${text(top, 'speed', 'm/s', 1)}`,
    );
  const rate = sheet.dischargeRate;
  if (rate > fromUnit(DISCHARGE.word, 'C'))
    remark(
      'discharge-optimistic',
      rate > fromUnit(DISCHARGE.none, 'C') ? 'unusual' : 'note',
      [rate, fromUnit(DISCHARGE.word, 'C'), '1/s'],
      `the pack is asked for ${text(rate, 'dischargeRate', 'C', 0)} at the peak`,
    );
  return found;
}
