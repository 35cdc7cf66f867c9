/**
 * What a run notes about its steps beside limits: holds lost, limiters met, braking, stalls, wheels that spin, wings that are flown too slowly.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { type ProfileStep, rampAt } from '../../drive/profile.js';
import type { Kernel } from '../../kernel/kernel.js';
import { asksClimbOfWing } from '../../kernel/motion.js';
import { deratingShare } from '../../parts/controller.js';
import { stallSpeed } from '../../parts/vehicle.js';
import { gripForce } from '../../parts/wheel.js';
import { STANDARD_GRAVITY } from '../../quantities/constants.js';
import type { LimiterKind } from '../../results/finding.js';

/** A step in which a limiter took over: since when [s], which one, the least motor or battery current it left [A], and the least throttle [1]. */
export interface LimitedStep {
  readonly time: number;
  readonly by: LimiterKind;
  readonly bound: number;
  readonly throttle: number;
}

export interface RunNotes {
  /** Holds that were out of reach; `climb` where it was the climb rate that a wing gave up, keeping its speed. */
  readonly lost: readonly {
    readonly step: number;
    readonly time: number;
    /** End of the step [s], where the hold is lost to there. */
    readonly until?: number;
    readonly wanted: number;
    readonly reached: number;
    readonly climb: boolean;
  }[];
  /** Steps in which the controller held the current back. */
  readonly limited: ReadonlyMap<number, LimitedStep>;
  readonly braked: ReadonlySet<number>;
  /** Steps in which the motor stood still with the throttle open, and those whose operating point is not stable. */
  readonly stalled: ReadonlySet<number>;
  readonly unstable: ReadonlySet<number>;
  /** Steps in which the motor's own voltage passed the pack's without a current: first time [s], both [V]. */
  readonly overrun: ReadonlyMap<number, { readonly time: number; readonly voltage: number; readonly bound: number }>;
  /** Steps in which the wheels spun or skidded, with the first time [s] and what the ground takes of all drives [N]. */
  readonly spun: ReadonlyMap<number, { readonly time: number; readonly bound: number }>;
  /** Steps whose held speed a wing keeps only straight up or down: time [s], thrust less drag and weight [N]. */
  readonly vertical: ReadonlyMap<number, { readonly time: number; readonly left: number; readonly weight: number }>;
  /** Steps flown more slowly than the wing carries: time [s], that speed and the slowest that carries [m/s]. */
  readonly tooSlow: ReadonlyMap<number, { readonly time: number; readonly speed: number; readonly bound: number }>;
}

/** Slower than this a vehicle stands [m/s]. */
const AT_REST = 0.1;
/** Two diode drops and the ripple above the pack's voltage, before they conduct [1]. */
const OVERRUN = 1.1;

export interface RunNotebook {
  readonly notes: RunNotes;
  /** A hold is out of reach from `time` on, the point solved last being what is reached in its place; `speed` of the vehicle [m/s]. */
  lose(step: ProfileStep, index: number, time: number, speed: number): void;
  /** What a hold that is lost to the end of its step has reached at the point solved last. */
  reach(step: ProfileStep, index: number, time: number, speed: number): void;
  /** How the point solved last, at (time, y), is driven. */
  mode(index: number, time: number, y: Float64Array): void;
  /** What ground and wing do not bear at the point solved last: at the ends of a step and wherever its way of driving changes; `speed` of the vehicle [m/s]. */
  ground(index: number, time: number, speed: number): void;
}

export function runNotebook(kernel: Kernel, system: DriveSystem): RunNotebook {
  const { point } = kernel;
  const lost: RunNotes['lost'][number][] = [];
  const limited = new Map<number, LimitedStep>();
  const braked = new Set<number>();
  const stalled = new Set<number>();
  const unstable = new Set<number>();
  const overrun = new Map<number, { time: number; voltage: number; bound: number }>();
  const spun = new Map<number, { time: number; bound: number }>();
  const vertical = new Map<number, { time: number; left: number; weight: number }>();
  const tooSlow = new Map<number, { time: number; speed: number; bound: number }>();

  function reached(step: ProfileStep, speed: number): number {
    if (asksClimbOfWing(system, step)) return point.climb * speed;
    switch (step.hold) {
      case 'vehicleSpeed':
        return speed;
      case 'shaftSpeed':
        return point.speed;
      case 'motorCurrent':
        return point.current;
      case 'thrust':
        return point.force;
      case 'batteryPower':
        return point.busVoltage * point.packCurrent;
      case 'batteryCurrent':
        return point.packCurrent;
      case 'throttle':
        return point.duty;
    }
  }

  function noteLimited(index: number, time: number, y: Float64Array): void {
    const { controller } = system;
    const share = deratingShare(controller, y[kernel.at.controller]);
    const motor = controller.motorCurrentLimit * share;
    const by = point.limit < motor * (1 - 1e-9) ? 'battery' : share < 1 ? 'heat' : 'motor';
    const bound = by === 'battery' ? controller.batteryCurrentLimit : motor;
    const before = limited.get(index);
    if (before === undefined) limited.set(index, { time, by, bound, throttle: point.duty });
    else if (point.duty < before.throttle) limited.set(index, { time: before.time, by, bound, throttle: point.duty });
  }

  return {
    notes: { lost, limited, braked, stalled, unstable, overrun, spun, vertical, tooSlow },
    lose(step, index, time, speed) {
      const climb = asksClimbOfWing(system, step);
      const wanted = climb ? step.climb.to : rampAt(step.value, kernel.share(time));
      lost.push({ step: index, time, wanted, reached: reached(step, speed), climb });
    },
    reach(step, index, time, speed) {
      const open = lost[lost.length - 1];
      if (open === undefined || open.step !== index) return;
      const wanted = open.climb ? open.wanted : step.value.to;
      lost[lost.length - 1] = { ...open, until: time, wanted, reached: reached(step, speed) };
    },
    mode(index, time, y) {
      if (point.duty > 0 && point.limit < Number.POSITIVE_INFINITY && point.currentUnlimited >= point.limit * (1 - 1e-9))
        noteLimited(index, time, y);
      if (point.braked) braked.add(index);
      if (point.stalled && point.duty > 0 && point.current > 0) stalled.add(index);
      if (point.unstable) unstable.add(index);
    },
    ground(index, time, speed) {
      if ((point.spinning || point.gripLeft < 0) && system.load.kind === 'wheel' && !spun.has(index))
        spun.set(index, { time, bound: gripForce(system.load, system.vehicle.mass, point.climb) });
      const held = kernel.heldSpeed(time);
      const bound = stallSpeed(system.vehicle, point.climb);
      if (system.vehicle.carriedBy === 'wing' && held > 0 && Math.abs(point.climb) === 1 && !vertical.has(index)) {
        const left = system.drives * point.force - point.drag;
        const weight = system.vehicle.mass * STANDARD_GRAVITY;
        // a climb that was asked for straight up balances
        if (Math.abs(left - weight) > 1e-3 * weight) vertical.set(index, { time, left, weight });
      }
      const voltage = point.torqueConstant * point.speed;
      if (point.current === 0 && voltage > OVERRUN * point.busVoltage && !overrun.has(index))
        overrun.set(index, { time, voltage, bound: point.busVoltage });
      // a vehicle at rest is not flying
      const flown = Number.isNaN(held) ? speed : held;
      if (flown > AT_REST && flown < bound && !((tooSlow.get(index)?.speed ?? Number.POSITIVE_INFINITY) <= flown))
        tooSlow.set(index, { time, speed: flown, bound });
    },
  };
}
