/**
 * Permanent-magnet brushless motor as its equivalent direct-current machine.
 *
 *   (1) v = R(T_w)·i + k_e(T_m)·ω          (2) M = k_t(T_m)·i − M_loss(ω, T_m)          (3) k_e = k_t = 1/K_v
 *   (4) R(T) = R_20·[1 + α(T − 20 °C)]     (5) k_t(T) = k_t20·[1 + β(T − 20 °C)]
 *   (6) M_loss = (M_h + k_1·ω)·(k_t/k_t20)² + M_f + k_2·ω²
 *   (7) u = v + X·i,  X = (3/2π)·p·ω·L     block drive: each commutation short-circuits the incoming against the outgoing phase
 *   (8) u² = v² + (X·i)²,  X = p·ω·L       sinusoidal drive, its current in phase with the back-EMF
 *
 * v·i is the power that the winding takes, u what the controller must give for it: inductance L takes voltage and no power.
 * *Holds for* six-step drive with current as its flat top, or sinusoidal drive with i = (√3/2)·Î, Î the peak of the phase current;
 * unsaturated iron.
 * *Leaves out* saturation, timing advance, field weakening, torque ripple, overlap longer than a sixth of a turn.
 * *Sign* current, torque and speed are positive when the motor drives; a loss torque is never negative for ω ≥ 0. (7) braking: i < 0 lowers u.
 * *Source* D. Hanselman, Brushless Permanent Magnet Motor Design, 2nd ed., 2003, ch. 1 and 4; (4) IEC 60028; (5) magnet makers' tables;
 * (7) the rectifier with source inductance, (3/π)·ω·L_s·I_d, L_s = L/2: N. Mohan, T. Undeland, W. Robbins, Power Electronics, 3rd ed., ch. 5
 * (from memory); (8) the phasor of a surface-magnet machine, W. Leonhard, Control of Electrical Drives, 3rd ed., ch. 14 (from memory).
 *
 * @module
 */

import { ROOM_TEMPERATURE } from '../quantities/constants.js';
import type { PlainNumbers, Quantities } from '../quantities/index.js';

/** A motor. */
export interface Motor<N extends Quantities = PlainNumbers> {
  /** k_t — torque constant at 20 °C, between lines [N·m/A]. */
  readonly torqueConstant: N['torqueConstant'];
  /** R_20 — winding resistance line to line at 20 °C [Ω]. */
  readonly resistance: N['resistance'];
  /** L — inductance between lines [H]. */
  readonly inductance: N['inductance'];
  /** α — temperature coefficient of the winding's resistance, referred to 20 °C [1/K]. */
  readonly resistanceCoefficient: N['temperatureCoefficient'];
  /** β — temperature coefficient of the magnets' flux, negative [1/K]. */
  readonly fluxCoefficient: N['temperatureCoefficient'];
  /** M_h — hysteresis torque, independent of speed [N·m]. */
  readonly hysteresisTorque: N['torque'];
  /** k_1 — eddy-current torque per shaft speed [N·m·s/rad]. */
  readonly eddyTorque: N['torquePerSpeed'];
  /** M_f — bearing friction [N·m]. */
  readonly frictionTorque: N['torque'];
  /** k_2 — windage torque per speed squared [N·m·s²/rad²]. */
  readonly windageTorque: N['torquePerSpeedSquared'];
  /** Share of the iron loss that arises in the magnets [1]. */
  readonly magnetLossShare: N['fraction'];
  /** Rotor inertia [kg·m²]. */
  readonly rotorInertia: N['inertia'];
  /** Mass [kg]. */
  readonly mass: N['mass'];
  /** Outer diameter of the can [m]. */
  readonly canDiameter: N['length'];
  /** Length of the can [m]. */
  readonly canLength: N['length'];
  /** p — half the number of poles [1]. */
  readonly polePairs: number;
  readonly layout: 'inrunner' | 'outrunner';
}

type Laws = Pick<
  Motor,
  | 'torqueConstant'
  | 'resistance'
  | 'resistanceCoefficient'
  | 'fluxCoefficient'
  | 'hysteresisTorque'
  | 'eddyTorque'
  | 'frictionTorque'
  | 'windageTorque'
>;

