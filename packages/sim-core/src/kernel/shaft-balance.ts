/** Where motor torque meets load: the load at a shaft speed, and the roots in that speed. */
import { currentAtBatteryLimit, followDutyLaw, setDutyLaw, solveDuty } from '../drive/electrical-chain.js';
import { lossTorque, lossTorqueSlope } from '../parts/motor.js';
import { turnPropeller } from '../parts/propeller/propeller-laws.js';
import type { KernelMemory } from './kernel-memory.js';

const ROOT_TOLERANCE = 1e-13;
/** A last Newton step this small, relative to the speed, is taken along the tangents: what is left is its square. */
const TANGENT = 1e-6;
/** How far a line through two speeds is followed, in spans between them [1]. */
const FARTHEST = 6;
const MOST_ITERATIONS = 200;
/** No propeller of a model turns faster [rad/s]; a thrust that would need more does not exist. */
const FASTEST = 1e5;

/** Propeller load at the point's motor speed: torque at the motor's shaft and force on the vehicle, into the point; dM/dω into `memory.loadSlope`. */
export function loadAt(memory: KernelMemory): void {
  const { point, propeller, slowing } = memory;
  const { load } = memory.system;
  if (load.kind === 'wheel') return;
  point.driverSpeed = propeller.angularSpeed = point.speed * slowing;
  propeller.advanceSpeed = memory.advance;
  turnPropeller(load, memory.medium, propeller);
  point.outsideTable = propeller.outside;
  memory.loadSlope = propeller.torqueSlope * slowing * (propeller.torque >= 0 ? memory.torqueTaken : memory.torqueGiven);
  takeLoad(memory);
}

/** The propeller's torque and thrust as motor and vehicle see them. */
function takeLoad({ point, propeller, system, torqueTaken, torqueGiven }: KernelMemory): void {
  const { load } = system;
  if (load.kind === 'wheel') return;
  point.driverTorque = propeller.torque;
  point.thrust = propeller.thrust;
  point.force = propeller.thrust * (1 - load.thrustDeduction);
  point.loadTorque = propeller.torque * (propeller.torque >= 0 ? torqueTaken : torqueGiven);
}

/** Blades folded back: nothing is taken and nothing given. */
export function foldBlades(memory: KernelMemory): void {
  const { point } = memory;
  point.driverSpeed = point.speed * memory.slowing;
  point.loadTorque = point.force = point.thrust = point.driverTorque = point.outsideTable = 0;
  memory.loadSlope = 0;
}

/** Most motor current [A] that the controller's limits leave at the chain's back-EMF, and its slope in it, into `memory.most`. */
export function mostCurrent({ system, chain, chainPoint, most, motorLimit }: KernelMemory): void {
  const { batteryCurrentLimit } = system.controller;
  most.current = motorLimit;
  most.slope = 0;
  if (batteryCurrentLimit !== Number.POSITIVE_INFINITY) {
    const held = currentAtBatteryLimit(chain, batteryCurrentLimit, chainPoint.backEmf);
    if (held.current < motorLimit) {
      most.current = held.current;
      most.slope = held.slope;
    }
  }
}

const residual = { value: 0, slope: 0, newton: 0 };
/** Torque balance at the point's motor speed for the memory's duty, or its fixed current where that is a number, into `residual`. */
function balance(memory: KernelMemory): void {
  const { point, chain, chainPoint, system, flux, fixedCurrent, duty, most } = memory;
  if (memory.folded) foldBlades(memory);
  else loadAt(memory);
  const { speed, torqueConstant } = point;
  let current = 0;
  let slope = 0;
  if (!Number.isNaN(fixedCurrent)) current = fixedCurrent;
  else if (duty > 0) {
    chainPoint.duty = duty;
    chainPoint.backEmf = torqueConstant * speed;
    followDutyLaw(memory.dutyLaw, chainPoint);
    if (chainPoint.current < 0) solveDuty(chain, chainPoint);
    mostCurrent(memory);
    const limited = chainPoint.current > most.current;
    current = limited ? most.current : chainPoint.current;
    slope = limited ? most.slope : chainPoint.currentSlope;
  }
  residual.value = torqueConstant * current - lossTorque(system.motor, speed, flux) - point.loadTorque;
  residual.slope = torqueConstant * torqueConstant * slope - lossTorqueSlope(system.motor, speed, flux) - memory.loadSlope;
  residual.newton = -residual.value / residual.slope;
}

