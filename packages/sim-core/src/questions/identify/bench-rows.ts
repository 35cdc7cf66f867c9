/**
 * Rows of a motor's bench as plain numbers: steady points, or a log of which only what stood still is kept.
 *
 * *Holds for* rows in which nothing accelerates: a log's rows are left out for as long as throttle or speed move (`steadyRows`).
 * @module
 */
import type { InstrumentId } from './instruments.js';

export interface BenchRows {
  /** Time [s]; row numbers where the table has none. */
  readonly time: Float64Array;
  readonly timed: boolean;
  /** SI, NaN where not read; `speed` of the motor's shaft [rad/s]. */
  readonly read: Readonly<Partial<Record<InstrumentId, Float64Array>>>;
  /** Duty 0 … 1; NaN where the log does not tell it. */
  readonly duty: Float64Array;
  /** Temperature of the winding [K]; NaN where not read. */
  readonly winding: Float64Array;
  /** Which of `propellers` turns; −1 for a bare shaft. */
  readonly propeller: Int32Array;
  readonly propellers: readonly string[];
}

const NEEDED = ['voltage', 'current', 'speed'] as const;
/** A row is steady where over this time [s] the speed keeps within this share, and the duty within this much. */
const WINDOW = 1;
const LATEST = 5;
const SPEED_SHARE = 0.02;
const DUTY_CHANGE = 0.01;
/** More rows than this are put together by neighbours; the intervals know it by (4) of least-squares. */
const MOST_ROWS = 1000;

export interface Kept {
  readonly rows: BenchRows;
  /** How many were left out as not turning or not whole, and as not steady. */
  readonly idle: number;
  readonly moving: number;
  /** How many neighbours were put together into one. */
  readonly together: number;
}

/** Rows that tell something: turning, whole, and steady where there is a time. */
export function steadyRows(rows: BenchRows): Kept {
  const { read, time, timed, duty, propeller } = rows;
  const count = time.length;
  const whole: number[] = [];
  for (let k = 0; k < count; k++) {
    if (NEEDED.every((key) => (read[key]?.[k] ?? 0) > 0) && !(duty[k] <= 0)) whole.push(k);
  }
  const kept = timed ? whole.filter((k) => isSteady(rows, k)) : whole;
  const together = Math.max(1, Math.ceil(kept.length / MOST_ROWS));
  const groups: number[][] = [];
  for (const k of kept) {
    const last = groups.at(-1);
    const joins = last !== undefined && last.length < together && propeller[last[0]] === propeller[k] && Object.is(duty[last[0]], duty[k]);
    if (joins) last.push(k);
    else groups.push([k]);
  }
  const mean = (values: Float64Array): Float64Array =>
    Float64Array.from(groups, (group) => group.reduce((sum, k) => sum + values[k], 0) / group.length);
  const means = Object.fromEntries(
    (Object.entries(read) as [InstrumentId, Float64Array][]).map(([key, values]) => [key, mean(values)]),
  ) as Partial<Record<InstrumentId, Float64Array>>;
  return {
    rows: {
      time: mean(time),
      timed,
      read: means,
      duty: mean(duty),
      winding: mean(rows.winding),
      propeller: Int32Array.from(groups, ([k]) => propeller[k]),
      propellers: rows.propellers,
    },
    idle: count - whole.length,
    moving: whole.length - kept.length,
    together,
  };
}

/** By the mean speed in both halves of the window about a row, so that scatter does not count as movement; at an end, one half and the row itself. */
function isSteady({ time, read: { speed }, duty, propeller }: BenchRows, k: number): boolean {
  if (speed === undefined) return false;
  let [before, after] = [k, k];
  // the next row counts even where it is later than that
  const joins = (m: number, from: number): boolean =>
    propeller[m] === propeller[k] && Math.abs(time[m] - time[k]) <= (from === k ? LATEST : WINDOW / 2);
  while (before > 0 && joins(before - 1, before)) before--;
  while (after < time.length - 1 && joins(after + 1, after)) after++;
  for (let m = before; m <= after; m++) if (Math.abs(duty[m] - duty[k]) > DUTY_CHANGE) return false;
  const mean = (from: number, to: number): number => {
    let sum = 0;
    for (let m = from; m < to; m++) sum += speed[m];
    return from < to ? sum / (to - from) : speed[k];
  };
  return after > before && Math.abs(mean(before, k) - mean(k + 1, after + 1)) < SPEED_SHARE * speed[k];
}

/** Several benches one after another; propellers of one name are one. */
export function joined(all: readonly BenchRows[]): BenchRows {
  const propellers = [...new Set(all.flatMap((each) => each.propellers))];
  const keys = [...new Set(all.flatMap((each) => Object.keys(each.read) as InstrumentId[]))];
  const put = (pick: (rows: BenchRows) => ArrayLike<number>): Float64Array =>
    Float64Array.from(all.flatMap((rows) => [...toArray(pick(rows))]));
  const missing = (rows: BenchRows) => new Float64Array(rows.time.length).fill(Number.NaN);
  return {
    time: put(({ time }) => time),
    timed: all.every(({ timed }) => timed),
    read: Object.fromEntries(keys.map((key) => [key, put((rows) => rows.read[key] ?? missing(rows))])),
    duty: put(({ duty }) => duty),
    winding: put(({ winding }) => winding),
    propeller: Int32Array.from(
      all.flatMap((rows) => Array.from(rows.propeller, (p) => (p < 0 ? -1 : propellers.indexOf(rows.propellers[p])))),
    ),
    propellers,
  };
}

const toArray = (values: ArrayLike<number>): number[] => Array.from(values);
