/**
 * Highest and lowest value of every channel over a run, with their times; peaks are sought within the integrator's steps, so that none hangs on where
 * these end.
 *
 * @module
 */

import { BODIES } from '../../heat/heat-paths.js';
import type { Kernel } from '../../kernel/kernel.js';
import { isBeyondReach } from '../../kernel/operating-point.js';
import { bodyPlaces } from '../../kernel/state-places.js';
import { highest } from '../../numerics/highest.js';
import type { StepView } from '../../numerics/ode-system.js';
import { BODY_CHANNEL, CHANNEL_IDS, type ChannelId } from '../../results/channels.js';
import { CHANNEL_INDEX, observeInto } from './observe.js';

/** An extreme [SI] and when it was [s]. */
export interface Peak {
  readonly value: number;
  readonly time: number;
}

export interface ExtremesWatch {
  /** Takes (t, y) into account. */
  note(t: number, y: Float64Array): void;
  /** Looks for temperature peaks inside a step. */
  refine(step: StepView): void;
  /** Takes what lies inside a step into account, and looks for the peaks of all other channels there, round or with a corner, as where wheels begin to hold. */
  search(step: StepView): void;
  /** Farthest beyond the propeller's table while driving, in advance ratio [1]; 0 where it was not left. */
  outsideTable(): number;
  highest(): Record<ChannelId, Peak>;
  lowest(): Record<ChannelId, Peak>;
}

/** The largest magnitude of a channel that may have either sign: braking loads a motor as driving does. */
export const largest = (
  id: ChannelId,
  { highest, lowest }: { readonly highest: Readonly<Record<ChannelId, Peak>>; readonly lowest: Readonly<Record<ChannelId, Peak>> },
): Peak => (-lowest[id].value > highest[id].value ? { value: -lowest[id].value, time: lowest[id].time } : highest[id]);

/** Where within a step peaks are looked for: its ends, next to them, and between [1]. */
const SHARES = [0, 1e-3, 0.25, 0.5, 0.75, 1 - 1e-3, 1];
const LAST = SHARES.length - 1;
const [BETWEEN, ENDS] = [
  [2, 3, 4],
  [0, 1, LAST - 1, LAST],
];
/** Looks at a peak of temperature, each a quarter as wide as the one before. */
const LOOKS = [1, 2, 3];
/** Width to which a peak's place is found, as a share of the step; and what a peak must stand out by, as a share of its height [1]. */
const PLACE = 1e-7;
const STANDS_OUT = 1e-9;
/** Looks that all searches of a run have: hundreds of peaks'. One that jumps to and fro has a peak in every step, and its later ones are read from samples. */
const MOST_LOOKS = 30_000;

