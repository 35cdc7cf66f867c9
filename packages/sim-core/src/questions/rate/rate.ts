/**
 * What a drive may do for ever, for seconds, and in bursts: root-finding on the same model that `run` integrates, the pack held at one charge.
 *
 * S1 and S3 after IEC 60034-1, along the scenario's own load by throttle at the speed that it settles at, and S1 at the speed of the hardest step
 * too; the short-time times are in seconds, as model practice has them.
 * "Continuous" is the highest throttle below which every swept throttle settles within every temperature limit up to it, found to 1e-4.
 * *Leaves out* the pack's emptying, electrical and mechanical limits, the run-up of the vehicle but in S3 and bursts, which begin from rest.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { type ByHeatLimit, byHeatLimit, HEAT_LIMIT_BODY, HEAT_LIMITS, type HeatLimitId } from '../../drive/heat-limits.js';
import { BODIES, type ByBody, byBody } from '../../heat/heat-paths.js';
import { certain } from '../../problems/certain.js';
import { BODY_CHANNEL } from '../../results/channels.js';
import type { PartThrottleResult } from '../../results/part-throttle-result.js';
import type { AllowedTime, Rating, RatingResult } from '../../results/rating-result.js';
import type { Trace } from '../../results/run-result.js';
import { burstMap } from './burst-map.js';
import { continuousTorque, runawayTorque } from './continuous-torque.js';
import { firstLimit, fullThrottle, LONGEST, stall } from './equilibrium.js';
import { type HeldDrive, holdDrive } from './held-drive.js';
import { type SweptThrottle, sweepThrottle } from './part-throttle.js';
import { nearest, ratedPoint } from './rated-point.js';
import { settleCycle } from './settled-cycle.js';

export interface RateAsk {
  /** State of charge at which the pack is held [1]. */
  readonly charge: number;
  /** Time of one cycle of the intermittent ratings [s]; IEC 60034-1 has 10 min. */
  readonly cycle: number;
  /** Temperatures that "warm" stands for, by body [K]; the start's where left out. */
  readonly warm?: ByBody;
  /** Speed [m/s] and name of the run's hardest step. */
  readonly hardest?: { readonly label: string; readonly vehicleSpeed: number };
}

export const STANDARD_CYCLE = 600;
/** Charge at which a pack is rated where nobody says: its middle [1]. */
export const STANDARD_CHARGE = 0.5;
const DUTIES = [0.15, 0.25, 0.4, 0.6];

/** Mean temperature of each body over a recorded run [K]. */
export function meanWarmth(trace: Trace): ByBody {
  const { time } = trace;
  return byBody((body) => {
    const row = trace[BODY_CHANNEL[body]];
    if (time.length < 2) return row[0];
    let area = 0;
    for (let k = 1; k < time.length; k++) area += 0.5 * (row[k] + row[k - 1]) * (time[k] - time[k - 1]);
    return area / (time[time.length - 1] - time[0]);
  });
}

/** All ratings of one drive. Throws RangeError on a charge or cycle out of range. */
export function rate(system: DriveSystem, ask: RateAsk): { readonly rating: RatingResult; readonly partThrottle: PartThrottleResult } {
  const { charge, cycle } = ask;
  if (!(charge > 0 && charge <= 1)) throw new RangeError(`A pack is held at a charge above 0 and at most 100 %, not ${charge}.`);
  if (!(cycle > 0)) throw new RangeError(`A cycle takes some time, not ${cycle} s.`);
  const drive = holdDrive(system, charge);
  const { partThrottle, swept } = sweepThrottle(drive);
  const continuous = continuousRating(drive, swept);
  const s1 = continuous.kind === 'none' ? 0 : continuous.point.throttle;
  const full = fullThrottle(drive, swept);
  const hardest = hardestRating(system, ask, full.speed);
  const warm = ask.warm ?? bodiesCold(drive);
  const settledSpeed = full.speed;
  const speeds = Array.from({ length: 13 }, (_, k) => (1.15 * full.shaftSpeed * k) / 12);
  const torque = continuousTorque(system, settledSpeed, speeds);
  return {
    partThrottle,
    rating: {
      charge,
      continuous,
      motorAlone: aloneRating(system, charge),
      ...(hardest === undefined ? {} : { hardest }),
      shortTime: {
        fromCold: shortTimes(drive, s1, bodiesCold(drive)),
        fromWarm: shortTimes(drive, s1, warm),
        warm: byHeatLimit((id) => warm[HEAT_LIMIT_BODY[id]]),
        longest: LONGEST,
      },
      intermittent: { cycle, duties: DUTIES.map((duty) => ({ duty, rating: intermittent(drive, duty, cycle, s1, continuous) })) },
      bursts: burstMap(drive),
      continuousTorque: { vehicleSpeed: settledSpeed, shaftSpeed: speeds, ...torque },
      fullThrottle: full.settled,
      stall: stall(drive),
      runaway: { shaftSpeed: full.shaftSpeed, ...runawayTorque(system, settledSpeed, full.shaftSpeed) },
    },
  };
}

