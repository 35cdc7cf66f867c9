/**
 * The one table that all time charts of a page read: each channel of each candidate, rounded as it prints, as differences from moment to moment.
 *
 * @module
 */

import { CHANNELS, type ChannelId, type RunResult } from '@shaftwork/sim-core';
import { SECONDS_PER_MINUTE, toUnit, unitSign } from '@shaftwork/sim-core/quantities';
import { channelPrinting } from '@shaftwork/sim-core/words';
import { TIME_STEPS } from '../drawing/round-ticks.js';

export interface RunTable {
  readonly names: readonly string[];
  readonly secondsPerMinute: number;
  /** Round steps of a time axis [s], rising. */
  readonly timeSteps: readonly number[];
  /** Steps that have a name, with their times [s]. */
  readonly steps: readonly (readonly [from: number, to: number, name: string])[];
  /** Times in tenths of a second, as differences. */
  readonly time: readonly (readonly number[])[];
  readonly channels: {
    readonly [id: string]: {
      readonly words: string;
      readonly unit: string;
      readonly decimals: number;
      /** In units of the last decimal kept, one more than is printed, as differences; null where there is no number. */
      readonly values: readonly (readonly (number | null)[])[];
    };
  };
}

export const TIMES_PER_SECOND = 10;
/** More moments than this are thinned, for drawing only. */
const MOST_MOMENTS = 2400;

/** Indices kept: evenly spread over the trace, its first and last among them. */
function kept(length: number): readonly number[] {
  if (length <= MOST_MOMENTS) return Array.from({ length }, (_, index) => index);
  const step = (length - 1) / (MOST_MOMENTS - 1);
  return Array.from({ length: MOST_MOMENTS }, (_, index) => Math.round(index * step));
}

function differences(values: readonly number[]): (number | null)[] {
  let last = 0;
  return values.map((value) => {
    if (!Number.isFinite(value)) return null;
    const difference = value - last;
    last = value;
    return difference;
  });
}

export function runTable({ candidates, scenario }: RunResult, channels: readonly ChannelId[]): RunTable {
  const indices = candidates.map(({ trace }) => kept(trace.time.length));
  const pick = (values: readonly number[], candidate: number, scale: (value: number) => number): (number | null)[] =>
    differences(indices[candidate].map((index) => Math.round(scale(values[index]))));
  return {
    names: candidates.map(({ name }) => name),
    secondsPerMinute: SECONDS_PER_MINUTE,
    timeSteps: TIME_STEPS,
    steps: scenario.steps.flatMap(({ from, to, label }) => (label === undefined ? [] : [[from, to, label] as const])),
    time: candidates.map(({ trace }, index) => pick(trace.time, index, (time) => time * TIMES_PER_SECOND) as number[]),
    channels: Object.fromEntries(
      channels.map((id) => {
        const { decimals } = channelPrinting(id);
        const unit = CHANNELS[id].shown;
        const scale = 10 ** (decimals + 1);
        return [
          id,
          {
            words: CHANNELS[id].words,
            unit: unitSign(unit),
            decimals,
            values: candidates.map(({ trace }, index) => pick(trace[id], index, (value) => toUnit(value, unit) * scale)),
          },
        ];
      }),
    ),
  };
}