export function extremesWatch(kernel: Kernel): ExtremesWatch {
  const count = CHANNEL_IDS.length;
  const row = new Float64Array(count);
  const most = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  const least = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
  const mostTime = new Float64Array(count);
  const leastTime = new Float64Array(count);
  const state = new Float64Array(kernel.dimension);
  const places = bodyPlaces(kernel.at);
  const rows = BODIES.map((body) => CHANNEL_INDEX[BODY_CHANNEL[body]]);
  const sought = CHANNEL_IDS.map((_, k) => k).filter((k) => !rows.includes(k));
  let outsideTable = 0;
  let looks = 0;

  const rates = new Float64Array(kernel.dimension);
  const samples = SHARES.map(() => new Float64Array(count));
  const record = (values: Float64Array, times: Float64Array): Record<ChannelId, Peak> =>
    Object.fromEntries(CHANNEL_IDS.map((id, k) => [id, { value: values[k], time: times[k] }])) as Record<ChannelId, Peak>;

  /** Whether a temperature may have a peak inside the step: it rises at the start and falls at the end. */
  const mayPeak = ({ startSlope, endSlope }: StepView): boolean => {
    if (startSlope === undefined || endSlope === undefined) return true;
    for (const index of places) if (startSlope[index] > 0 && endSlope[index] < 0) return true;
    return false;
  };

  /** Observes (t, y) into the row; NaN where it is what no throttle gives. */
  const observed = (t: number, y: Float64Array): void => {
    observeInto(kernel, t, y, row);
    if (isBeyondReach(kernel.point)) row.fill(Number.NaN);
  };

  /** Seeks the peak of channel `k`, or with a `sign` of −1 its lowest place, where the samples of a step have one that may pass what was seen before. */
  const seek = (step: StepView, k: number, sign: 1 | -1): void => {
    let top = 0;
    for (let i = 1; i <= LAST; i++) if (sign * samples[i][k] > sign * samples[top][k]) top = i;
    if (top === 0 || top === LAST || looks > MOST_LOOKS) return;
    const value = sign * samples[top][k];
    const [values, times] = sign > 0 ? [most, mostTime] : [least, leastTime];
    const clear = sign * values[k] + STANDS_OUT * Math.abs(values[k]);
    // no corner stands higher above its neighbours than the lines to them rise
    const rise = value - Math.min(sign * samples[top - 1][k], sign * samples[top + 1][k]);
    if (!(value + rise > clear)) return;
    const span = step.to - step.from;
    const [low, at, high] = [top - 1, top, top + 1].map((i) => step.from + SHARES[i] * span);
    const height = (t: number): number => {
      looks++;
      step.at(t, state);
      observed(t, state);
      return sign * row[k];
    };
    const peak = highest(height, low, at, value, high, PLACE * span);
    if (!(peak.value > clear)) return;
    values[k] = sign * peak.value;
    times[k] = peak.at;
  };

  const note = (t: number, y: Float64Array): void => {
    observed(t, y);
    const { point } = kernel;
    if (isBeyondReach(point)) return;
    if (point.duty > 0 && Math.abs(point.outsideTable) > Math.abs(outsideTable)) outsideTable = point.outsideTable;
    for (let k = 0; k < count; k++) {
      if (row[k] > most[k]) {
        most[k] = row[k];
        mostTime[k] = t;
      }
      if (row[k] < least[k]) {
        least[k] = row[k];
        leastTime[k] = t;
      }
    }
  };

  /** Sample `i` of a step, as `look` takes it. */
  const sample = (step: StepView, i: number, look: (t: number, y: Float64Array) => void): void => {
    const t = step.from + SHARES[i] * (step.to - step.from);
    if (i === 0) look(t, step.start);
    else if (i === LAST) look(step.to, step.end);
    else {
      step.at(t, state);
      look(t, state);
    }
    samples[i].set(row);
  };

  return {
    note,
    search(step) {
      for (const i of BETWEEN) sample(step, i, note);
      kernel.aside(() => {
        for (const i of ENDS) sample(step, i, observed);
        for (const k of sought) {
          seek(step, k, 1);
          seek(step, k, -1);
        }
      });
    },
    refine(step) {
      if (!mayPeak(step)) return;
      const { from, to, start, end } = step;
      const span = to - from;
      step.at(from + 0.5 * span, rates);
      for (let body = 0; body < BODIES.length; body++) {
        const index = places[body];
        const row = rows[body];
        // a peak inside shows in three points: the middle lies above the line between the ends by more than their difference allows
        const bend = start[index] - 2 * rates[index] + end[index];
        const rise = end[index] - start[index];
        if (!(Math.abs(rise) < -2 * bend)) continue;
        // a peak that cannot reach the highest so far, by a parabola with room to spare, is left alone
        if (rates[index] - bend < most[row]) continue;
        let a = from;
        let c = to;
        for (const _ of LOOKS) {
          const b = 0.5 * (a + c);
          step.at(a, state);
          const fa = state[index];
          step.at(b, state);
          const fb = state[index];
          step.at(c, state);
          const fc = state[index];
          const curve = fa - 2 * fb + fc;
          if (!(curve < 0)) break;
          const t = Math.min(to, Math.max(from, b + (0.25 * (c - a) * (fa - fc)) / curve));
          step.at(t, state);
          if (state[index] > most[row]) {
            most[row] = state[index];
            mostTime[row] = t;
          }
          const width = 0.125 * (c - a);
          a = Math.max(from, t - width);
          c = Math.min(to, t + width);
        }
      }
    },
    outsideTable: () => outsideTable,
    highest: () => record(most, mostTime),
    lowest: () => record(least, leastTime),
  };
}
