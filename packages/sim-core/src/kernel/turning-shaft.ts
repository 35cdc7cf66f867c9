/**
 * The shaft's speed as a state: what motor and load leave of the torque turns rotor and load faster.
 *
 *   (1) M_g = M − J_r·dω/dt          (2) Q_g = Q + J_l·(dω/dt)/G          (3) M_g = Q_g·p,  p = 1/(G·η) driving, η/G driven
 *   (4) dω/dt = (M − Q·p)/(J_r + J_l·p/G)          (5) Q_g ≥ 0 ⇔ Q·J_r + M·J_l/G ≥ 0
 *   (6) P_t = (J_r + J_l/G²)·ω·dω/dt          (7) P_gear = M_g·ω − Q_g·ω/G
 *
 * M = k_t·i − M_loss is what the motor gives at its shaft, M_g and Q_g the torques on both sides of the gear, Q what the propeller takes. (5), from
 * (1)–(4), does not contain η: which way power passes the gear is known before its loss. Current, duty and sag are the chain's, at the state's speed.
 * *Holds for* propellers, ω ≥ 0; at rest friction holds what it can. Wheels need none of it: their shaft is tied to the vehicle, which carries J as mass.
 * *Leaves out* the time in which the winding's current follows (L/R, 0.1 to 0.6 ms), twist and backlash of shafts, blades that take time to fold. *Sign* P_t is positive while it speeds up.
 * *Source* balance of angular momentum; J behind a gear: W. Leonhard, Control of Electrical Drives, 3rd ed., ch. 1 (from memory).
 *
 * @module
 */

import { solveAtDuty } from '../drive/duty-law.js';
import { lossTorque } from '../parts/motor.js';
import type { KernelMemory } from './kernel-memory.js';
import { foldBlades, loadAt } from './shaft-balance.js';

/** Inertia [kg·m²] of all that turns freely, at the motor's shaft, the gear taken without loss. */
export const turningInertia = ({ system: { motor, load }, inverseRatio }: KernelMemory): number =>
  motor.rotorInertia + (load.kind === 'propeller' ? load.inertia * inverseRatio * inverseRatio : 0);

/** In place of the torque balance: load, and at a duty the chain, at the state's speed. */
export function standAtState(memory: KernelMemory): void {
  const { point, chain, chainPoint, duty } = memory;
  // a trial state may lie a little below rest
  point.speed = Math.max(memory.shaftState, 0);
  if (memory.folded) foldBlades(memory);
  else loadAt(memory);
  if (duty > 0 && Number.isNaN(memory.fixedCurrent)) solveAtDuty(chain, duty, point.torqueConstant * point.speed, chainPoint);
}

/** (4): acceleration of the motor's shaft [rad/s²] into the memory, torque on the motor's side of the gear into the point. */
export function turnFaster(memory: KernelMemory): void {
  const { point, system, flux, inverseRatio } = memory;
  const { motor, load } = system;
  if (load.kind === 'wheel') return;
  const { speed, driverTorque } = point;
  const given = point.torqueConstant * point.current - lossTorque(motor, speed, flux);
  const behind = load.inertia * inverseRatio;
  const passing = driverTorque * motor.rotorInertia + given * behind >= 0 ? memory.torqueTaken : memory.torqueGiven;
  let acceleration = (given - driverTorque * passing) / (motor.rotorInertia + behind * passing);
  if (speed === 0 && !(acceleration > 0)) {
    acceleration = 0;
    point.stalled = true;
  }
  memory.shaftAcceleration = acceleration;
  point.loadTorque = passing * (driverTorque + behind * acceleration);
}

/** (6) Power that speeds up rotor and load [W]. */
export const turningPower = (memory: KernelMemory): number => turningInertia(memory) * memory.point.speed * memory.shaftAcceleration;

/** (7) Loss of gear and shaft bearings while the shaft's speed changes [W]. */
export function turningGearLoss({ point, system, inverseRatio, shaftAcceleration }: KernelMemory): number {
  if (system.load.kind === 'wheel') return 0;
  const behind = point.driverTorque + system.load.inertia * inverseRatio * shaftAcceleration;
  return point.loadTorque * point.speed - behind * point.speed * inverseRatio;
}
