/**
 * Permanent-magnet brushless motor as its equivalent direct-current machine.
 *
 *   (1) v = R(T_w)·i + k_e(T_m)·ω          (2) M = k_t(T_m)·i − M_loss(ω, T_m)          (3) k_e = k_t = 1/K_v
 *   (4) R(T) = R_20·[1 + α(T − 20 °C)]     (5) k_t(T) = k_t20·[1 + β(T − 20 °C)]
 *   (6) M_loss = (M_h + k_1·ω)·(k_t/k_t20)² + M_f + k_2·ω²
 *
 * *Holds for* six-step drive with current as its flat top, or sinusoidal drive with i = (√3/2)·I_q; unsaturated iron.
 * *Leaves out* saturation, inductance, field weakening, torque ripple.
 * *Sign* current, torque and speed are positive when the motor drives; a loss torque is never negative for ω ≥ 0.
 * *Source* D. Hanselman, Brushless Permanent Magnet Motor Design, 2nd ed., 2003, ch. 1 and 4; (4) IEC 60028; (5) magnet makers' tables.
 */
import { ROOM_TEMPERATURE } from '../quantities/constants.js';

export interface Motor<N = number> {
  /** k_t — torque constant at 20 °C, between lines [N·m/A]. */
  readonly torqueConstant: N;
  /** R_20 — winding resistance line to line at 20 °C [Ω]. */
  readonly resistance: N;
  /** α — temperature coefficient of the winding's resistance, referred to 20 °C [1/K]. */
  readonly resistanceCoefficient: N;
  /** β — temperature coefficient of the magnets' flux, negative [1/K]. */
  readonly fluxCoefficient: N;
  /** M_h — hysteresis torque, independent of speed [N·m]. */
  readonly hysteresisTorque: N;
  /** k_1 — eddy-current torque per shaft speed [N·m·s/rad]. */
  readonly eddyTorque: N;
  /** M_f — bearing friction [N·m]. */
  readonly frictionTorque: N;
  /** k_2 — windage torque per speed squared [N·m·s²/rad²]. */
  readonly windageTorque: N;
  /** Share of the iron loss that arises in the magnets [1]. */
  readonly magnetLossShare: N;
  /** Rotor inertia [kg·m²]. */
  readonly rotorInertia: N;
  readonly mass: N;
  readonly canDiameter: N;
  readonly canLength: N;
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

/** No-load speed [rad/s] at `voltage` [V] when the motor draws `current` [A]. */
export const noLoadSpeed = (motor: Pick<Motor, 'torqueConstant' | 'resistance'>, voltage: number, current: number): number =>
  (voltage - current * motor.resistance) / motor.torqueConstant;

/** Largest efficiency (1 − √(I_0·R/V))² [1]; closed form for a loss torque that does not depend on speed. */
export const peakEfficiency = (resistance: number, noLoadCurrent: number, voltage: number): number =>
  (1 - Math.sqrt((noLoadCurrent * resistance) / voltage)) ** 2;
