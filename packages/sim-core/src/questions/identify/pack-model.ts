/**
 * A pack that is discharged, by parts/battery.ts, its numbers unknown: what a voltmeter at its leads must read, row by row.
 *
 *   (1) V_oc(s) = the chemistry's curve + offsets at seven charges, straight between them
 *   (2) between two rows the current is the later row's: v_1 ← R_1·f·i + (v_1 − R_1·f·i)·e^(−Δt/τ),  s ← s − i·Δt/Q
 *   (3) v = N_s·[V_oc(s_s) − v_1 − R_0·f·i], i the current of one string; f and s_s of parts/battery.ts
 *
 * Before the log each number is what the scenario's pack or the rules say, with their doubt. The gain of both instruments is unknown too.
 * *Holds for* a pack at rest before the first row, its charge then as said; one temperature all along where none was read.
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { FitProblem } from '../../numerics/least-squares.js';
import { activationFactor, openCircuitVoltage, resistanceFactor, surfaceCharge } from '../../parts/battery/battery.js';
import { STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import { type Instruments, scatterOf } from './instruments.js';

export interface PackRows {
  readonly time: Float64Array;
  readonly voltage: Float64Array;
  /** From the pack, positive on discharge [A]. */
  readonly current: Float64Array;
  /** Of the cells [K]; NaN where not read. */
  readonly temperature: Float64Array;
}

export interface PackSetup {
  readonly battery: DriveSystem['battery'];
  /** Charge at the first row [1]. */
  readonly charge: number;
  /** Of the cells where no row tells it [K]. */
  readonly temperature: number;
  readonly instruments: Instruments;
}

export interface PackUnknown {
  readonly key: string;
  readonly words: string;
  readonly start: number;
  readonly deviation: number;
  readonly kind: 'factor' | 'offset' | 'gain';
}

export interface PackModel extends FitProblem {
  readonly list: readonly PackUnknown[];
  readonly values: (z: ArrayLike<number>) => ReadonlyMap<string, number>;
  /** Voltage at the leads [V], row by row. */
  readonly predict: (z: ArrayLike<number>) => Float64Array;
  readonly openCircuit: (z: ArrayLike<number>, charge: number) => number;
  readonly chargeLeft: (z: ArrayLike<number>) => number;
}

/** Charges at which the curve may be off [1]. */
export const KNOTS = [0, 0.05, 0.15, 0.35, 0.6, 0.85, 1] as const;
const factor = (of: number): number => Math.log(of) / STANDARD_DEVIATIONS_95;
/** What is not known of a pack of its label (provenance/rules-electrics.ts, written.ts): × or ÷; volts as 95 %. */
const CAPACITY = factor(1.06);
const RESISTANCE = factor(2.5);
const SLOW = factor(3);
const CURVE = 0.03 / STANDARD_DEVIATIONS_95;

const between = (offsets: readonly number[], charge: number): number => {
  const s = Math.min(1, Math.max(0, charge));
  let k = 1;
  while (k < KNOTS.length - 1 && KNOTS[k] < s) k++;
  const part = (s - KNOTS[k - 1]) / (KNOTS[k] - KNOTS[k - 1]);
  return offsets[k - 1] + part * (offsets[k] - offsets[k - 1]);
};

export function packModel(rows: PackRows, { battery, charge, temperature, instruments }: PackSetup): PackModel {
  const { time, voltage, current } = rows;
  const list: PackUnknown[] = [
    { key: 'capacity', words: 'capacity', start: battery.capacity, deviation: CAPACITY, kind: 'factor' },
    { key: 'resistance', words: 'ohmic resistance of a cell', start: battery.cellResistance, deviation: RESISTANCE, kind: 'factor' },
    { key: 'slow', words: 'slow resistance of a cell', start: battery.polarisationResistance, deviation: SLOW, kind: 'factor' },
    { key: 'time', words: 'time in which the slow part settles', start: battery.polarisationTime, deviation: SLOW, kind: 'factor' },
    { key: 'rise', words: 'rise of the resistance towards empty', start: battery.emptyRise, deviation: factor(1.5), kind: 'factor' },
    { key: 'lag', words: 'charge out of reach under load', start: battery.surfaceLag, deviation: factor(1.8), kind: 'factor' },
    ...KNOTS.map(
      (knot): PackUnknown => ({
        key: `curve:${knot}`,
        words: `voltage at rest at ${100 * knot} %`,
        start: 0,
        deviation: CURVE,
        kind: 'offset',
      }),
    ),
    {
      key: 'gain:voltage',
      words: 'gain of the voltmeter',
      start: 1,
      deviation: instruments.voltage.gain / STANDARD_DEVIATIONS_95,
      kind: 'gain',
    },
    {
      key: 'gain:current',
      words: 'gain of the ammeter',
      start: 1,
      deviation: instruments.current.gain / STANDARD_DEVIATIONS_95,
      kind: 'gain',
    },
  ];
  const numberOf = ({ start, deviation, kind }: PackUnknown, z: number): number =>
    kind === 'factor' ? start * Math.exp(deviation * z) : kind === 'gain' ? 1 + deviation * z : deviation * z;
  const at = (key: string): number => list.findIndex((each) => each.key === key);
  const [q, r0, r1, tau, rise, lag, firstKnot, gv, gi] = [
    'capacity',
    'resistance',
    'slow',
    'time',
    'rise',
    'lag',
    'curve:0',
    'gain:voltage',
    'gain:current',
  ].map(at);
  const noise = voltage.map((v) => scatterOf(instruments.voltage, v));
  const offsetsOf = (z: ArrayLike<number>): number[] => KNOTS.map((_, k) => numberOf(list[firstKnot + k], z[firstKnot + k]));
  let left = charge;
  const predict = (z: ArrayLike<number>): Float64Array => {
    const x = list.map((each, j) => numberOf(each, z[j]));
    const offsets = offsetsOf(z);
    const cell = { ...battery, capacity: x[q], polarisationResistance: x[r1], emptyRise: x[rise], surfaceLag: x[lag] };
    const out = new Float64Array(time.length);
    let s = charge;
    let slow = 0;
    for (let k = 0; k < time.length; k++) {
      const warmth = Number.isNaN(rows.temperature[k]) ? temperature : rows.temperature[k];
      const e = activationFactor(cell, warmth);
      const f = resistanceFactor(cell, e, s);
      const pack = current[k] * x[gi];
      const i = pack / battery.cellsInParallel;
      const step = k === 0 ? 0 : time[k] - time[k - 1];
      const towards = x[r1] * f * i;
      slow = towards + (slow - towards) * Math.exp(-step / x[tau]);
      s -= (pack * step) / x[q];
      const surface = surfaceCharge(cell, e, f, s, slow);
      const open = openCircuitVoltage(battery.openCircuit, surface) + battery.voltageOffset + between(offsets, surface);
      out[k] = (battery.cellsInSeries * (open - slow - x[r0] * f * i)) / x[gv];
    }
    left = s;
    return out;
  };
  return {
    unknowns: list.length,
    count: time.length,
    channels: [0],
    list,
    values: (z) => new Map(list.map((each, j) => [each.key, numberOf(each, z[j])])),
    predict,
    openCircuit: (z, s) => openCircuitVoltage(battery.openCircuit, s) + battery.voltageOffset + between(offsetsOf(z), s),
    chargeLeft: (z) => {
      predict(z);
      return left;
    },
    residuals: (z, out) => {
      const volts = predict(z);
      for (let k = 0; k < out.length; k++) out[k] = (volts[k] - voltage[k]) / noise[k];
    },
  };
}
