/** Where a held drive stands, as a rating tells it. @module */

import { type ByHeatLimit, byHeatLimit, HEAT_LIMITS, type HeatLimitId } from '../../drive/heat-limits.js';
import type { RatedPoint } from '../../results/rating-result.js';
import type { HeldDrive } from './held-drive.js';

export const temperaturesOf = (drive: HeldDrive): ByHeatLimit => byHeatLimit((id) => drive.temperature(id));

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

/** Least margin over the heat limits, and whose it is; `peaks` in the order of HEAT_LIMITS in place of the present temperatures. */
export function nearest(drive: HeldDrive, peaks?: ArrayLike<number>): { readonly margin: number; readonly binding: HeatLimitId } {
  let margin = Number.POSITIVE_INFINITY;
  let binding: HeatLimitId = 'windingTemperature';
  HEAT_LIMITS.forEach((id, k) => {
    const left = drive.bounds[id] - (peaks === undefined ? drive.temperature(id) : peaks[k]);
    if (left < margin) {
      margin = left;
      binding = id;
    }
  });
  return { margin, binding };
}
