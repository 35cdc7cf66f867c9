/** Round tick values: the few numbers that a person would have written on the axis. @module */
import { certain, lastOf } from '@shaftwork/sim-core/problems';
import { formatClock, SECONDS_PER_HOUR, SECONDS_PER_MINUTE } from '@shaftwork/sim-core/quantities';
import { grouped } from '@shaftwork/sim-core/words';

export interface Scale {
  readonly domain: readonly [low: number, high: number];
  readonly ticks: readonly number[];
  readonly label: (value: number) => string;
}

const ROUND_STEPS = [1, 2, 2.5, 5, 10];

/** A scale from at or below `low` to at or above `high` whose ends are ticks; about `count` steps. */
export function roundScale(low: number, high: number, count: number): Scale {
  const span = high > low ? high - low : Math.max(Math.abs(high), 1);
  const rough = span / count;
  const decade = 10 ** Math.floor(Math.log10(rough));
  const step =
    decade *
    certain(
      ROUND_STEPS.find((round) => round * decade >= rough * (1 - 1e-9)),
      'round step',
    );
  const first = Math.floor(low / step + 1e-9);
  const last = Math.max(first + 1, Math.ceil(high / step - 1e-9));
  const ticks = Array.from({ length: last - first + 1 }, (_, index) => Number(((first + index) * step).toPrecision(12)));
  const decimals = Math.max(0, ...ticks.map(decimalsOf));
  return { domain: [ticks[0], lastOf(ticks)], ticks, label: (value) => grouped(value.toFixed(decimals).replace('-', '\u2212')) };
}

/** Round ticks inside a scale that ends exactly where it is asked to. */
export function openScale(low: number, high: number, count: number): Scale {
  const { ticks, label } = roundScale(low, high, count);
  return { domain: [low, high], ticks: ticks.filter((tick) => tick >= low && tick <= high), label };
}

const decimalsOf = (value: number): number => (String(value).split('.')[1] ?? '').length;

/** Round steps of clock time [s]. */
export const TIME_STEPS: readonly number[] = [
  ...[1, 2, 5, 10, 15, 30],
  ...[1, 2, 3, 5, 10, 15, 20, 30].map((minutes) => minutes * SECONDS_PER_MINUTE),
  ...[1, 2, 4, 6, 12, 24].map((hours) => hours * SECONDS_PER_HOUR),
];

/** Clock times from 0 to the duration [s], at most `most` steps. */
export function timeScale(duration: number, most: number): Scale {
  const step = TIME_STEPS.find((seconds) => duration / seconds <= most) ?? duration / most;
  const ticks = Array.from({ length: Math.floor(duration / step + 1e-9) + 1 }, (_, index) => index * step);
  return { domain: [0, duration], ticks, label: formatClock };
}
