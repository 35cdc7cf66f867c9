/**
 * Lines of equal efficiency of a motor, and where a run has been among them.
 *
 *   (1) η = M·ω / (v·i) with v = R·i + k·ω and M = k·i − M_loss(ω)
 *   (2) at a given ω, η·R·i² − (1 − η)·k·ω·i + M_loss·ω = 0: two currents, a small one where losses at no load prevail, a large one where copper does
 *
 * *Holds for* one temperature of winding and magnets. *Leaves out* controller and gearbox.
 * *Source* (2) follows from the motor's equations (1), (2) and (6) in parts/motor.
 *
 * @module
 */

import { fluxRatio, lossTorque, type Motor, torqueConstantAt, windingResistance } from '../../parts/motor.js';
import type { EfficiencyMap } from '../../results/efficiency-result.js';
import type { Trace } from '../../results/run-result.js';

const LEVELS = [0.5, 0.6, 0.7, 0.75, 0.8, 0.84, 0.87, 0.9, 0.92];
const SPEEDS = 64;
/** Bins along speed and torque in which the run's time is counted. */
const BINS = 24;

/** The currents [A] of equation (2), the smaller first; undefined where the motor is never that good at ω [rad/s] > 0. */
export function currentsAt(
  motor: Motor,
  efficiency: number,
  speed: number,
  winding: number,
  magnets: number,
): readonly [number, number] | undefined {
  const k = torqueConstantAt(motor, magnets);
  const resistance = windingResistance(motor, winding);
  const half = ((1 - efficiency) * k * speed) / 2;
  const root = half * half - efficiency * resistance * lossTorque(motor, speed, fluxRatio(motor, magnets)) * speed;
  if (!(root >= 0)) return undefined;
  return [(half - Math.sqrt(root)) / (efficiency * resistance), (half + Math.sqrt(root)) / (efficiency * resistance)];
}

/** Contours up to `topSpeed` [rad/s] at the given temperatures [K], and the time of the run about each speed and torque. */
export function efficiencyMap(motor: Motor, trace: Trace, topSpeed: number, winding: number, magnets: number): EfficiencyMap {
  const k = torqueConstantAt(motor, magnets);
  const flux = fluxRatio(motor, magnets);
  const contours = LEVELS.flatMap((efficiency) => {
    const low: [number, number][] = [];
    const high: [number, number][] = [];
    for (let step = 1; step <= SPEEDS; step++) {
      const speed = (topSpeed * step) / SPEEDS;
      const currents = currentsAt(motor, efficiency, speed, winding, magnets);
      if (currents === undefined) continue;
      const loss = lossTorque(motor, speed, flux);
      low.push([speed, k * currents[0] - loss]);
      high.push([speed, k * currents[1] - loss]);
    }
    // Down along the small currents, back along the large ones: one line.
    const line = [...low.reverse(), ...high];
    return line.length < 4 ? [] : [{ efficiency, speed: line.map(([speed]) => speed), torque: line.map(([, torque]) => torque) }];
  });
  return { windingTemperature: winding, magnetTemperature: magnets, contours, visits: visitsOf(trace) };
}

/** The largest that is a number, 0 at least; a long trace has more samples than a call takes arguments. */
const largest = (values: readonly number[]): number => values.filter(Number.isFinite).reduce((most, value) => Math.max(most, value), 0);

function visitsOf({ time, shaftSpeed, motorTorque }: Trace): EfficiencyMap['visits'] {
  const [fastest, strongest] = [largest(shaftSpeed), largest(motorTorque)];
  if (fastest === 0 || strongest === 0) return [];
  const bins = new Map<string, { speed: number; torque: number; time: number }>();
  for (let index = 1; index < time.length; index++) {
    const [speed, torque, span] = [shaftSpeed[index], motorTorque[index], time[index] - time[index - 1]];
    if (!(speed > 0) || !(torque > 0) || !(span > 0)) continue;
    const place = (value: number, most: number): number => Math.min(BINS - 1, Math.floor((value / most) * BINS));
    const key = `${place(speed, fastest)} ${place(torque, strongest)}`;
    const bin = bins.get(key) ?? { speed: 0, torque: 0, time: 0 };
    // Means weighted by time: a bin stands where the run was, not where the grid is.
    bin.speed += speed * span;
    bin.torque += torque * span;
    bin.time += span;
    bins.set(key, bin);
  }
  return [...bins.values()]
    .map(({ speed, torque, time: spent }) => ({ speed: speed / spent, torque: torque / spent, time: spent }))
    .sort((a, b) => b.time - a.time);
}
