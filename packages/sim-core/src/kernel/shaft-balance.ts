/** Where motor torque meets load: the load at a shaft speed, and the roots in that speed. @module */

import { currentAtBatteryLimit } from '../drive/battery-limit.js';
import { bendDutyLaw, drawBusCurrent, followDutyLaw, setDutyLaw, solveAtDuty, solveDuty, stepDutyLaw } from '../drive/duty-law.js';
import { lossTorque, lossTorqueSlope } from '../parts/motor.js';
import { turnPropeller } from '../parts/propeller/propeller-laws.js';
import type { KernelMemory } from './kernel-memory.js';

const ROOT_TOLERANCE = 1e-13;
/** A last step this small, relative to the speed, is taken along load and chain as they curve: what is left is its third power. */
const LAST_STEP = 1e-4;
/** Share of a voltage below which it is not lower than another, and of a speed below which a step is none [1]. */
const ROUNDING = 1e-9;
/** Share of the last root below which a forecast is not believed [1]. */
const NEAREST = 0.5;
const MOST_ITERATIONS = 200;
/** Iterations after which the bracket is halved: the balance jumps, as where a pack collapses, and no slope leads to where. */
const NEWTON_LEADS = 100;
/** Below this a shaft is tried at rest [rad/s]. */
const SLOWEST = 1e-6;
/** No propeller of a model turns faster [rad/s]; a thrust that would need more does not exist. */
const FASTEST = 1e5;

/** Propeller load at the point's motor speed: torque at the motor's shaft and force on the vehicle, into the point; dM/dω into `memory.loadSlope`. */
export function loadAt(memory: KernelMemory): void {
  const { point, propeller, inverseRatio } = memory;
  const { load } = memory.system;
  if (load.kind === 'wheel') return;
  point.driverSpeed = propeller.angularSpeed = point.speed * inverseRatio;
  propeller.advanceSpeed = memory.advance;
  turnPropeller(load, memory.medium, propeller);
  point.outsideTable = propeller.outside;
  memory.loadSlope = propeller.torqueSlope * inverseRatio * (propeller.torque >= 0 ? memory.torqueTaken : memory.torqueGiven);
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
  point.driverSpeed = point.speed * memory.inverseRatio;
  point.loadTorque = point.force = point.thrust = point.driverTorque = point.outsideTable = 0;
  memory.loadSlope = 0;
}

/**
 * Most motor current [A] that the controller's limits leave at the chain's back-EMF, and its slope in it, into `memory.most`. Beyond the pack's
 * greatest power less motor current flows the more is drawn: the bus voltage tells there whether the limit is passed.
 */
export function mostCurrent({ system, chain, chainPoint, most, motorLimit, letGo }: KernelMemory): void {
  const { batteryCurrentLimit } = system.controller;
  most.current = motorLimit;
  most.slope = 0;
  most.busVoltage = Number.NEGATIVE_INFINITY;
  if (batteryCurrentLimit !== Number.POSITIVE_INFINITY) {
    const held = currentAtBatteryLimit(chain, batteryCurrentLimit, chainPoint.backEmf, letGo);
    most.busVoltage = held.busVoltage;
    if (held.current < motorLimit) {
      most.current = held.current;
      most.slope = held.slope;
      most.duty = held.duty;
    }
  }
}

/** Whether the chain's point lies beyond the pack's greatest power, which is at half of E; where other loads pull the bus down there, even as the motor brakes. */
export const beyondGreatest = ({ chain, chainPoint }: KernelMemory): boolean =>
  (chainPoint.current !== 0 || chainPoint.starved) && chainPoint.busVoltage < 0.5 * chain.emf;

/** Whether the battery current's limit lies there: what the pack's high voltage drives never passes it, however much it is. */
export const limitBeyondGreatest = ({ chain, most }: KernelMemory): boolean => most.busVoltage < 0.5 * chain.emf;

/** Motor current [A] at the pack's greatest power, at the chain's back-EMF: the most that a throttle meets on its way beyond it. */
export const greatestCurrent = ({ chain, chainPoint }: KernelMemory): number =>
  currentAtBatteryLimit(chain, (0.5 * chain.emf) / chain.sourceResistance - (2 * chain.otherPower) / chain.emf, chainPoint.backEmf, true)
    .current;

/** Whether more flows at the chain's point, or on the way to it, than the limits leave; `memory.most` then is what the one leaves that holds it back. */
export function heldBack(memory: KernelMemory): boolean {
  const { chainPoint, most, motorLimit, letGo } = memory;
  const beyond = beyondGreatest(memory);
  if (!limitBeyondGreatest(memory)) return beyond || chainPoint.current > most.current;
  // a throttle that is opened stops at the motor's limit, though less would flow again beyond
  if (
    chainPoint.current > motorLimit ||
    (beyond && !letGo && motorLimit < Number.POSITIVE_INFINITY && greatestCurrent(memory) > motorLimit)
  ) {
    most.current = motorLimit;
    most.slope = 0;
    return true;
  }
  return beyond && chainPoint.busVoltage < (1 - ROUNDING) * most.busVoltage;
}

