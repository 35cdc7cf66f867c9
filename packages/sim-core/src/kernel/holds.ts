/** One function for each thing a step can hold; each leaves the whole operating point of one drive. @module */

import { solveAtDuty } from '../drive/duty-law.js';
import { solveForCurrent, solveOff } from '../drive/electrical-chain.js';
import { isRotorHeld } from '../drive/profile.js';
import { brent } from '../numerics/roots.js';
import { lossTorque } from '../parts/motor.js';
import { adopt, brakeAt, DUTY_TOLERANCE, limitAt, limitCurrent } from './current-limits.js';
import type { KernelMemory } from './kernel-memory.js';
import { forceNeeded } from './motion.js';
import { balanceSpeed, loadAt, speedForThrust, startFrom } from './shaft-balance.js';
import { standAtState } from './turning-shaft.js';
import { noteGrip, wheelForce, wheelLoad, wheelShaft } from './wheel-load.js';

/** Out of reach: any duty above 1. */
const BEYOND = 2;
/** How near a draw that is asked for has to be met [1]. */
const JUMP = 1e-6;

/** Where the wheels would spin or skid under the present current, eases it until they just hold. */
function easeToGrip(memory: KernelMemory): void {
  const { point, gripForward, gripBackward } = memory;
  if (gripForward === Number.POSITIVE_INFINITY) return;
  const force = Math.min(gripForward, Math.max(gripBackward, point.force));
  if (force === point.force) return;
  point.spinning = true;
  const { duty, busVoltage, busCurrent, current, currentUnlimited, limit } = point;
  wheelLoad(memory, force, point.speed);
  driveShaft(memory);
  if (point.braked) wheelForce(memory);
  if (point.dutyAsked <= 1 && point.currentUnlimited <= point.limit) return;
  // the motor's own friction brakes harder than the ground takes, and no throttle that the limits leave makes up for it
  point.duty = duty;
  point.busVoltage = busVoltage;
  point.busCurrent = busCurrent;
  point.current = current;
  point.currentUnlimited = currentUnlimited;
  point.limit = limit;
  wheelForce(memory);
}

/** What the `asked` duty would draw that the ripple keeps a throttle from, into the point; where that is nothing there is no limit at work. */
function tellKept({ point, chain, chainPoint }: KernelMemory, asked: number): void {
  solveAtDuty(chain, asked, point.torqueConstant * point.speed, chainPoint);
  point.currentUnlimited = Math.max(point.currentUnlimited, chainPoint.current);
  if (!(point.currentUnlimited > 0)) point.limit = Number.POSITIVE_INFINITY;
}

/** Where the torque jumps past the load the controller hunts to and fro: in the mean it drives what the load takes, at a duty that draws it. */
function hunt(memory: KernelMemory): void {
  const { point, chain, chainPoint, system, flux } = memory;
  const current = (point.loadTorque + lossTorque(system.motor, point.speed, flux)) / point.torqueConstant;
  const duty = solveForCurrent(chain, current, point.torqueConstant * point.speed, chainPoint);
  if (!(duty >= 0 && duty <= 1)) return;
  adopt(memory, duty);
  // the limit is at work the more the less of what it leaves is taken, until nothing of it is
  point.currentUnlimited = point.limit + Math.max(0, point.limit - current);
}

/** Throttle as `memory.duty` [1]; 0 is off. */
export function holdThrottle(memory: KernelMemory): void {
  const { point, chain, chainPoint, system, duty: asked } = memory;
  const duty = Math.min(asked, memory.mostDuty);
  memory.duty = duty;
  const { load } = system;
  if (load.kind === 'wheel') {
    point.speed = wheelShaft(memory);
    if (duty > 0) solveAtDuty(chain, duty, point.torqueConstant * point.speed, chainPoint);
  } else {
    memory.fixedCurrent = Number.NaN;
    memory.folded = load.folding && duty === 0;
    if (memory.turning) standAtState(memory);
    else balanceSpeed(memory);
  }
  if (duty > 0) {
    point.currentUnlimited = chainPoint.current;
    limitCurrent(memory);
    if (duty < asked) tellKept(memory, asked);
    if (memory.hunts && !memory.turning && point.limit < Number.POSITIVE_INFINITY) hunt(memory);
  } else {
    solveOff(chain, chainPoint);
    adopt(memory, 0);
  }
  wheelForce(memory);
  if (duty > 0) easeToGrip(memory);
}

