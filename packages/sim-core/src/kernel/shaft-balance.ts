/** Where motor torque meets load: the load at a shaft speed, and the roots in that speed. */
import { currentAtBatteryLimit, shiftSpeed, solveAtDuty } from '../drive/electrical-chain.js';
import { torqueBeforeGear } from '../parts/gearbox.js';
import { lossTorque, lossTorqueSlope } from '../parts/motor.js';
import { evaluatePropeller } from '../parts/propeller/propeller-laws.js';
import type { KernelMemory } from './kernel-memory.js';

const ROOT_TOLERANCE = 1e-13;
/** A last Newton step this small, relative to the speed, is taken along the tangents: what is left is its square. */
const TANGENT = 1e-6;
/** How far a line through two speeds is followed, in spans between them [1]. */
const FARTHEST = 6;
const MOST_ITERATIONS = 200;
/** No propeller of a model turns faster [rad/s]; a thrust that would need more does not exist. */
const FASTEST = 1e5;

/** Propeller load at motor speed ω [rad/s]: torque at the motor's shaft and force on the vehicle, into the point; returns dM/dω [N·m·s/rad]. */
export function loadAt(memory: KernelMemory, speed: number, folded: boolean): number {
  const { point, propeller, gearEfficiency } = memory;
  const { load, gearbox } = memory.system;
  if (load.kind === 'wheel') return 0;
  point.driverSpeed = speed / gearbox.ratio;
  if (folded) {
    point.loadTorque = point.force = point.thrust = point.driverTorque = point.outsideTable = 0;
    return 0;
  }
  evaluatePropeller(load, memory.medium, point.driverSpeed, memory.advance, propeller);
  point.driverTorque = propeller.torque;
  point.thrust = propeller.thrust;
  point.force = propeller.thrust * (1 - load.thrustDeduction);
  point.outsideTable = propeller.outside;
  point.loadTorque = torqueBeforeGear(propeller.torque, gearbox.ratio, gearEfficiency);
  const slope = propeller.torqueSlope / gearbox.ratio;
  return propeller.torque >= 0 ? slope / (gearbox.ratio * gearEfficiency) : (slope * gearEfficiency) / gearbox.ratio;
}

const limitedCurrent = { current: 0, slope: 0 };
/** Most motor current [A] that the controller's limits leave at motor speed ω, and its slope in ω; reused record. */
export function mostCurrent({ system, chain, point, motorLimit }: KernelMemory, speed: number): Readonly<typeof limitedCurrent> {
  const { batteryCurrentLimit } = system.controller;
  limitedCurrent.current = motorLimit;
  limitedCurrent.slope = 0;
  if (batteryCurrentLimit !== Number.POSITIVE_INFINITY) {
    const kt = point.torqueConstant;
    const held = currentAtBatteryLimit(chain, batteryCurrentLimit, kt * speed);
    if (held.current < motorLimit) {
      limitedCurrent.current = held.current;
      limitedCurrent.slope = held.slope * kt;
    }
  }
  return limitedCurrent;
}

const residual = { value: 0, slope: 0 };
/** Torque balance at motor speed ω for `duty`, or for `fixedCurrent` where that is a number, into `residual`. */
function balanceAt(memory: KernelMemory, speed: number, duty: number, fixedCurrent: number, folded: boolean): void {
  const { point, chain, chainPoint, system, flux } = memory;
  const slopeLoad = loadAt(memory, speed, folded);
  const kt = point.torqueConstant;
  let current = 0;
  let slope = 0;
  if (!Number.isNaN(fixedCurrent)) current = fixedCurrent;
  else if (duty > 0) {
    solveAtDuty(chain, duty, kt, speed, chainPoint);
    current = chainPoint.current;
    slope = chainPoint.currentSlope;
    const most = mostCurrent(memory, speed);
    if (current > most.current) {
      current = most.current;
      slope = most.slope;
    }
  }
  residual.value = kt * current - lossTorque(system.motor, speed, flux) - point.loadTorque;
  residual.slope = kt * slope - lossTorqueSlope(system.motor, speed, flux) - slopeLoad;
}

/** Moves load and chain from `speed` by `change` [rad/s] along their slopes; false where that does not hold. */
function shiftAlong(memory: KernelMemory, speed: number, change: number, duty: number, fixedCurrent: number, folded: boolean): boolean {
  const { point, propeller, chain, chainPoint, gearEfficiency } = memory;
  const { load, gearbox } = memory.system;
  if (duty > 0 && Number.isNaN(fixedCurrent) && !shiftSpeed(chain, point.torqueConstant, speed, change, chainPoint)) return false;
  if (folded || load.kind === 'wheel') return true;
  const turned = change / gearbox.ratio;
  point.driverSpeed += turned;
  point.driverTorque += propeller.torqueSlope * turned;
  point.thrust += propeller.thrustSlope * turned;
  point.force = point.thrust * (1 - load.thrustDeduction);
  point.loadTorque = torqueBeforeGear(point.driverTorque, gearbox.ratio, gearEfficiency);
  return true;
}

