/**
 * Electronic speed controller as an averaged switching stage; throttle is the duty d.
 *
 *   (1) v_motor = d·v_bus − R_path·i − (1 − d)·V_f        (2) i_bus = (d + k_s)·i + I_idle + k_v·v_bus
 *   (3) k_s = ½·(t_r + t_f)·f                              (4) R_path(T) = R_25·[1 + α(T − 25 °C)]
 *   (5) v_motor is less by V_d·t_d·f: body diodes carry the current in the dead times; loss V_d·t_d·f·i
 *   (6) derating: limit·(T_off − T)/(T_off − T_on), full below T_on, none above T_off
 *
 * k_s, k_v and (5) vanish at full throttle, where nothing switches; all fade linearly over the last 2 % of duty (an assumption).
 * *Holds for* continuous current. Throttle 0 is *off*: devices open, no current, only the idle draw.
 * *Leaves out* current ripple, distortion by dead time at the zero crossings. *Sign* losses are never negative.
 * *Source* (1)–(2) R. W. Erickson & D. Maksimović, Fundamentals of Power Electronics, ch. 2 (from memory); (3) same, ch. 4 (from memory);
 * (5) ROHM application note 64AN035E; (6) common practice, no published source.
 */
import { ZERO_CELSIUS } from '../quantities/constants.js';

/** Temperature at which controller path resistances are stated, 25 °C [K]. */
export const PATH_REFERENCE = ZERO_CELSIUS + 25;
/** Width of the fade of switching losses towards full throttle [1]. */
export const SWITCHING_FADE = 0.02;

export interface Controller<N = number> {
  /** R_25 — whole path from bus to motor and back, at 25 °C [Ω]. */
  readonly pathResistance: N;
  /** α — rise of the path's resistance with temperature [1/K]. */
  readonly resistanceCoefficient: N;
  /** t_r + t_f — rise and fall time of one switching cycle [s]. */
  readonly switchingTime: N;
  readonly pwmFrequency: N;
  /** k_v — loss per bus voltage squared while switching (gates, snubbers, capacitance) [W/V² = S]. */
  readonly voltageLoss: N;
  /** V_f — drop of the freewheeling diode; 0 with synchronous rectification [V]. */
  readonly diodeDrop: N;
  /** t_d — both dead times of one switching cycle [s]. */
  readonly deadTime: N;
  /** V_d — drop of the body diodes in the dead times [V]. */
  readonly deadTimeDrop: N;
  readonly idleCurrent: N;
  /** Largest motor current; Infinity when the controller has no limiter [A]. */
  readonly motorCurrentLimit: N;
  /** Largest battery current of one drive; Infinity when there is no limiter [A]. */
  readonly batteryCurrentLimit: N;
  /** Temperatures of (6) between which the motor current limit falls to nothing; Infinity where it does not derate [K]. */
  readonly deratingFrom: N;
  readonly deratingTo: N;
  readonly mass: N;
  readonly braking: 'none' | 'regenerative';
}

/** Part of switching that remains at `duty` [1]: 1 below 98 %, 0 at full throttle. */
export const switchingFade = (duty: number): number => (duty >= 1 ? 0 : duty <= 1 - SWITCHING_FADE ? 1 : (1 - duty) / SWITCHING_FADE);

/** (3) Bus current per motor current that switching costs [1], before the fade. */
export const switchingShare = (controller: Pick<Controller, 'switchingTime' | 'pwmFrequency'>): number =>
  0.5 * controller.switchingTime * controller.pwmFrequency;

/** (4) Path resistance [Ω] at `temperature` [K]. */
export const pathResistanceAt = (controller: Pick<Controller, 'pathResistance' | 'resistanceCoefficient'>, temperature: number): number =>
  controller.pathResistance * (1 + controller.resistanceCoefficient * (temperature - PATH_REFERENCE));

/** (5) Voltage [V] that the dead times cost, before the fade. */
export const deadTimeDrop = (controller: Pick<Controller, 'deadTime' | 'deadTimeDrop' | 'pwmFrequency'>): number =>
  controller.deadTimeDrop * controller.deadTime * controller.pwmFrequency;

/** (6) Share of the motor current limit left at `temperature` [K]. */
export const deratingShare = (
  { deratingFrom, deratingTo }: Pick<Controller, 'deratingFrom' | 'deratingTo'>,
  temperature: number,
): number => (temperature <= deratingFrom ? 1 : temperature >= deratingTo ? 0 : (deratingTo - temperature) / (deratingTo - deratingFrom));