/** Off: the shaft turns as the load drags it, nothing is given. */
function letGo(memory: KernelMemory): void {
  memory.point.dutyAsked = 0;
  memory.duty = 0;
  holdThrottle(memory);
}

function outOfReach(memory: KernelMemory): void {
  memory.duty = 1;
  holdThrottle(memory);
  memory.point.dutyAsked = BEYOND;
}

/** Motor current and duty for the point's load torque and shaft speed; negative current only where the controller brakes. */
function driveShaft(memory: KernelMemory): void {
  const { point, chain, chainPoint, system, flux } = memory;
  const { speed } = point;
  if (speed > 0) startFrom(memory, speed);
  const loss = lossTorque(system.motor, speed, flux);
  // where the vehicle is held at rest friction helps to stay; what a drive pushes with at rest it gives besides its friction, as on its way
  const stands = speed === 0 && memory.hold === 'vehicleSpeed' && memory.step.value.from === memory.step.value.to;
  const current = (stands ? Math.max(0, point.loadTorque - loss) : point.loadTorque + loss) / point.torqueConstant;
  const backEmf = point.torqueConstant * speed;
  limitAt(memory, backEmf);
  point.currentUnlimited = current;
  if (current >= 0) {
    point.dutyAsked = solveForCurrent(chain, current, backEmf, chainPoint);
    adopt(memory, point.dutyAsked);
    return;
  }
  if (!chain.regenerative || speed === 0) {
    solveOff(chain, chainPoint);
    adopt(memory, 0);
    point.braked = true;
    return;
  }
  point.braked = current < -memory.motorLimit;
  brakeAt(memory, Math.max(current, -memory.motorLimit), backEmf);
  // a brake at its end leaves the rest to the profile: nothing is asked for in vain, until it is driven again
  point.dutyAsked = point.braked ? 0 : point.duty;
}

/** As `driveShaft`; no duty makes the pack give more than its most. */
function driveWithinReach(memory: KernelMemory): void {
  driveShaft(memory);
  if (Number.isNaN(memory.point.dutyAsked)) outOfReach(memory);
}

/** Shaft speed [rad/s]; 0 all the while is a held rotor at full throttle, which pushes with what wheels then pass on. */
export function holdShaftSpeed(memory: KernelMemory, value: number): void {
  const { point, chain, chainPoint } = memory;
  if (!isRotorHeld(memory.step)) {
    point.speed = value;
    loadAt(memory);
    driveWithinReach(memory);
    // the load turns the shaft faster than asked: the drive can only let go
    if (point.braked) letGo(memory);
    return;
  }
  memory.advance = 0;
  point.speed = 0;
  loadAt(memory);
  point.stalled = true;
  solveAtDuty(chain, memory.mostDuty, 0, chainPoint);
  point.currentUnlimited = chainPoint.current;
  limitCurrent(memory);
  // what holds the rotor takes the whole torque: the stall torque
  point.loadTorque = point.torqueConstant * point.current;
  wheelForce(memory);
}

/** The propeller turned to give `thrust` [N], which lies below 0 where it is to hold back less than it would turning freely. */
function turnForThrust(memory: KernelMemory, thrust: number): void {
  const { point } = memory;
  let free = 0;
  if (thrust <= 0) {
    letGo(memory);
    if (point.thrust >= thrust) {
      point.braked = thrust < 0;
      return;
    }
    free = point.speed;
  }
  const shaft = speedForThrust(memory, thrust, free);
  if (Number.isNaN(shaft)) {
    outOfReach(memory);
    return;
  }
  if (shaft > free) {
    point.stalled = point.unstable = false;
    point.speed = shaft;
    loadAt(memory);
    driveWithinReach(memory);
    if (!point.braked) return;
  }
  // less thrust is asked than a freely turning propeller gives: the drive can only let go
  letGo(memory);
  point.braked = shaft > 0 || thrust < 0;
}

/** Vehicle speed: the force that the imposed acceleration and the path need. */
export function holdVehicleSpeed(memory: KernelMemory): void {
  const { load } = memory.system;
  const force = forceNeeded(memory);
  if (load.kind === 'wheel') driveWheel(memory, force);
  else turnForThrust(memory, force / (1 - load.thrustDeduction));
}

