/** Where a held drive stands, as a rating tells it. @module */

import type { HeatLimitId } from '../../results/limit-result.js';
import type { RatedPoint } from '../../results/rating-result.js';
import { HEAT_LIMITS, type HeldDrive } from './held-drive.js';

export const temperaturesOf = (drive: HeldDrive): Record<HeatLimitId, number> =>
  Object.fromEntries(HEAT_LIMITS.map((id, k) => [id, drive.temperature(k)])) as Record<HeatLimitId, number>;

/** The operating point at the drive's present state. */
export function ratedPoint(drive: HeldDrive, temperatures = temperaturesOf(drive)): RatedPoint {
  const { kernel, state, system } = drive;
  kernel.solve(0, state);
  const { point } = kernel;
  const { inputPower } = point;
  const { motorCurrent, inputPower: mostPower } = system.limits;
  return {
    throttle: point.duty,
    motorCurrent: point.current,
    batteryCurrent: point.packCurrent,
    inputPower,
    shaftPower: point.loadTorque * point.speed,
    shaftSpeed: point.speed,
    motorTorque: point.loadTorque,
    vehicleSpeed: state[kernel.at.speed],
    temperatures,
    ...(Number.isFinite(motorCurrent) ? { currentShare: point.current / motorCurrent } : {}),
    ...(Number.isFinite(mostPower) ? { powerShare: inputPower / mostPower } : {}),
  };
}

/** Least margin over the heat limits, and whose it is. */
export function nearest(drive: HeldDrive, peaks?: ArrayLike<number>): { readonly margin: number; readonly binding: HeatLimitId } {
  let margin = Number.POSITIVE_INFINITY;
  let binding: HeatLimitId = 'windingTemperature';
  for (let k = 0; k < HEAT_LIMITS.length; k++) {
    const left = drive.bounds[k] - (peaks === undefined ? drive.temperature(k) : peaks[k]);
    if (left < margin) {
      margin = left;
      binding = HEAT_LIMITS[k];
    }
  }
  return { margin, binding };
}