/** S1 with the limits of controller and pack taken away, at a kept speed where one is given. */
function aloneRating(system: DriveSystem, charge: number, vehicleSpeed?: number): Rating {
  const none = Number.POSITIVE_INFINITY;
  const alone = { ...system, limits: { ...system.limits, controllerTemperature: none, cellTemperature: none } };
  const drive = holdDrive(alone, charge, vehicleSpeed);
  return continuousRating(drive, sweepThrottle(drive).swept);
}

/** A speed that differs by less than this from the settled one is that one [1]. */
const SAME_SPEED = 0.05;

/** S1 at the speed of the hardest step, where that is another than the drive settles at. */
function hardestRating(system: DriveSystem, { charge, hardest }: RateAsk, settledSpeed: number): RatingResult['hardest'] {
  if (hardest === undefined || system.vehicle.carriedBy === 'bench') return undefined;
  const { label, vehicleSpeed } = hardest;
  if (Math.abs(vehicleSpeed - settledSpeed) <= SAME_SPEED * settledSpeed) return undefined;
  // a wheel's motor turns as the vehicle rolls: what it gives beyond the way's drag speeds the vehicle up, and is no load that lasts
  if (system.load.kind === 'wheel') return undefined;
  const drive = holdDrive(system, charge, vehicleSpeed);
  const { swept } = sweepThrottle(drive);
  return {
    label,
    vehicleSpeed,
    continuous: continuousRating(drive, swept),
    motorAlone: aloneRating(system, charge, vehicleSpeed),
    fullThrottle: fullThrottle(drive, swept).settled,
  };
}

function bodiesCold({ kernel }: HeldDrive): ByBody {
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  return byBody((body) => y[kernel.at[body]]);
}

function setBodies(drive: HeldDrive, bodies: ByBody): void {
  drive.cold();
  // bodies that share a state take the last one's temperature; they are given as equal
  for (const body of BODIES) drive.state[drive.kernel.at[body]] = bodies[body];
}

/** Stands for the margin where there is no equilibrium or settled cycle [K]. */
const NONE = Number.NEGATIVE_INFINITY;
const LEAST_THROTTLE = 0.1;

/** Highest throttle found to keep its margin, between one that keeps it and one that does not, within `tolerance`: straight lines, halved where they stick. */
export function lastThatKeeps(
  margin: (throttle: number) => number,
  keeps: number,
  keptBy: number,
  fails: number,
  failsBy: number,
  tolerance: number,
): number {
  let [low, lowMargin, high, highMargin] = [keeps, keptBy, fails, failsBy];
  for (let turn = 0; high - low > tolerance; turn++) {
    const straight = low + ((high - low) * lowMargin) / (lowMargin - highMargin);
    const sure = turn % 3 === 2 || highMargin === NONE;
    // a little to the failing side of the line's root, so that both ends close in
    const next = sure ? 0.5 * (low + high) : Math.min(high - 0.2 * tolerance, Math.max(low + 0.2 * tolerance, straight + 0.3 * tolerance));
    const found = margin(next);
    if (found >= 0) [low, lowMargin] = [next, found];
    else [high, highMargin] = [next, found];
    if (found >= 0 && found < 0.05) break;
  }
  return low;
}