function driveWheel(memory: KernelMemory, force: number): void {
  const { point } = memory;
  point.speed = wheelShaft(memory);
  noteGrip(memory, force);
  // the ground takes no more braking than its grip; what the profile asks beyond it is left to the profile
  const skids = force < memory.gripBackward;
  wheelLoad(memory, skids ? memory.gripBackward : force, point.speed);
  driveWithinReach(memory);
  point.spinning = skids;
  // braking beyond the drive leaves the rest to the profile: the wheel has what the motor really gives
  if (point.braked) wheelForce(memory);
}

/** Thrust of one drive [N]. */
export function holdThrust(memory: KernelMemory, value: number): void {
  if (memory.system.load.kind === 'wheel') driveWheel(memory, value);
  else turnForThrust(memory, value);
}

/** Motor current [A]. */
export function holdMotorCurrent(memory: KernelMemory, value: number): void {
  const { point, chain, chainPoint, system } = memory;
  if (system.load.kind === 'wheel') point.speed = wheelShaft(memory);
  else {
    memory.fixedCurrent = value;
    memory.folded = false;
    if (memory.turning) standAtState(memory);
    else balanceSpeed(memory);
  }
  const backEmf = point.torqueConstant * point.speed;
  point.dutyAsked = solveForCurrent(chain, value, backEmf, chainPoint);
  if (Number.isNaN(point.dutyAsked)) {
    outOfReach(memory);
    return;
  }
  adopt(memory, point.dutyAsked);
  limitAt(memory, backEmf);
  wheelForce(memory);
  noteGrip(memory, point.force);
  point.currentUnlimited = value;
}

/** Where the duty of a draw is sought from [1]. */
const LEAST_DRAWING = 1e-4;
/** Share of the last duty within which the next one is looked for first [1]. */
const NEAR = 1e-3;

/** Power [W] or current [A] of the whole pack, other loads counted: the duty at which it is drawn, on the high-voltage side. */
export function holdBatteryDraw(memory: KernelMemory, hold: 'batteryPower' | 'batteryCurrent', asked: number): void {
  const { point, chain, system } = memory;
  const drawn = (duty: number): number => {
    memory.duty = duty;
    holdThrottle(memory);
    const power = system.drives * (point.busVoltage * point.busCurrent + chain.otherPower);
    return hold === 'batteryPower' ? power : power / point.busVoltage;
  };
  const settle = (low: number, atLow: number, high: number, atHigh: number): boolean => {
    // asked again, the ends may come out another way by rounding; where there is no point at all the pack gives less than is asked
    const past = (duty: number): number => {
      if (duty === low) return atLow;
      if (duty === high) return atHigh;
      const more = drawn(duty) - asked;
      return Number.isNaN(more) ? Number.POSITIVE_INFINITY : more;
    };
    const duty = brent(past, low, high, DUTY_TOLERANCE);
    // what is drawn jumps past what is asked, as where wheels that just hold begin to spin: no duty draws it
    if (!(Math.abs(drawn(duty) - asked) <= JUMP * (asked - atLow))) return false;
    point.dutyAsked = memory.warmDraw = duty;
    return true;
  };
  const { warmDraw } = memory;
  if (warmDraw > LEAST_DRAWING) {
    // mostly the draw is near to where it was
    const [low, high] = [(1 - NEAR) * warmDraw, Math.min(1, (1 + NEAR) * warmDraw)];
    const atLow = drawn(low) - asked;
    const atHigh = atLow < 0 ? drawn(high) - asked : Number.NaN;
    if (atHigh >= 0 && settle(low, atLow, high, atHigh)) return;
  }
  const least = drawn(LEAST_DRAWING) - asked;
  if (least >= 0) {
    point.dutyAsked = LEAST_DRAWING;
    return;
  }
  // a motor with next to no load draws most where its ripple does, short of full throttle
  for (const duty of [1, 0.9, 0.8, 0.7, 0.6]) {
    const over = drawn(duty) - asked;
    if (!(over >= 0)) continue;
    if (!settle(LEAST_DRAWING, least, duty, over)) outOfReach(memory);
    return;
  }
  outOfReach(memory);
}
