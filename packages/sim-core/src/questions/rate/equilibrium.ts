/**
 * Where a drive that holds its throttle, or its rotor, settles with the pack at one charge; how soon it passes its limits; which way its heat leaves.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { HEAT_LIMIT_BODY, HEAT_LIMITS, type HeatLimitId } from '../../drive/heat-limits.js';
import { byBody } from '../../heat/heat-paths.js';
import { HEAT_WAY_IDS, type HeatByWay, sharers } from '../../heat/heat-ways.js';
import { brent } from '../../numerics/roots.js';
import { SECONDS_PER_HOUR } from '../../quantities/constants.js';
import type { Equilibrium } from '../../results/equilibrium-result.js';
import type { Settled, Stalled } from '../../results/rating-result.js';
import { runawayTorque } from './continuous-torque.js';
import { type HeldDrive, holdDrive } from './held-drive.js';
import { type SweptThrottle, sweepThrottle } from './part-throttle.js';
import { ratedPoint, temperaturesOf } from './rated-point.js';

/** A limit that takes longer than this to reach is not passed [s]. */
export const LONGEST = 2 * SECONDS_PER_HOUR;

/** The equilibrium at `throttle` (0–1] and `charge` [1], the vehicle at the speed that gives, or at the one that is kept; undefined where the heat finds none. */
export function equilibriumAt(system: DriveSystem, throttle: number, charge: number, vehicleSpeed?: number): Equilibrium | undefined {
  const drive = holdDrive(system, charge, vehicleSpeed);
  drive.hold(throttle);
  if (!drive.settle()) return undefined;
  const { kernel, state } = drive;
  kernel.solve(0, state);
  const outlets = kernel.heatOutlets(state);
  return {
    temperatures: byBody((body) => state[kernel.at[body]]),
    leaves: Object.fromEntries(HEAT_WAY_IDS.map((way) => [way, outlets[way] / sharers(way, system.drives)])) as HeatByWay,
    beyond: Object.fromEntries(
      HEAT_LIMITS.filter((limit) => drive.temperature(limit) > drive.bounds[limit]).map((limit) => [
        HEAT_LIMIT_BODY[limit],
        drive.bounds[limit],
      ]),
    ),
  };
}

/** What full throttle, swept last, settles at, cold pack and parts at the start. */
export function fullThrottle(drive: HeldDrive, swept: readonly SweptThrottle[]): { settled: Settled; speed: number; shaftSpeed: number } {
  const top = swept[swept.length - 1];
  drive.cold();
  drive.hold(1);
  const runs = drive.settleSpeed();
  const cold = ratedPoint(drive);
  if (!runs || top === undefined || top.throttle !== 1)
    return { settled: { kind: 'no-operating-point', motorCurrent: 0, timeToLimit: {} }, speed: 0, shaftSpeed: 1 };
  const timeToLimits = timesToLimits(drive, LONGEST);
  if (top.state === undefined)
    return {
      settled: { kind: 'runaway', motorCurrent: cold.motorCurrent, timeToLimit: timeToLimits },
      speed: cold.vehicleSpeed,
      shaftSpeed: cold.shaftSpeed,
    };
  drive.state.set(top.state);
  drive.hold(1);
  const point = ratedPoint(drive);
  return {
    settled: { kind: 'settled', temperatures: temperaturesOf(drive), motorCurrent: point.motorCurrent, timeToLimit: timeToLimits },
    speed: point.vehicleSpeed,
    shaftSpeed: point.shaftSpeed,
  };
}

/** Time [s] until each limit is passed on its own from the state the drive is in, holding what it holds; `first` stops at the first. */
function timesToLimits(drive: HeldDrive, longest: number, first = false): Partial<Record<HeatLimitId, number>> {
  const times: Partial<Record<HeatLimitId, number>> = {};
  const dense = new Float64Array(drive.live.length);
  drive.advance(longest, (step) => {
    HEAT_LIMITS.forEach((limit) => {
      const place = drive.live.indexOf(drive.kernel.at[HEAT_LIMIT_BODY[limit]]);
      const bound = drive.bounds[limit];
      if (place < 0 || times[limit] !== undefined || step.end[place] < bound) return;
      const over = (t: number): number => {
        step.at(t, dense);
        return dense[place] - bound;
      };
      times[limit] = step.start[place] >= bound ? step.from : brent(over, step.from, step.to, 0.01);
    });
    return !first || Object.keys(times).length === 0;
  });
  return times;
}

/** The first limit passed and when [s]; nothing where none is within `longest`. */
export function firstLimit(drive: HeldDrive, longest: number): { readonly time: number; readonly limit: HeatLimitId } | undefined {
  const already = HEAT_LIMITS.find((limit) => drive.temperature(limit) >= drive.bounds[limit]);
  if (already !== undefined) return { time: 0, limit: already };
  const passed = Object.entries(timesToLimits(drive, longest, true)) as [HeatLimitId, number][];
  if (passed.length === 0) return undefined;
  const [limit, time] = passed.reduce((a, b) => (b[1] < a[1] ? b : a));
  return { time, limit };
}

/** The rotor held at full throttle, from the start's temperatures. */
export function stall(drive: HeldDrive): Stalled {
  drive.cold();
  drive.holdStill();
  drive.kernel.solve(0, drive.state);
  const { current } = drive.kernel.point;
  if (!Number.isFinite(current)) return { kind: 'no-operating-point', motorCurrent: 0, timeToLimit: {} };
  const timeToLimits = timesToLimits(drive, LONGEST);
  return { kind: Object.keys(timeToLimits).length === 0 ? 'settled' : 'runaway', motorCurrent: current, timeToLimit: timeToLimits };
}

/**
 * Whether full throttle, held for ever with the pack at `charge` [1], has no thermal equilibrium: the motor current there and the most that has one [A];
 * undefined where it settles or does not turn at all.
 */
export function runsAway(system: DriveSystem, charge: number): { readonly current: number; readonly bound: number } | undefined {
  const drive = holdDrive(system, charge);
  const full = fullThrottle(drive, sweepThrottle(drive).swept);
  if (full.settled.kind !== 'runaway') return undefined;
  return { current: full.settled.motorCurrent, bound: runawayTorque(system, full.speed, full.shaftSpeed).current };
}
