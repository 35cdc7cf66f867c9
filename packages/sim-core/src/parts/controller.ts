/**
 * Electronic speed controller as an averaged switching stage; throttle is the duty d.
 *
 *   (1) u = d·v_bus − R_path·i − (1 − d)·V_f               (2) v_bus·i_bus = v·i + losses, v the part of u that does work (parts/motor.ts)
 *   (3) k_s·v_bus·i lost,  k_s = ½·(t_r + t_f)·f           (4) R_path(T) = R_25·[1 + α(T − 25 °C)]
 *   (5) u is less by V_d·t_d·f: body diodes carry the current in the dead times; loss V_d·t_d·f·i
 *   (6) derating: limit·(T_off − T)/(T_off − T_on), full below T_on, none above T_off
 *   (7) P_ripple = κ·[v_bus·d·(1 − d)]²/L                  the ripple is Δi = v_bus·d·(1 − d)/(L·f); its loss grows as the square
 *
 * (3) and (5) stay at full throttle, where a block drive no longer chops but its commutations, six a pole pair and turn, switch about as often.
 * *Holds for* continuous current. Throttle 0 is *off*: devices open, no current, only the idle draw.
 * *Leaves out* distortion by dead time at the zero crossings; how (7) follows the switching frequency, which no measurement tells.
 * *Sign* losses are never negative.
 * *Source* (1)–(2), Δi: R. W. Erickson & D. Maksimović, Fundamentals of Power Electronics, ch. 2 (from memory); (3) same, ch. 4 (from memory);
 * (5) ROHM application note 64AN035E; (6) common practice, no published source; (7) its form and κ fitted to thirteen small motors on a thrust stand
 * (docs/theory.md).
 *
 * @module
 */

import { ZERO_CELSIUS } from '../quantities/constants.js';
import type { PlainNumbers, Quantities } from '../quantities/index.js';

/** Temperature at which controller path resistances are stated, 25 °C [K]. */
export const PATH_REFERENCE = ZERO_CELSIUS + 25;

/** A controller. */
export interface Controller<N extends Quantities = PlainNumbers> {
  /** R_25 — whole path from bus to motor and back, at 25 °C [Ω]. */
  readonly pathResistance: N['resistance'];
  /** α — rise of the path's resistance with temperature [1/K]. */
  readonly resistanceCoefficient: N['temperatureCoefficient'];
  /** t_r + t_f — rise and fall time of one switching cycle [s]. */
  readonly switchingTime: N['time'];
  /** f — switching frequency [Hz]. */
  readonly pwmFrequency: N['frequency'];
  /** κ — of (7) [W·H/V² = s]. */
  readonly rippleConstant: N['time'];
  /** Share of (7) that heats the motor's iron, the rest the controller [1]. */
  readonly rippleInMotor: N['fraction'];
  /** V_f — drop of the freewheeling diode; 0 with synchronous rectification [V]. */
  readonly diodeDrop: N['voltage'];
  /** t_d — both dead times of one switching cycle [s]. */
  readonly deadTime: N['time'];
  /** V_d — drop of the body diodes in the dead times [V]. */
  readonly deadTimeDrop: N['voltage'];
  /** Drawn from the pack at all times [A]. */
  readonly idleCurrent: N['current'];
  /** Largest motor current; Infinity when the controller has no limiter [A]. */
  readonly motorCurrentLimit: N['current'];
  /** Largest battery current of one drive; Infinity when there is no limiter [A]. */
  readonly batteryCurrentLimit: N['current'];
  /** Temperatures of (6) between which the motor current limit falls to nothing; Infinity where it does not derate [K]. */
  readonly deratingFrom: N['temperature'];
  /** Where nothing is left of the limit [K]. */
  readonly deratingTo: N['temperature'];
  /** Mass [kg]. */
  readonly mass: N['mass'];
  readonly braking: 'none' | 'regenerative';
  readonly drive: Drive;
}

/** How a controller drives its motor. */
export const DRIVES = ['block', 'sinusoidal'] as const;
/** Two phases conducting in turn, or three with sinusoidal current. */
export type Drive = (typeof DRIVES)[number];

/** What the losses of a controller follow at one moment, bus and motor apart: of (3)–(5), all SI. All [SI]. */
export interface SwitchingStage {
  /** R_path at its temperature. */
  readonly pathResistance: number;
  readonly diodeDrop: number;
  /** k_s. */
  readonly switchingShare: number;
  /** V_d·t_d·f. */
  readonly deadTimeDrop: number;
  readonly idleCurrent: number;
}

/** Resistance of the path [Ω], less of it while a diode carries the rest of the cycle. */
export const conductionResistance = (
  { pathResistance, diodeDrop }: Pick<SwitchingStage, 'pathResistance' | 'diodeDrop'>,
  duty: number,
): number => (diodeDrop > 0 ? pathResistance * 0.5 * (1 + duty) : pathResistance);

/** Loss of path and freewheeling diode [W]. */
export const conductionLoss = (stage: SwitchingStage, current: number, duty: number): number =>
  current * current * conductionResistance(stage, duty) + (1 - duty) * stage.diodeDrop * Math.abs(current);

/** (3) and (5): loss of switching and dead times [W]. */
export const switchingLoss = (stage: SwitchingStage, current: number, busVoltage: number): number =>
  Math.abs(current) * (stage.switchingShare * busVoltage + stage.deadTimeDrop);

/** What it draws for itself [W]. */
export const idleLoss = (stage: SwitchingStage, busVoltage: number): number => stage.idleCurrent * busVoltage;

/** All that heats the controller [W]; `ripple` is its own part of (7). */
export const controllerLoss = (stage: SwitchingStage, current: number, busVoltage: number, duty: number, ripple: number): number =>
  conductionLoss(stage, current, duty) + switchingLoss(stage, current, busVoltage) + ripple + idleLoss(stage, busVoltage);

/** (7) Loss of the current ripple [W] at bus `voltage` [V] and `duty`; `perSquare` is κ/L [W/V²]. */
export const rippleLoss = (perSquare: number, voltage: number, duty: number): number => {
  const ripple = duty < 1 ? voltage * duty * (1 - duty) : 0;
  return perSquare * ripple * ripple;
};

/** (3) Bus current per motor current that switching costs [1]. */
export const switchingShare = (controller: Pick<Controller, 'switchingTime' | 'pwmFrequency'>): number =>
  0.5 * controller.switchingTime * controller.pwmFrequency;

/** (4) Path resistance [Ω] at `temperature` [K]. */
export const pathResistanceAt = (controller: Pick<Controller, 'pathResistance' | 'resistanceCoefficient'>, temperature: number): number =>
  controller.pathResistance * (1 + controller.resistanceCoefficient * (temperature - PATH_REFERENCE));

/** (5) Voltage [V] that the dead times cost. */
export const deadTimeDrop = (controller: Pick<Controller, 'deadTime' | 'deadTimeDrop' | 'pwmFrequency'>): number =>
  controller.deadTimeDrop * controller.deadTime * controller.pwmFrequency;

/** (6) Share of the motor current limit left at `temperature` [K]. */
export const deratingShare = (
  { deratingFrom, deratingTo }: Pick<Controller, 'deratingFrom' | 'deratingTo'>,
  temperature: number,
): number => (temperature <= deratingFrom ? 1 : temperature >= deratingTo ? 0 : (deratingTo - temperature) / (deratingTo - deratingFrom));