/** Where the root is to be expected: on the line through the last two speeds found in this step at other times, else at the last one [rad/s]. */
function expectedSpeed({ warmSpeed, warmTime, formerSpeed, formerTime, solvedTime }: KernelMemory): number {
  const span = warmTime - formerTime;
  const ahead = solvedTime - warmTime;
  if (!(Math.abs(ahead) <= FARTHEST * Math.abs(span))) return warmSpeed;
  const expected = warmSpeed + ((warmSpeed - formerSpeed) / span) * ahead;
  return expected > 0 ? expected : warmSpeed;
}

/** Remembers a speed found, and the one before it at another time. */
function remember(memory: KernelMemory, speed: number): number {
  if (memory.solvedTime !== memory.warmTime) {
    memory.formerSpeed = memory.warmSpeed;
    memory.formerTime = memory.warmTime;
    memory.warmTime = memory.solvedTime;
  }
  memory.warmSpeed = speed;
  return speed;
}

/**
 * Root of the torque balance in ω ≥ 0 [rad/s]: warm Newton, guarded by a bracket; standing still is an inequality. Load and chain are left
 * as evaluated at the root. NaN where it does not settle.
 */
export function balanceSpeed(memory: KernelMemory, duty: number, fixedCurrent: number, folded: boolean): number {
  const { point, chain } = memory;
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  let speed = memory.warmSpeed > 0 ? expectedSpeed(memory) : Math.max(1, (0.7 * duty * chain.emf) / point.torqueConstant);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    balanceAt(memory, speed, duty, fixedCurrent, folded);
    const newton = -residual.value / residual.slope;
    // convergence is tested before the guard, else rounding at the root spoils the error control of the integrator
    const settled = Math.abs(newton) <= ROOT_TOLERANCE * speed + 1e-12;
    if (Number.isNaN(residual.value)) return Number.NaN;
    if (residual.value > 0) low = speed;
    else high = speed;
    if (settled || (high < Number.POSITIVE_INFINITY && high - low <= ROOT_TOLERANCE * high)) {
      point.unstable = residual.slope > 0;
      point.stalled = false;
      return remember(memory, speed);
    }
    let next = speed + newton;
    if (Math.abs(newton) <= TANGENT * speed && shiftAlong(memory, speed, newton, duty, fixedCurrent, folded)) {
      point.unstable = residual.slope > 0;
      point.stalled = false;
      return remember(memory, next);
    }
    if (!(next > low && next < high)) {
      if (low === 0 && next <= 0) {
        // nothing positive found yet: does the shaft turn at all?
        if (high < 1e-6) {
          balanceAt(memory, 0, duty, fixedCurrent, folded);
          if (residual.value <= 0) {
            point.stalled = true;
            return 0;
          }
        }
        next = 0.2 * high;
      } else next = high === Number.POSITIVE_INFINITY ? 2 * speed + 10 : 0.5 * (low + high);
    }
    speed = next;
  }
  return Number.NaN; // never a speed that did not settle
}

/** Motor speed [rad/s] at which the propeller gives `thrust` [N] at the present speed of advance; NaN where none below 1e5 rad/s does. */
export function speedForThrust(memory: KernelMemory, thrust: number): number {
  const { propeller, medium, advance } = memory;
  const { load, gearbox } = memory.system;
  if (load.kind !== 'propeller') return Number.NaN;
  const at = (speed: number): void => evaluatePropeller(load, medium, speed, advance, propeller);
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  at(0);
  if (propeller.thrust >= thrust) return 0;
  let speed = memory.warmSpeed > 0 ? memory.warmSpeed / gearbox.ratio : 100;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    at(speed);
    const miss = propeller.thrust - thrust;
    if (Number.isNaN(miss)) return Number.NaN;
    const newton = -miss / propeller.thrustSlope;
    if (Math.abs(newton) <= ROOT_TOLERANCE * speed && miss * miss <= 1e-18 * (1 + thrust * thrust)) break;
    if (miss < 0) low = speed;
    else high = speed;
    if (high < Number.POSITIVE_INFINITY && high - low <= ROOT_TOLERANCE * high) break;
    let next = speed + newton;
    if (!(next > low && next < high)) next = high === Number.POSITIVE_INFINITY ? 2 * speed : 0.5 * (low + high);
    if (next > FASTEST) return Number.NaN;
    speed = next;
  }
  return speed * gearbox.ratio;
}
