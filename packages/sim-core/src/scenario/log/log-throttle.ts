/**
 * A logged throttle as duty. What a logger calls throttle may be a share, a percentage or the pulse of a receiver; a pulse is no duty,
 * and what it stands for is the controller's setting, which the log does not tell.
 *
 * @module
 */
import { lastOf } from '../../problems/certain.js';
import type { ScenarioProblem } from '../../problems/index.js';
import type { LogEntry } from '../schema/log.js';
import { problem, quoted } from '../wording.js';
import type { LogValues } from './log-table.js';

/** What most controllers are set to, and those of cars, which brake below the middle: common practice, no published source. */
const USUAL_PULSES = {
  forward: {
    words: '1000 µs assumed to be off, 2000 µs full throttle',
    table: [
      { at: 1000e-6, duty: 0 },
      { at: 2000e-6, duty: 1 },
    ],
  },
  braking: {
    words: '1500 µs assumed to be off as on most cars, 2000 µs full throttle, 1000 µs full brake',
    table: [
      { at: 1000e-6, duty: -1 },
      { at: 1500e-6, duty: 0 },
      { at: 2000e-6, duty: 1 },
    ],
  },
} as const;
/** A column without a unit: shares end at 1, percentages at 100, pulses lie about 1000 to 2000 µs; a little more is jitter. */
const JITTER = 1.05;
const PULSES_US = { least: 500, most: 2500 } as const;

export interface Duties {
  readonly duty: Float64Array;
  readonly taken: readonly string[];
  readonly problems: readonly ScenarioProblem[];
}

/** Duties from 0 to 1; NaN where the log is empty. `file` is for the place of a problem; `wheels`: whether a car was logged. */
export function dutiesOf({ values, column }: LogValues, pulses: LogEntry['pulse'], file: string, wheels: boolean): Duties {
  const taken: string[] = [];
  const name = quoted(column.title);
  let largest = 0;
  let smallest = Number.POSITIVE_INFINITY;
  for (const value of values) {
    if (value > largest) largest = value;
    if (value < smallest) smallest = value;
  }
  let form = column.form;
  let scale = 1;
  if (form === 'bare') {
    if (largest <= JITTER) taken.push(`${name} has no unit: its numbers, at most ${largest}, taken for shares of full throttle`);
    else if (largest <= 100 * JITTER) {
      scale = 0.01;
      taken.push(`${name} has no unit: its numbers, at most ${largest}, taken for per cent`);
    } else if (smallest >= PULSES_US.least && largest <= PULSES_US.most) {
      scale = 1e-6;
      form = 'instead';
      taken.push(`${name} has no unit: its numbers, ${smallest} to ${largest}, taken for pulses in µs`);
    } else {
      const hint = `write its unit in the file, or in the profile: columns: { throttle: "${column.title} [%]" }`;
      const refused = problem(
        'bare-number',
        { file, line: 1, column: 1, path: column.title },
        'a throttle in %, as a share or as pulse in µs',
        `${smallest} to ${largest} without a unit`,
        { hint },
      );
      return { duty: values, taken, problems: [refused] };
    }
  }
  const duty = Float64Array.from(values, (value) => value * scale);
  if (form === 'instead') {
    const usual = USUAL_PULSES[wheels ? 'braking' : 'forward'];
    const table = pulses ?? usual.table;
    if (pulses === undefined) {
      taken.push(
        `a pulse is no duty: ${usual.words}, even between; what the controller makes of it can be written as pulse: [{ at: 1100 us, duty: 0 % }, …]`,
      );
    }
    for (let k = 0; k < duty.length; k++) duty[k] = between(table, duty[k]);
  }
  let braking = 0;
  let beyond = 0;
  for (let k = 0; k < duty.length; k++) {
    if (duty[k] < 0) {
      braking++;
      duty[k] = 0;
    } else if (duty[k] > 1) {
      beyond++;
      duty[k] = 1;
    }
  }
  if (braking > 0)
    taken.push(`${name} below zero in ${braking} of ${duty.length} rows, a brake, taken for off: the heat of braking is left out`);
  if (beyond > 0) taken.push(`${name} a little above full throttle in ${beyond} of ${duty.length} rows, taken for full throttle`);
  return { duty, taken, problems: [] };
}

function between(table: readonly { readonly at: number; readonly duty: number }[], pulse: number): number {
  const above = table.findIndex(({ at }) => at >= pulse);
  if (above === 0) return table[0].duty;
  if (above < 0) return Number.isNaN(pulse) ? pulse : lastOf(table).duty;
  const [a, b] = [table[above - 1], table[above]];
  return a.duty + ((b.duty - a.duty) * (pulse - a.at)) / (b.at - a.at);
}
