/**
 * Highest and lowest value of every channel over a run, with their times; peaks of temperature from dense output, never from samples.
 *
 * @module
 */

import { BODIES } from '../../heat/heat-paths.js';
import type { Kernel } from '../../kernel/kernel.js';
import { isBeyondReach } from '../../kernel/operating-point.js';
import { bodyPlaces } from '../../kernel/state-places.js';
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
  let outsideTable = 0;

  const rates = new Float64Array(kernel.dimension);
  const record = (values: Float64Array, times: Float64Array): Record<ChannelId, Peak> =>
    Object.fromEntries(CHANNEL_IDS.map((id, k) => [id, { value: values[k], time: times[k] }])) as Record<ChannelId, Peak>;

  /** Whether a temperature may have a peak inside the step: it rises at the start and falls at the end. */
  const mayPeak = ({ startSlope, endSlope }: StepView): boolean => {
    if (startSlope === undefined || endSlope === undefined) return true;
    for (const index of places) if (startSlope[index] > 0 && endSlope[index] < 0) return true;
    return false;
  };

  return {
    note(t, y) {
      observeInto(kernel, t, y, row);
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
        if (!(bend < 0 && Math.abs(rise) < -2 * bend)) continue;
        // a peak that cannot reach the highest so far, by a parabola with room to spare, is left alone
        if (rates[index] - bend < most[row]) continue;
        let a = from;
        let c = to;
        for (let pass = 0; pass < 3 && c - a > 1e-6; pass++) {
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
