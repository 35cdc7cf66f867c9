/** Rough values of a motor's constants from its rows, by rules of thumb, good to a factor of two: the fit goes on from there. @module */
import type { BenchRows } from './bench-rows.js';

export interface Starts {
  readonly torqueConstant: number;
  readonly resistance: number;
  readonly lossTorque: number;
  readonly topSpeed: number;
  readonly torque: readonly number[];
  readonly thrust: readonly number[];
}

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.length === 0 ? Number.NaN : sorted[Math.floor(sorted.length / 2)];
};

/** Rough values by rules of thumb, good to a factor of two: the fit goes on from there. */
export function startsOf(rows: BenchRows): Starts {
  const { voltage = new Float64Array(), current = new Float64Array(), speed = new Float64Array(), thrust } = rows.read;
  const perTurn = Array.from(voltage, (v, k) => (v * (Number.isNaN(rows.duty[k]) ? 1 : rows.duty[k])) / speed[k]).sort((a, b) => a - b);
  const torqueConstant = 0.85 * perTurn[Math.floor(0.02 * perTurn.length)];
  const most = median([...current].sort((a, b) => b - a).slice(0, Math.max(1, Math.floor(current.length / 20))));
  const volts = median([...voltage]);
  const of = (p: number, pick: (k: number) => number): number =>
    median(Array.from(rows.propeller, (each, k) => (each === p ? pick(k) : Number.NaN)).filter((x) => x > 0));
  return {
    torqueConstant,
    resistance: (0.1 * volts) / most,
    lossTorque: 0.02 * torqueConstant * most,
    topSpeed: Math.max(...speed),
    torque: rows.propellers.map((_, p) => 0.75 * of(p, (k) => (voltage[k] * current[k]) / speed[k] ** 3)),
    thrust: rows.propellers.map((_, p) => (thrust === undefined ? Number.NaN : of(p, (k) => thrust[k] / speed[k] ** 2))),
  };
}