/** Takes Newton's last step, the load along its slope; false where the motor does not drive there. */
function stepAlong(memory: KernelMemory): boolean {
  const { point, propeller, chainPoint } = memory;
  const { newton } = residual;
  if (memory.duty > 0 && Number.isNaN(memory.fixedCurrent)) {
    if (!(chainPoint.current > 0)) return false;
    chainPoint.backEmf += point.torqueConstant * newton;
    followDutyLaw(memory.dutyLaw, chainPoint);
    if (!(chainPoint.current > 0)) return false;
  }
  const turned = newton * memory.slowing;
  point.speed += newton;
  point.driverSpeed += turned;
  if (!memory.folded) {
    propeller.torque += propeller.torqueSlope * turned;
    propeller.thrust += propeller.thrustSlope * turned;
    takeLoad(memory);
  }
  return true;
}

/** Begins where the root is to be expected: on the line through the last two speeds found in this step at other times, else at the last one. */
function beginSearch({ point, warmSpeed, warmTime, formerSpeed, formerTime, solvedTime, duty, chain }: KernelMemory): void {
  if (!(warmSpeed > 0)) {
    point.speed = Math.max(1, (0.7 * duty * chain.emf) / point.torqueConstant);
    return;
  }
  point.speed = warmSpeed;
  const span = warmTime - formerTime;
  const ahead = solvedTime - warmTime;
  if (Math.abs(ahead) <= FARTHEST * Math.abs(span)) {
    const expected = warmSpeed + ((warmSpeed - formerSpeed) / span) * ahead;
    if (expected > 0) point.speed = expected;
  }
}

/** The point's speed is the root; remembers it and the one before it at another time. */
function settle(memory: KernelMemory): void {
  const { point } = memory;
  point.unstable = residual.slope > 0;
  point.stalled = false;
  if (memory.solvedTime !== memory.warmTime) {
    memory.formerSpeed = memory.warmSpeed;
    memory.formerTime = memory.warmTime;
    memory.warmTime = memory.solvedTime;
  }
  memory.warmSpeed = point.speed;
}

/**
 * Root of the torque balance in ω ≥ 0, as the point's speed [rad/s]: warm Newton, guarded by a bracket; standing still is an inequality. Load
 * and chain are left as they are at the root. NaN where it does not settle. Numbers pass in the records: a call that takes or returns one
 * allocates it.
 */
export function balanceSpeed(memory: KernelMemory): void {
  const { point } = memory;
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  beginSearch(memory);
  memory.dutyLaw.duty = memory.duty;
  if (memory.duty > 0) setDutyLaw(memory.chain, 1, memory.dutyLaw);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    balance(memory);
    if (Number.isNaN(residual.value)) break;
    const { speed } = point;
    if (residual.value > 0) low = speed;
    else high = speed;
    const size = Math.abs(residual.newton);
    // convergence is tested before the guard, else rounding at the root spoils the error control of the integrator
    if (
      size <= ROOT_TOLERANCE * speed + 1e-12 ||
      (high < Number.POSITIVE_INFINITY && high - low <= ROOT_TOLERANCE * high) ||
      (size <= TANGENT * speed && stepAlong(memory))
    ) {
      settle(memory);
      return;
    }
    let next = speed + residual.newton;
    if (!(next > low && next < high)) {
      if (low === 0 && next <= 0) {
        // nothing positive found yet: does the shaft turn at all?
        if (high < 1e-6) {
          point.speed = 0;
          balance(memory);
          if (residual.value <= 0) {
            point.stalled = true;
            return;
          }
        }
        next = 0.2 * high;
      } else next = high === Number.POSITIVE_INFINITY ? 2 * speed + 10 : 0.5 * (low + high);
    }
    point.speed = next;
  }
  point.speed = Number.NaN; // never a speed that did not settle
}

/** Motor speed [rad/s] at which the propeller gives `thrust` [N] at the present speed of advance; NaN where none below 1e5 rad/s does. */
export function speedForThrust(memory: KernelMemory, thrust: number): number {
  const { propeller, medium, advance } = memory;
  const { load, gearbox } = memory.system;
  if (load.kind !== 'propeller') return Number.NaN;
  propeller.advanceSpeed = advance;
  const at = (speed: number): void => {
    propeller.angularSpeed = speed;
    turnPropeller(load, medium, propeller);
  };
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