/** Braking current [A] where the limiter holds it, and its slope, into `memory.most`: the limit, or full throttle's where even that brakes harder. */
function brakingHeld({ chain, chainPoint, most, motorLimit }: KernelMemory): void {
  const { duty, backEmf } = chainPoint;
  solveAtDuty(chain, 1, backEmf, chainPoint);
  const open = chainPoint.current > -motorLimit;
  most.current = open ? -motorLimit : chainPoint.current;
  most.slope = open ? 0 : chainPoint.currentSlope;
  solveAtDuty(chain, duty, backEmf, chainPoint);
}

const residual = { value: 0, slope: 0, newton: 0, limited: false };
/** Torque balance at the point's motor speed for the memory's duty, or its fixed current where that is a number, into `residual`. */
function balance(memory: KernelMemory): void {
  const { point, chain, chainPoint, system, flux, fixedCurrent, duty, most } = memory;
  if (memory.folded) foldBlades(memory);
  else loadAt(memory);
  const { speed, torqueConstant } = point;
  let current = 0;
  let slope = 0;
  residual.limited = false;
  if (!Number.isNaN(fixedCurrent)) current = fixedCurrent;
  else if (duty > 0) {
    chainPoint.duty = duty;
    chainPoint.backEmf = torqueConstant * speed;
    followDutyLaw(memory.dutyLaw, chainPoint);
    if (chainPoint.current < 0) solveDuty(chain, chainPoint);
    mostCurrent(memory);
    residual.limited = heldBack(memory);
    if (!residual.limited && chainPoint.current < -memory.motorLimit) {
      brakingHeld(memory);
      residual.limited = true;
    }
    current = residual.limited ? most.current : chainPoint.current;
    slope = residual.limited ? most.slope : chainPoint.currentSlope;
  }
  residual.value = torqueConstant * current - lossTorque(system.motor, speed, flux) - point.loadTorque;
  residual.slope = torqueConstant * torqueConstant * slope - lossTorqueSlope(system.motor, speed, flux) - memory.loadSlope;
  residual.newton = -residual.value / residual.slope;
}

/** Takes the last step along slope and curvature of the balance; false where that does not hold: at a limiter, coasting, off the table, beyond the pack's greatest power. */
function stepAlong(memory: KernelMemory): boolean {
  const { point, propeller, chainPoint, most } = memory;
  if (memory.folded || !(memory.duty > 0) || !Number.isNaN(memory.fixedCurrent) || memory.dutyLaw.sinusoidal || residual.limited)
    return false;
  // the motor's limit, which a throttle met on its way there, may be met again within the step
  if (beyondGreatest(memory)) return false;
  const gear = propeller.torque >= 0 ? memory.torqueTaken : memory.torqueGiven;
  bendDutyLaw(memory.dutyLaw, chainPoint);
  const curvature =
    point.torqueConstant * point.torqueConstant * point.torqueConstant * chainPoint.currentCurvature -
    propeller.torqueCurvature * memory.inverseRatio * memory.inverseRatio * gear -
    2 * memory.system.motor.windageTorque;
  const step = residual.newton * (1 - (0.5 * curvature * residual.newton) / residual.slope);
  const emf = point.torqueConstant * step;
  const current = chainPoint.current + chainPoint.currentSlope * emf;
  // NaN at the table's end, where curvature is not known
  if (!(chainPoint.current > 0 && current > 0 && chainPoint.current < most.current && current < most.current + most.slope * emf))
    return false;
  const turned = step * memory.inverseRatio;
  point.speed += step;
  point.driverSpeed += turned;
  stepDutyLaw(memory.dutyLaw, chainPoint, emf);
  propeller.torque += turned * (propeller.torqueSlope + 0.5 * turned * propeller.torqueCurvature);
  propeller.thrust += turned * (propeller.thrustSlope + 0.5 * turned * propeller.thrustCurvature);
  takeLoad(memory);
  return true;
}

/** The next search begins at `speed` [rad/s], wherever voltage, advance and duty have gone. */
export function startFrom(memory: KernelMemory, speed: number): void {
  memory.warmSpeed = speed;
  memory.speedPerAdvance = memory.speedPerEmf = memory.speedPerDuty = 0;
}

/** Begins where the root is to be expected: where the last one has moved to with speed of advance, voltage and duty. */
function beginSearch(memory: KernelMemory): void {
  const { point, warmSpeed, duty, chain } = memory;
  if (!(warmSpeed > 0)) {
    point.speed = Math.max(1, (0.7 * duty * chain.emf) / point.torqueConstant);
    return;
  }
  const expected =
    warmSpeed +
    memory.speedPerAdvance * (memory.advance - memory.warmAdvance) +
    memory.speedPerEmf * (chain.emf - memory.warmEmf) +
    memory.speedPerDuty * (duty - memory.warmDuty);
  point.speed = expected > NEAREST * warmSpeed ? expected : warmSpeed;
}

