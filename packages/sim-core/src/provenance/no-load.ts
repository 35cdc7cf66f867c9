/**
 * What no-load points say of a motor's loss torque, M_loss = M_c + k_1·ω, with i₀ read at V₀ and ω₀ = (V₀ − R·i₀)/k_t.
 *
 *   (1) two points: the straight line through k_t·i over ω
 *   (2) 0 ≤ k_1 ≤ k_t·i/ω of the faster point: a loss is never negative
 *   (3) ω₀ ≥ V₀/2k_t: the winding takes half of the voltage at most
 *
 * A sheet beyond (2) or (3) is refused; draws and readings that would lead there stop at the bound, where the faster point still holds: it is
 * nearer to where a motor is run. *Source* (1) parts/motor.ts (1), (6); (2) no machine gives power by friction; (3) common practice, no published source.
 *
 * @module
 */

/** Share of the no-load voltage that the resistance may take; sheets have a few per cent, above it a motor would lose less than nothing [1]. */
export const MOST_LOST = 0.5;

/** (3) Voltage [V] that turns the motor. */
export const noLoadEmf = (resistance: number, voltage: number, current: number): number =>
  Math.max(voltage - current * resistance, (1 - MOST_LOST) * voltage);

/** Two points of one motor [SI]. */
export interface TwoPoints {
  readonly torqueConstant: number;
  readonly resistance: number;
  readonly current: number;
  readonly voltage: number;
  readonly lastCurrent: number;
  readonly lastVoltage: number;
}

/** Torque at rest [N·m] and per speed [N·m·s/rad]. */
export interface LossLine {
  readonly constant: number;
  readonly slope: number;
}

/** (1) as it comes out, whatever its signs. */
export function lineThrough({ torqueConstant, resistance, current, voltage, lastCurrent, lastVoltage }: TwoPoints): LossLine {
  const from = noLoadEmf(resistance, voltage, current) / torqueConstant;
  const to = noLoadEmf(resistance, lastVoltage, lastCurrent) / torqueConstant;
  const slope = (torqueConstant * (lastCurrent - current)) / (to - from);
  return { constant: torqueConstant * current - slope * from, slope };
}

/** Whether a line is one that a motor can have. */
export const losesPower = ({ constant, slope }: LossLine): boolean => constant >= 0 && slope >= 0;

/** (1) within (2). */
export function lossLine(points: TwoPoints): LossLine {
  const line = lineThrough(points);
  if (losesPower(line)) return line;
  const { torqueConstant, resistance, current, voltage, lastCurrent, lastVoltage } = points;
  const [from, to] = [noLoadEmf(resistance, voltage, current), noLoadEmf(resistance, lastVoltage, lastCurrent)];
  const [emf, torque] = to >= from ? [to, torqueConstant * lastCurrent] : [from, torqueConstant * current];
  return line.slope > 0 ? { constant: 0, slope: (torque * torqueConstant) / emf } : { constant: torque, slope: 0 };
}
