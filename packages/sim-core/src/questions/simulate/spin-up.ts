/**
 * When a propeller's shaft turns by its inertia in a run, and when its speed follows the balance of torques at once.
 *
 * It turns freely in steps that hold throttle or motor current. Those that hold vehicle speed, shaft speed, thrust, battery power or battery current tell the speed at every
 * moment themselves; there it follows, and the account says what energy that gave the shaft. Its time constant is some 10 to 100 ms where the vehicle's is
 * seconds and the heat's minutes: once the shaft lags its steady speed by less than 1e-4 of it, it follows too, until the step ends. An explicit method
 * then never pays for the stiffness, and what is neglected is of the size of the lag.
 * *Source* quasi-steady states of fast variables: H. K. Khalil, Nonlinear Systems, 3rd ed., ch. 11 (from memory).
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep, Ramp } from '../../drive/profile.js';
import type { Kernel } from '../../kernel/kernel.js';

/** What of a kernel tells of its shaft. */
export type ShaftOfKernel = Pick<Kernel, 'at' | 'dimension' | 'point' | 'turningInertia' | 'turnFreely' | 'solve' | 'shaftAcceleration'>;

/** Lag behind the steady speed that is neglected, as a share of it [1]. */
const LAG = 1e-4;
/** First stretch of a step, in mechanical time constants; e⁻¹² of the jump is left of a linear one [1]. */
const STRETCH = 12;
/** Change of speed by which the time constant is taken, as a share of it [1]. */
const NUDGE = 1e-4;

export interface SpinUp {
  /** A step begins, or goes on at full throttle in place of its hold. */
  begin(step: ProfileStep): void;
  /** How far to integrate before `reached` is asked again, at most to `target` [s]. */
  until(time: number, target: number): number;
  /** Takes note of what was reached; `y` gets the shaft's speed where it follows. */
  reached(time: number, y: Float64Array): void;
}

const FOLLOWS: SpinUp = { begin: () => {}, until: (_, target) => target, reached: () => {} };

/** J·R/k_t² of motor, controller and wiring, cold [s]. */
export function mechanicalTime(kernel: ShaftOfKernel, { motor, controller, wiring }: DriveSystem): number {
  return (kernel.turningInertia() * (motor.resistance + controller.pathResistance + wiring.resistance)) / motor.torqueConstant ** 2;
}

const isSteady = (ramp: Ramp | undefined): boolean => ramp === undefined || ramp.from === ramp.to;

export function spinUp(kernel: ShaftOfKernel, system: DriveSystem): SpinUp {
  const { shaft } = kernel.at;
  if (shaft < 0) return FOLLOWS;
  const first = STRETCH * mechanicalTime(kernel, system);
  const nudged = new Float64Array(kernel.dimension);
  let free = false;
  let steady = true;
  let stretch = first;

  /** Lag behind the steady speed, as a share of the speed; the local time constant from two rates. */
  function lag(time: number, y: Float64Array): number {
    const { speed } = kernel.point;
    const rate = kernel.shaftAcceleration();
    // a shaft that rests may still be about to start where what is held changes
    if (rate === 0 && steady) return 0;
    if (speed === 0) return Number.POSITIVE_INFINITY;
    nudged.set(y);
    nudged[shaft] = speed * (1 + NUDGE);
    kernel.solve(time, nudged);
    const fall = rate - kernel.shaftAcceleration();
    return fall > 0 ? (Math.abs(rate) * NUDGE) / fall : Number.POSITIVE_INFINITY;
  }

  return {
    begin(step) {
      free = step.hold === 'throttle' || step.hold === 'motorCurrent';
      steady = isSteady(step.value) && isSteady(step.vehicleSpeed);
      stretch = first;
      kernel.turnFreely(free);
    },
    until(time, target) {
      if (!free) return target;
      const next = time + stretch;
      stretch *= 2;
      return Math.min(next, target);
    },
    reached(time, y) {
      // what lies below rest is the integrator's tolerance
      if (y[shaft] < 0) y[shaft] = 0;
      kernel.solve(time, y);
      if (free && lag(time, y) <= LAG) {
        free = false;
        kernel.turnFreely(false);
        kernel.solve(time, y);
      }
      if (!free) y[shaft] = kernel.point.speed;
    },
  };
}
