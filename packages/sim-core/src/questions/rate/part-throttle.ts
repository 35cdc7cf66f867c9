/** Equilibrium across the throttle on the scenario's own load, and the throttles to avoid: computed, never a rule. @module */

import { HEAT_LIMITS, type HeatLimitId } from '../../drive/heat-limits.js';
import { controllerLossIn } from '../../drive/power-terms.js';
import type { PartThrottleResult, ThrottlePoint } from '../../results/part-throttle-result.js';
import type { HeldDrive } from './held-drive.js';
import { nearest } from './rated-point.js';

export const THROTTLES: readonly number[] = [...Array.from({ length: 19 }, (_, k) => 0.1 + 0.05 * k)].map((d) => Math.round(d * 100) / 100);

/** What the sweep keeps of each throttle for the ratings; full throttle is the last. */
export interface SweptThrottle {
  readonly throttle: number;
  readonly state: Float64Array | undefined;
  readonly margin: number;
  readonly binding: HeatLimitId;
}

/** Sweeps the throttle with the pack held at the drive's charge. */
export function sweepThrottle(
  drive: HeldDrive,
  throttles: readonly number[] = THROTTLES,
): { partThrottle: PartThrottleResult; swept: SweptThrottle[] } {
  const { kernel, state } = drive;
  const points: ThrottlePoint[] = [];
  const swept: SweptThrottle[] = [];
  const margins: (readonly number[])[] = [];
  drive.cold();
  for (const throttle of throttles) {
    drive.hold(throttle);
    const settled = drive.settle();
    if (!settled) drive.cold();
    if (!settled && !drive.settleSpeed()) continue;
    kernel.solve(0, state);
    const { point } = kernel;
    if (point.stalled && !settled) continue;
    points.push({
      throttle,
      vehicleSpeed: state[kernel.at.speed],
      shaftSpeed: point.speed,
      motorCurrent: point.current,
      batteryCurrent: point.packCurrent,
      controllerLoss: controllerLossIn(kernel.powers(state)),
      ...(settled
        ? { controllerTemperature: drive.temperature('controllerTemperature'), windingTemperature: drive.temperature('windingTemperature') }
        : {}),
    });
    const { margin, binding } = settled ? nearest(drive) : { margin: Number.NEGATIVE_INFINITY, binding: 'windingTemperature' as const };
    swept.push({ throttle, state: settled ? state.slice() : undefined, margin, binding });
    margins.push(HEAT_LIMITS.map((id) => (settled ? drive.bounds[id] - drive.temperature(id) : Number.NEGATIVE_INFINITY)));
  }
  const full = points[points.length - 1];
  const above = points.filter((each) => full !== undefined && each.controllerLoss > full.controllerLoss * (1 + 1e-9));
  const avoid: PartThrottleResult['avoid'][number][] = [];
  if (full !== undefined) {
    HEAT_LIMITS.forEach((limit, k) => {
      if (!(margins[margins.length - 1][k] >= 0)) return;
      const bad = points.filter((_, at) => margins[at][k] < 0);
      if (bad.length > 0) avoid.push({ from: bad[0].throttle, to: bad[bad.length - 1].throttle, limit });
    });
  }
  return {
    partThrottle: {
      charge: state[kernel.at.charge],
      points,
      ...(above.length === 0 ? {} : { lossier: { from: above[0].throttle, to: above[above.length - 1].throttle } }),
      avoid,
    },
    swept,
  };
}
