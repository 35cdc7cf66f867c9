/** The vehicle along its path: what the profile imposes on it, the force it needs, and how it moves under the force it gets. @module */

import type { DriveSystem } from '../drive/drive-system.js';
import { type HeldClimb, type ProfileStep, rampAt } from '../drive/profile.js';
import { lossTorque } from '../parts/motor.js';
import { dragForce } from '../parts/vehicle.js';
import { gripForce } from '../parts/wheel.js';
import { STANDARD_GRAVITY } from '../quantities/constants.js';
import type { KernelMemory } from './kernel-memory.js';

/** Share of the step that is over at time t [1]. */
export const shareAt = ({ step, stepFrom }: KernelMemory, t: number): number => (step.duration > 0 ? (t - stepFrom) / step.duration : 0);

/** Speed that the step imposes at time t [m/s]; NaN where it imposes none. */
export function heldSpeedAt(memory: KernelMemory, t: number): number {
  const { step } = memory;
  const ramp = step.hold === 'vehicleSpeed' ? step.value : step.vehicleSpeed;
  return ramp === undefined ? Number.NaN : rampAt(ramp, shareAt(memory, t));
}

/** Sine of the climb as the profile sets it; 0 where it says nothing [1]. */
export function climbAt(memory: KernelMemory, t: number, speed: number): number {
  const { grade, climb } = memory.step;
  if (grade !== undefined) return rampAt(grade, shareAt(memory, t));
  if (climb !== undefined && speed > 0) return Math.min(1, rampAt(climb, shareAt(memory, t)) / speed);
  return 0;
}

/** Whether `step` asks a wing for a speed and a climb rate together. */
export const asksClimbOfWing = ({ vehicle }: DriveSystem, step: ProfileStep): step is HeldClimb =>
  step.hold === 'vehicleSpeed' && step.climb !== undefined && vehicle.carriedBy === 'wing';

/** Where full throttle does not give both speed and climb, a wing keeps its speed and climbs as the force allows. */
export const givesUpClimb = ({ flatOut, step, system }: KernelMemory): boolean => flatOut && asksClimbOfWing(system, step);

/** Force of one drive [N] that keeps the imposed acceleration at the present speed on the path set. */
export function forceNeeded({ system, effectiveMass, vehicleSpeed, imposed, setClimb }: KernelMemory): number {
  const { vehicle, drives } = system;
  return (dragForce(vehicle, vehicleSpeed, setClimb) + vehicle.mass * STANDARD_GRAVITY * setClimb + effectiveMass * imposed) / drives;
}

/**
 * What the ground takes, into the memory. The drive gives more than passes the ground by what speeds up the turning parts themselves,
 * m_t·a, where a is imposed, or the one at the edge of grip.
 */
export function limitsOfGrip(memory: KernelMemory): void {
  const { system, effectiveMass, vehicleSpeed: speed, imposed, setClimb: climb } = memory;
  const { load, vehicle, drives } = system;
  memory.gripForward = Number.POSITIVE_INFINITY;
  memory.gripBackward = Number.NEGATIVE_INFINITY;
  if (load.kind !== 'wheel' || vehicle.carriedBy !== 'wheels') return;
  const grip = gripForce(load, vehicle.mass, climb);
  const own = vehicle.mass * (1 + vehicle.addedMass);
  const turning = effectiveMass - own;
  const against = dragForce(vehicle, speed, climb) + vehicle.mass * STANDARD_GRAVITY * climb;
  const free = Number.isNaN(imposed);
  memory.gripForward = (grip + turning * (free ? (grip - against) / own : imposed)) / drives;
  memory.gripBackward = (-grip + turning * (free ? (-grip - against) / own : imposed)) / drives;
}

/**
 * Acceleration, climb and drag under the force found, into the point.
 * A wing whose speed and throttle are both given climbs as the force allows; so does one that cannot have both speed and climb.
 */
export function moveUnderForce(memory: KernelMemory): void {
  const { point, system, step, effectiveMass, vehicleSpeed: speed, imposed } = memory;
  const { vehicle, drives } = system;
  const free = Number.isNaN(imposed);
  if (vehicle.carriedBy === 'bench') {
    point.acceleration = free ? 0 : imposed;
    point.climb = 0;
    point.drag = 0;
    return;
  }
  const pull = drives * point.force;
  const weight = vehicle.mass * STANDARD_GRAVITY;
  let sine = memory.setClimb;
  const throttled = vehicle.carriedBy === 'wing' && step.hold !== 'vehicleSpeed';
  if (!free && (throttled || givesUpClimb(memory)) && speed > 0) {
    // drag depends on the climb only through the lift carried: three rounds settle it
    for (let round = 0; round < 3; round++) {
      sine = (pull - dragForce(vehicle, speed, sine) - effectiveMass * imposed) / weight;
      sine = Math.min(1, Math.max(-1, sine));
    }
  }
  point.climb = sine;
  point.drag = dragForce(vehicle, speed, sine);
  if (!free) point.acceleration = imposed;
  else if (speed > 0) {
    const net = pull - point.drag - weight * sine;
    // what stops does so smoothly: rolling that ended with a jump would be met again and again
    point.acceleration = (net < 0 && speed < CRAWL ? (net * speed) / CRAWL : net) / effectiveMass;
  } else {
    // at rest tyres and motors hold against what does not overcome their rolling and friction; nothing rolls backwards
    const rolling = vehicle.dragFactor * vehicle.rollingResistance * weight * Math.sqrt(Math.max(0, 1 - sine * sine));
    const net = pull - point.drag - weight * sine - rolling - drives * motorHolds(memory);
    point.acceleration = net > 0 ? net / effectiveMass : -speed / SETTLING;
  }
}

/** Force at the wheels [N] up to which the friction of one motor at rest, less what its own torque has taken of it, holds against a slope. */
function motorHolds({ system, point, flux, gearEfficiency }: KernelMemory): number {
  const { load, motor, gearbox } = system;
  if (load.kind !== 'wheel') return 0;
  const left = Math.max(0, lossTorque(motor, 0, flux) - Math.abs(point.torqueConstant * point.current));
  return (left * gearbox.ratio) / (gearEfficiency * load.radius);
}

/** Below this a vehicle that is slowed comes to rest little by little [m/s]. */
const CRAWL = 1e-3;
/** In which a speed that a step took below zero comes back to it [s]. */
const SETTLING = 0.05;