const settleAt = (drive: HeldDrive, throttle: number): { margin: number; binding: HeatLimitId } => {
  drive.hold(throttle);
  return drive.settle() ? nearest(drive) : { margin: NONE, binding: 'windingTemperature' };
};

/** S1: from the top down to the highest throttle that settles within every limit. */
export function continuousRating(drive: HeldDrive, swept: readonly SweptThrottle[]): Rating {
  const top = swept[swept.length - 1];
  if (top === undefined) return { kind: 'none', binding: 'windingTemperature' };
  let good = swept.length - 1;
  while (good >= 0 && !(swept[good].margin >= 0)) good--;
  if (good < 0) return { kind: 'none', binding: swept[0].binding };
  const settled = certain(swept[good].state, 'state of a throttle that settles');
  drive.state.set(settled);
  if (good === swept.length - 1) {
    settleAt(drive, top.throttle);
    return { kind: 'full-throttle', point: ratedPoint(drive) };
  }
  let { binding } = swept[good + 1];
  const throttle = lastThatKeeps(
    (d) => {
      const found = settleAt(drive, d);
      if (found.margin === NONE) drive.state.set(settled);
      else if (found.margin < 0) binding = found.binding;
      return found.margin;
    },
    swept[good].throttle,
    swept[good].margin,
    swept[good + 1].throttle,
    swept[good + 1].margin,
    2e-4,
  );
  settleAt(drive, throttle);
  return { kind: 'limited', binding, point: ratedPoint(drive) };
}

export function shortTimes(drive: HeldDrive, s1: number, from: ByBody): AllowedTime[] {
  const out: AllowedTime[] = [];
  const throttles = s1 >= 1 ? [1] : [0.015, 0.05, 0.12, 0.22, 0.35, 0.5, 0.65, 0.82, 1].map((share) => s1 + (1 - s1) * share);
  for (const throttle of throttles) {
    setBodies(drive, from);
    drive.hold(throttle);
    if (!drive.settleSpeed()) continue;
    const point = ratedPoint(drive);
    const passed = firstLimit(drive, LONGEST);
    out.push({
      throttle,
      motorCurrent: point.motorCurrent,
      inputPower: point.inputPower,
      shaftPower: point.shaftPower,
      ...(passed === undefined ? { kind: 'for-ever' } : { kind: 'until', time: passed.time, binding: passed.limit }),
    });
  }
  return out;
}

/** S3: the throttle whose settled cycle just keeps every limit. */
export function intermittent(drive: HeldDrive, duty: number, cycle: number, s1: number, continuous: Rating): Rating {
  const peaks = new Float64Array(HEAT_LIMITS.length);
  let binding: HeatLimitId = continuous.kind === 'full-throttle' ? 'windingTemperature' : continuous.binding;
  const margin = (throttle: number): number => {
    if (!settleCycle(drive, throttle, duty * cycle, (1 - duty) * cycle, peaks)) {
      drive.cold();
      return NONE;
    }
    const found = nearest(drive, peaks);
    if (found.margin < 0) binding = found.binding;
    return found.margin;
  };
  const told = (): ByHeatLimit => byHeatLimit((_, k) => peaks[k]);
  const rated = (throttle: number) => {
    margin(throttle);
    drive.hold(throttle);
    // the figures of a burst are those it comes to, not those of the standstill it begins from
    drive.settleSpeed();
    return ratedPoint(drive, told());
  };
  drive.cold();
  const top = margin(1);
  if (top >= 0) return { kind: 'full-throttle', point: rated(1) };
  let [low, high, highBy] = [s1 > 0 ? s1 : LEAST_THROTTLE, 1, top];
  let lowBy = margin(low);
  if (!(lowBy >= 0) && low > LEAST_THROTTLE) {
    // a rest without the wind of the way may cost more than it gives
    [high, highBy, low] = [low, lowBy, LEAST_THROTTLE];
    lowBy = margin(low);
  }
  if (!(lowBy >= 0)) return { kind: 'none', binding };
  const throttle = lastThatKeeps(margin, low, lowBy, high, highBy, 1e-3);
  const point = rated(throttle);
  return { kind: 'limited', binding, point };
}