/** X·i/(k_t·ω) of (7), or of (8) where the drive is `sinusoidal`, for one ampere [1/A]: reactive voltage over back-EMF. */
export const reactiveShare = (motor: Pick<Motor, 'polePairs' | 'inductance'>, torqueConstant: number, sinusoidal: boolean): number =>
  ((sinusoidal ? 1 : 3 / (2 * Math.PI)) * motor.polePairs * motor.inductance) / torqueConstant;

/** (4) Winding resistance [Ω] at `temperature` [K]. */
export const windingResistance = (motor: Laws, temperature: number): number =>
  motor.resistance * (1 + motor.resistanceCoefficient * (temperature - ROOM_TEMPERATURE));

/** k_t/k_t20 [1] with the magnets at `temperature` [K]. */
export const fluxRatio = (motor: Laws, temperature: number): number => 1 + motor.fluxCoefficient * (temperature - ROOM_TEMPERATURE);

/** (5) Torque constant [N·m/A] with the magnets at `temperature` [K]. */
export const torqueConstantAt = (motor: Laws, temperature: number): number => motor.torqueConstant * fluxRatio(motor, temperature);

/** First part of (6): hysteresis and eddy torque [N·m] at ω ≥ 0 [rad/s] and flux ratio [1]. */
export const ironTorque = (motor: Laws, speed: number, flux: number): number =>
  (motor.hysteresisTorque + motor.eddyTorque * speed) * flux * flux;

/** Windage torque [N·m] at ω ≥ 0 [rad/s]. */
export const windageTorqueAt = (motor: Laws, speed: number): number => motor.windageTorque * speed * speed;

/** (6) Loss torque [N·m] at ω ≥ 0 [rad/s] and flux ratio [1]. */
export const lossTorque = (motor: Laws, speed: number, flux: number): number =>
  ironTorque(motor, speed, flux) + motor.frictionTorque + windageTorqueAt(motor, speed);

/** Electrical power v·i [W] that the winding takes, by (1): copper loss and what turns, from `resistance` [Ω] and `torqueConstant` [N·m/A] as they are. */
export const inputPower = (resistance: number, torqueConstant: number, speed: number, current: number): number =>
  (resistance * current + torqueConstant * speed) * current;

/** Slope of (6) in speed [N·m·s/rad]. */
export const lossTorqueSlope = (motor: Laws, speed: number, flux: number): number =>
  motor.eddyTorque * flux * flux + 2 * motor.windageTorque * speed;

/** Motor constant k_t/√R [N·m/√W]: torque per root of copper loss; rewinding leaves it. */
export const motorConstant = (motor: Pick<Motor, 'torqueConstant' | 'resistance'>): number =>
  motor.torqueConstant / Math.sqrt(motor.resistance);

/** Slope of the speed–torque line, R/k_t² [rad/(s·N·m)]. */
export const speedTorqueGradient = (motor: Pick<Motor, 'torqueConstant' | 'resistance'>): number =>
  motor.resistance / motor.torqueConstant ** 2;

/** Current with the rotor held, v/R [A], cold. */
export const stallCurrent = (motor: Pick<Motor, 'resistance'>, voltage: number): number => voltage / motor.resistance;

/** Speed [rad/s] at `voltage` [V] when the motor draws `current` [A], inductance left out: as a no-load point is read. */
export const noLoadSpeed = (motor: Pick<Motor, 'torqueConstant' | 'resistance'>, voltage: number, current: number): number =>
  (voltage - current * motor.resistance) / motor.torqueConstant;

/** (1) with (7) or (8), cold: speed [rad/s] at which `voltage` [V] drives `current` [A] through the motor; NaN where it does at none. */
export function loadedSpeed(
  motor: Pick<Motor, 'torqueConstant' | 'resistance' | 'polePairs' | 'inductance'>,
  sinusoidal: boolean,
  voltage: number,
  current: number,
): number {
  const drop = current * motor.resistance;
  const reactive = current * reactiveShare(motor, motor.torqueConstant, sinusoidal);
  if (!sinusoidal) return (voltage - drop) / (1 + reactive) / motor.torqueConstant;
  const squares = 1 + reactive * reactive;
  return (Math.sqrt(voltage * voltage * squares - (drop * reactive) ** 2) - drop) / squares / motor.torqueConstant;
}

/** Largest efficiency (1 − √(I_0·R/V))² [1]; closed form for a loss torque that does not depend on speed. */
export const peakEfficiency = (resistance: number, noLoadCurrent: number, voltage: number): number =>
  (1 - Math.sqrt((noLoadCurrent * resistance) / voltage)) ** 2;