/** Battery side current at the root; braked or freewheeling, the chain has told it already. */
function tellBusCurrent({ duty, dutyLaw, chainPoint }: KernelMemory): void {
  if (duty > 0 && chainPoint.current > 0) drawBusCurrent(dutyLaw, chainPoint);
}

/** The point's speed is the root; remembers it and, by the theorem of implicit functions, how it moves. */
function settle(memory: KernelMemory): void {
  const { point, chain, chainPoint, advance } = memory;
  point.unstable = residual.slope > 0;
  point.stalled = memory.atRest = false;
  tellBusCurrent(memory);
  memory.warmSpeed = point.speed;
  memory.warmAdvance = advance;
  memory.warmEmf = chain.emf;
  memory.warmDuty = memory.duty;
  const drives = memory.duty > 0 && chainPoint.currentSlope < 0;
  const gain = -1 / residual.slope;
  const perVolt = drives ? gain * point.torqueConstant * chainPoint.conductance : 0;
  // the bus carries E and d·i: to first order a rise of duty lifts the motor's voltage by the bus voltage
  memory.speedPerEmf = perVolt * memory.duty;
  memory.speedPerDuty = perVolt * chainPoint.busVoltage;
  // torque goes with the square of ω and V together, so ω·∂M/∂ω + V·∂M/∂V = 2·M
  memory.speedPerAdvance = advance > 0 && !memory.folded ? (gain * (memory.loadSlope * point.speed - 2 * point.loadTorque)) / advance : 0;
}

/** Whether the shaft stands still: the point is then left at rest. */
function restsAt(memory: KernelMemory): boolean {
  const { point } = memory;
  point.speed = 0;
  balance(memory);
  point.stalled = memory.atRest = residual.value <= 0;
  if (point.stalled) tellBusCurrent(memory);
  return point.stalled;
}

/**
 * Root of the torque balance in ω ≥ 0, as the point's speed [rad/s]: warm Newton, guarded by a bracket; standing still is an inequality. Load and
 * chain are left as they are at the root. NaN where it does not settle. Numbers pass in the records: a call that takes or returns one allocates it.
 */
export function balanceSpeed(memory: KernelMemory): void {
  const { point } = memory;
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  memory.hunts = false;
  memory.dutyLaw.duty = memory.duty;
  if (memory.duty > 0) setDutyLaw(memory.chain, 1, memory.dutyLaw);
  // a shaft at rest stays there as long as nothing moves it
  if (memory.atRest && restsAt(memory)) return;
  beginSearch(memory);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    balance(memory);
    if (Number.isNaN(residual.value)) break;
    const { speed } = point;
    if (residual.value > 0) low = speed;
    else high = speed;
    const size = Math.abs(residual.newton);
    const closed = high < Number.POSITIVE_INFINITY && high - low <= ROOT_TOLERANCE * high;
    // convergence is tested before the guard, else rounding at the root spoils the error control of the integrator
    if (size <= ROOT_TOLERANCE * speed + 1e-12 || closed || (size <= LAST_STEP * speed && stepAlong(memory))) {
      settle(memory);
      memory.hunts = closed && size > ROUNDING * speed;
      return;
    }
    let next = speed + residual.newton;
    // nothing positive found yet: does the shaft turn at all? A load without friction only ever halves the speed on its way to rest
    if (low === 0 && high < SLOWEST && restsAt(memory)) return;
    if (!(next > low && next < high) || (iteration > NEWTON_LEADS && high < Number.POSITIVE_INFINITY)) {
      if (low === 0 && next <= 0) next = 0.2 * high;
      else next = high === Number.POSITIVE_INFINITY ? 2 * speed + 10 : 0.5 * (low + high);
    }
    point.speed = next;
  }
  point.speed = Number.NaN; // never a speed that did not settle
}

/** Motor speed [rad/s], `least` at least, at which the propeller gives `thrust` [N] at the present speed of advance; NaN where none below 1e5 rad/s does. */
export function speedForThrust(memory: KernelMemory, thrust: number, least: number): number {
  const { propeller, medium, advance } = memory;
  const { load, gearbox } = memory.system;
  if (load.kind !== 'propeller') return Number.NaN;
  propeller.advanceSpeed = advance;
  const at = (speed: number): void => {
    propeller.angularSpeed = speed;
    turnPropeller(load, medium, propeller);
  };
  let low = least / gearbox.ratio;
  let high = Number.POSITIVE_INFINITY;
  at(low);
  if (propeller.thrust >= thrust) return least;
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
