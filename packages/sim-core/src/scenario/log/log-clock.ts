/**
 * Times of a log as its clock gives them: hours, minutes and seconds, stamps that several rows share, rows out of order, a clock that began again.
 *
 * @module
 */

import { SECONDS_PER_HOUR, SECONDS_PER_MINUTE } from '../../quantities/index.js';

/** "12:00:01.5", "00:01,5", with a date before it or not. */
const CLOCK = /^(?:[^\s:]+[T ]+)?(\d{1,3}):(\d{2})(?::(\d{2}(?:[.,]\d+)?)|([.,]\d+))?\s*(?:Z|[+-]\d{2}:?\d{2})?$/;
const DAY = 24 * SECONDS_PER_HOUR;

export const isClock = (cell: string): boolean => CLOCK.test(cell.trim());

/** Seconds since midnight (or since the clock's zero); NaN for what is no clock. Two fields are minutes and seconds where a decimal follows, else hours and minutes. */
export function clockSeconds(cell: string): number {
  const parts = CLOCK.exec(cell.trim());
  if (parts === null) return Number.NaN;
  const [, a, b, c, decimal] = parts;
  if (decimal !== undefined) return +a * SECONDS_PER_MINUTE + +`${b}${decimal.replace(',', '.')}`;
  return c === undefined
    ? +a * SECONDS_PER_HOUR + +b * SECONDS_PER_MINUTE
    : +a * SECONDS_PER_HOUR + +b * SECONDS_PER_MINUTE + +c.replace(',', '.');
}

/** Adds a day wherever a clock passes midnight, in place. */
export function passMidnight(time: Float64Array): void {
  let days = 0;
  for (let k = 1; k < time.length; k++) {
    const written = time[k] + days;
    if (written < time[k - 1] - DAY / 2) days += DAY;
    time[k] = time[k] + days;
  }
}

/** A row this soon after a late one makes the late one a stray, not a new beginning. */
const STRAY_ROWS = 50;

export interface InOrder {
  /** Rows that stay, in rising time. */
  readonly rows: Int32Array;
  /** Times of those rows: stamps that several share are spread evenly up to the next one. */
  readonly time: Float64Array;
  /** Where the clock began again: the first kept row of each part after the first. */
  readonly restarts: readonly number[];
  /** How many rows came out of order and were left out, and how many shared a stamp with the row before. */
  readonly strays: number;
  readonly shared: number;
}

/** Rising times from those of a file; NaN is left out (it has been told). */
export function inOrder(written: Float64Array): InOrder {
  const rows: number[] = [];
  const time: number[] = [];
  const restarts: number[] = [];
  let strays = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < written.length; k++) {
    const t = written[k];
    if (Number.isNaN(t)) continue;
    if (t < last) {
      let returns = false;
      for (let ahead = k + 1; ahead < Math.min(written.length, k + STRAY_ROWS) && !returns; ahead++) returns = written[ahead] > last;
      if (returns) {
        strays++;
        continue;
      }
      restarts.push(rows.length);
    }
    rows.push(k);
    time.push(t);
    last = t;
  }
  return { rows: Int32Array.from(rows), time: Float64Array.from(time), restarts, strays, shared: spread(time, restarts) };
}

/** Rows that share a stamp lie evenly between it and the next; the last ones go on at the pace before. */
function spread(time: number[], restarts: readonly number[]): number {
  const begins = new Set(restarts);
  let shared = 0;
  for (let k = 0; k < time.length; ) {
    let end = k + 1;
    while (end < time.length && time[end] === time[k] && !begins.has(end)) end++;
    const count = end - k;
    if (count > 1) {
      shared += count - 1;
      const after = end < time.length && !begins.has(end) ? time[end] : undefined;
      const pace = after !== undefined ? (after - time[k]) / count : k > 0 && !begins.has(k) ? time[k] - time[k - 1] : 0;
      const from = time[k];
      for (let m = 1; m < count; m++) time[k + m] = from + m * pace;
    }
    k = end;
  }
  return shared;
}
