/** The operating point at (t, y): parameters at the present temperatures, the step's hold, then the vehicle's motion. @module */

import { dutyUnderRipple } from '../drive/battery-limit.js';
import { collapsed, LEAST_DUTY, overloaded } from '../drive/electrical-chain.js';
import { rampAt } from '../drive/profile.js';
import { activationFactor, openCircuitVoltage, resistanceFactor, surfaceCharge } from '../parts/battery/battery.js';
import { deratingShare, pathResistanceAt, rippleLoss } from '../parts/controller.js';
import { fluxRatio, inputPower, reactiveShare, windingResistance } from '../parts/motor.js';
import { holdBatteryDraw, holdMotorCurrent, holdShaftSpeed, holdThrottle, holdThrust, holdVehicleSpeed } from './holds.js';
import type { KernelMemory } from './kernel-memory.js';
import { climbAt, givesUpClimb, limitsOfGrip, moveUnderForce, shareAt } from './motion.js';
import { turnFaster } from './turning-shaft.js';

/** Whether (t, y) is the place solved last: a step's end is asked for by stepper, margins and observer in turn. */
function alreadySolved({ solvedTime, solvedState, dimension }: KernelMemory, t: number, y: Float64Array): boolean {
  if (t !== solvedTime) return false;
  for (let k = 0; k < dimension; k++) if (y[k] !== solvedState[k]) return false;
  return true;
}

/** Everything that follows from the state alone. */
function prepare(memory: KernelMemory, y: Float64Array): void {
  const { system, at, point, chain } = memory;
  const { battery, motor, controller, load, wiring } = system;
  const cells = y[at.cells];
  const charge = y[at.charge];
  const slow = y[at.polarisation];
  if (cells !== memory.activatedAt || charge !== memory.factorCharge) {
    if (cells !== memory.activatedAt) memory.activated = activationFactor(battery, cells);
    memory.activatedAt = cells;
    memory.factorCharge = charge;
    memory.cellFactor = resistanceFactor(battery, memory.activated, charge);
  }
  memory.flux = fluxRatio(motor, y[at.magnets]);
  memory.vehicleSpeed = y[at.speed];
  if (memory.turning) memory.shaftState = y[at.shaft];
  memory.advance = Math.max(0, memory.vehicleSpeed) * (load.kind === 'propeller' ? 1 - load.wakeFraction : 1);
  point.openCircuit =
    openCircuitVoltage(battery.openCircuit, surfaceCharge(battery, memory.activated, memory.cellFactor, charge, slow)) +
    battery.voltageOffset;
  point.torqueConstant = motor.torqueConstant * memory.flux;
  chain.emf = battery.cellsInSeries * (point.openCircuit - slow);
  chain.sourceResistance = memory.packResistance * memory.cellFactor + wiring.resistance;
  chain.windingResistance = point.windingResistance = windingResistance(motor, y[at.winding]);
  chain.reactiveShare = reactiveShare(motor, point.torqueConstant, chain.sinusoidal);
  chain.pathResistance = point.pathResistance = pathResistanceAt(controller, y[at.controller]);
  memory.motorLimit = controller.motorCurrentLimit * deratingShare(controller, y[at.controller]);
  const { batteryCurrentLimit } = controller;
  memory.mostDuty = batteryCurrentLimit < Number.POSITIVE_INFINITY && !memory.letGo ? dutyUnderRipple(chain, batteryCurrentLimit) : 1;
  point.dutyAsked = 0;
  point.currentUnlimited = 0;
  point.limit = Number.POSITIVE_INFINITY;
  point.outsideTable = 0;
  point.stalled = false;
  point.unstable = false;
  point.braked = false;
  point.spinning = false;
  point.gripLeft = 1;
}

/** Solves the step's hold at (t, y) and leaves everything in `memory.point`. */
export function solvePoint(memory: KernelMemory, t: number, y: Float64Array): void {
  if (alreadySolved(memory, t, y)) return;
  memory.solvedTime = t;
  for (let k = 0; k < memory.dimension; k++) memory.solvedState[k] = y[k];
  prepare(memory, y);
  const { step, flatOut, hold, point, chain, system } = memory;
  const value = flatOut ? 1 : rampAt(step.value, shareAt(memory, t));
  const imposed = step.hold === 'vehicleSpeed' ? (flatOut && !givesUpClimb(memory) ? undefined : step.value) : step.vehicleSpeed;
  memory.imposed = imposed === undefined ? Number.NaN : step.duration === 0 ? 0 : (imposed.to - imposed.from) / step.duration;
  memory.setClimb = step.grade === undefined && step.climb === undefined ? 0 : climbAt(memory, t, memory.vehicleSpeed);
  if (system.load.kind === 'wheel') limitsOfGrip(memory);
  if (collapsed(chain)) {
    memory.duty = 0;
    holdThrottle(memory);
  } else if (hold === 'throttle') {
    // off is no end of a ramp: a controller that brakes, or blades that unfold, do so as soon as it is on
    const least = flatOut || step.value.from === step.value.to ? 0 : LEAST_DUTY;
    memory.duty = Math.min(1, Math.max(least, value));
    holdThrottle(memory);
  } else if (hold === 'vehicleSpeed') holdVehicleSpeed(memory);
  else if (hold === 'shaftSpeed') holdShaftSpeed(memory, value);
  else if (hold === 'motorCurrent') holdMotorCurrent(memory, value);
  else if (hold === 'thrust') holdThrust(memory, value);
  else holdBatteryDraw(memory, hold, value);
  if (memory.turning) turnFaster(memory);
  point.rippleLoss = rippleLoss(chain.rippleLoss, point.busVoltage, point.duty);
  point.inputPower =
    inputPower(point.windingResistance, point.torqueConstant, point.speed, point.current) +
    system.controller.rippleInMotor * point.rippleLoss;
  point.packCurrent = system.drives * (point.busCurrent + (point.busVoltage > 0 ? chain.otherPower / point.busVoltage : 0));
  point.cellVoltage =
    point.openCircuit -
    y[memory.at.polarisation] -
    (system.battery.cellResistance * memory.cellFactor * point.packCurrent) / system.battery.cellsInParallel;
  point.overloaded = overloaded(chain, point.busVoltage, point.busCurrent);
  moveUnderForce(memory);
}
