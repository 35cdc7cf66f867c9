/** A log file as profile: its rows reduced to straight pieces within a stated deviation. @module */

import { type Held, type ProfileStep, type Ramp, type StepParts, stepOfParts } from '../../drive/profile.js';
import { polylineDeviation, thinPolyline } from '../../numerics/thin-polyline.js';
import { certain } from '../../problems/certain.js';
import type { ScenarioProblem } from '../../problems/index.js';
import type { LogFacts } from '../../provenance/given.js';
import type { MeasuredLog } from '../../provenance/measurables.js';
import type { Dimension } from '../../quantities/index.js';
import { formatQuantity } from '../../quantities/index.js';
import { HOLDS } from '../profile.js';
import { type Bounds, NOT_NEGATIVE, SHARE } from '../schema/bounds.js';
import { LOG_HOLDS, type LogEntry, type LogHold } from '../schema/log.js';
import { alternatives, problem } from '../wording.js';
import { childOf, type LocatedNode } from '../yaml/located-tree.js';
import type { WantedColumn } from './log-columns.js';
import { readLogTable } from './log-table.js';
import { columnsOf, measuredRows, rowsWithin, wantedOf, wantedTime } from './measured.js';

const LONGEST_GAP = 5;
const ACCURACY = 0.005;
/** More pieces than this say nothing about temperatures that the coarser ones do not, and each restarts the integrator. */
const MOST_PIECES = 2000;
/** A shaft that begins to turn out of a stop: as good as still, yet not the held rotor that a speed of 0 means [rad/s]. */
const BARELY_TURNING = 1e-3;

type ColumnKey = LogHold | 'climb' | 'grade';
const COLUMNS: readonly (readonly [key: LogHold | 'climb', dimension: Dimension, bounds: Bounds])[] = [
  ['throttle', 'fraction', SHARE],
  ['vehicle_speed', 'speed', NOT_NEGATIVE],
  ['shaft_speed', 'angularSpeed', NOT_NEGATIVE],
  ['battery_power', 'power', NOT_NEGATIVE],
  ['battery_current', 'current', NOT_NEGATIVE],
  ['motor_current', 'current', NOT_NEGATIVE],
  ['thrust', 'force', NOT_NEGATIVE],
  ['climb', 'speed', {}],
];
const GRADE = { dimension: 'fraction', bounds: { above: -1, below: 1 } } as const;

export interface LogProfile {
  readonly steps: readonly ProfileStep[];
  readonly facts?: LogFacts;
  /** What else the file has, for comparison with what is predicted. */
  readonly measured?: MeasuredLog;
  readonly problems: readonly ScenarioProblem[];
}

/** `text` is that of the file at `path`; `node` is the profile in the scenario, which is that of a car where it has `wheels`. */
export function logProfileSteps(entry: LogEntry, node: LocatedNode, path: string, text: string, wheels: boolean): LogProfile {
  const refused = (...problems: readonly ScenarioProblem[]): LogProfile => ({ steps: [], problems });
  const place = (key: string) => childOf(node, key)?.place ?? { ...node.place, path: `${node.place.path}.${key}` };
  const bounded = new Map(COLUMNS.map(([key, dimension, bounds]) => [key as string, { key, dimension, bounds }]));
  const { hold, columns: heads } = entry;
  /** What is held or may have to be; of the rest nothing is needed. */
  const needed = (key: string): boolean =>
    hold === undefined || hold === key || key === 'vehicle_speed' || key === 'climb' || key === 'grade';
  const wanted: WantedColumn[] = [
    wantedTime(entry),
    ...wantedOf(entry).map((want) => {
      const strict = bounded.get(want.key);
      if (strict === undefined || !needed(want.key)) return want;
      return { ...want, ...strict, required: hold === want.key || want.required, optional: false };
    }),
    { key: 'grade', head: heads?.grade ?? 'grade', ...GRADE, required: heads?.grade !== undefined },
  ];
  const read = readLogTable(path, text, wanted, entry.part);
  if (!read.ok) return refused(...read.problems);

  const has = (key: ColumnKey): boolean => read.table.columns.has(key);
  const present = LOG_HOLDS.filter(has);
  const others = present.filter((key) => key !== 'vehicle_speed');
  if (present.length === 0) {
    const heads = LOG_HOLDS.map((key) => `${key.replace('_', ' ')} […]`);
    const hint = 'name it in the file, or say which column it is: columns: { throttle: "Thr [%]" }';
    return refused(
      problem('missing-datum', { file: path, line: 1, column: 1, path: '' }, `a column ${alternatives(heads)}`, 'none', { hint }),
    );
  }
  if (entry.hold === undefined && others.length > 1) {
    const hint = `write hold: ${others[0]}, or another of them`;
    return refused(problem('conflict', place('hold'), 'one thing that is held', others.join(' and '), { hint }));
  }
  const held: LogHold = entry.hold ?? others[0] ?? 'vehicle_speed';
  if (held !== 'vehicle_speed' && has('vehicle_speed') && entry.impose_speed === undefined) {
    const hint =
      'write impose_speed: yes for an aircraft or a bench in the wind, impose_speed: no where the speed is to follow from the drive';
    return refused(problem('missing-datum', place('impose_speed'), 'whether the logged vehicle speed is imposed', 'nothing', { hint }));
  }
  const imposed = held !== 'vehicle_speed' && entry.impose_speed === true;
  if (imposed && !has('vehicle_speed')) {
    return refused(problem('conflict', place('impose_speed'), 'a column vehicle speed to impose', 'none'));
  }
  const beside: ColumnKey[] = [];
  if (imposed) beside.push('vehicle_speed');
  if (has('climb') && held === 'vehicle_speed') beside.push('climb');
  else if (has('grade')) beside.push('grade');

  const si = columnsOf(read.table, entry, { file: path, charge: place('charge_put_back'), wheels, throttle: held === 'throttle' });
  if (si.problems.length > 0) return refused(...si.problems);
  const window = rowsWithin(si.columns.get('time') ?? new Float64Array(), entry);
  if (window.to - window.from < 2) {
    return refused(
      problem('nothing-to-do', place(entry.from ? 'from' : 'to'), 'two rows at least between from and to', `${window.to - window.from}`),
    );
  }
  const cut = cropped(si.columns, read.table.lines, [held, ...beside], window);
  const driven = new Set<string>([held, ...beside]);
  const rows = measuredRows(new Map([...si.columns].filter(([key]) => !driven.has(key))), read.table, window);
  const measured: MeasuredLog | undefined =
    rows.columns.size === 0
      ? undefined
      : { file: path, ...rows, begins: { by: 'profile', at: cut.time[0] }, driven: true, taken: rows.taken };
  const gaps = bridgeGaps(cut, entry.longest_gap?.value ?? LONGEST_GAP, path);
  if (gaps.length > 0) return refused(...gaps);
  const pieces = piecesOf(cut, held, entry, path, [...read.table.taken, ...si.taken]);
  return measured === undefined ? pieces : { ...pieces, measured };
}

interface Curves {
  readonly time: Float64Array;
  readonly keys: readonly ColumnKey[];
  readonly values: readonly Float64Array[];
  readonly lines: Int32Array;
}

function cropped(
  columns: ReadonlyMap<string, Float64Array>,
  lines: Int32Array,
  keys: readonly ColumnKey[],
  { from, to }: { readonly from: number; readonly to: number },
): Curves {
  const of = (key: string): Float64Array => columns.get(key) ?? new Float64Array();
  return { time: of('time').subarray(from, to), keys, values: keys.map((key) => of(key).slice(from, to)), lines: lines.subarray(from, to) };
}

/** Straight lines over empty cells, in place; what is empty for longer, or at an end, is a problem. */
function bridgeGaps({ time, keys, values, lines }: Curves, longest: number, file: string): readonly ScenarioProblem[] {
  const problems: ScenarioProblem[] = [];
  const shown = (seconds: number) => formatQuantity(seconds, 'time', { unit: 's', decimals: 1, space: ' ' });
  const gap = (row: number, path: string, seconds: number, what: string) =>
    problem(
      'missing-datum',
      { file, line: lines[row], column: 1, path },
      `${what} at least every ${shown(longest)}`,
      `none for ${shown(seconds)}`,
      { hint: 'take a part without gaps by from: and to:, or allow a longer one by longest_gap:' },
    );
  for (let k = 1; k < time.length; k++) {
    if (time[k] - time[k - 1] <= longest) continue;
    problems.push(gap(k, 'time', time[k] - time[k - 1], 'a row'));
    break;
  }
  for (const [c, value] of values.entries()) {
    const words = keys[c].replace('_', ' ');
    for (let k = 0; k < value.length; k++) {
      if (!Number.isNaN(value[k])) continue;
      const before = k - 1;
      let after = k;
      while (after < value.length && Number.isNaN(value[after])) after++;
      const atEnd = before < 0 || after === value.length;
      const span = time[Math.min(after, value.length - 1)] - time[Math.max(before, 0)];
      if (atEnd || span > longest) {
        problems.push(gap(k, words, span, `a value of ${words}`));
        break;
      }
      for (let m = k; m < after; m++) {
        value[m] = value[before] + ((value[after] - value[before]) * (time[m] - time[before])) / span;
      }
      k = after;
    }
  }
  return problems;
}

function piecesOf({ time, keys, values }: Curves, held: LogHold, entry: LogEntry, file: string, taken: readonly string[]): LogProfile {
  const scales = values.map((value) => value.reduce((most, each) => Math.max(most, Math.abs(each)), 0));
  // a throttle or shaft at rest is off, which nothing near it is
  const off = held === 'throttle' || held === 'shaft_speed' ? values[0] : undefined;
  const keep = off === undefined ? undefined : new Uint8Array(time.length);
  if (off !== undefined && keep !== undefined) {
    for (let k = 1; k < time.length; k++) if ((off[k] === 0) !== (off[k - 1] === 0)) keep[k - 1] = keep[k] = 1;
  }
  let accuracy = entry.accuracy?.value ?? ACCURACY;
  let kept: Int32Array;
  for (;;) {
    kept = thinPolyline(
      time,
      values,
      scales.map((scale) => accuracy * scale),
      keep,
    );
    if (kept.length - 1 <= MOST_PIECES || accuracy >= 1) break;
    accuracy *= 2;
  }
  const steps: ProfileStep[] = [];
  for (let piece = 1; piece < kept.length; piece++) {
    const [a, b] = [kept[piece - 1], kept[piece]];
    const ramp = (key: ColumnKey): Ramp | undefined => {
      const value = values[keys.indexOf(key)];
      return value === undefined ? undefined : { from: value[a], to: value[b] };
    };
    const parts: StepParts = {
      duration: time[b] - time[a],
      ...(entry.label === undefined ? {} : { label: entry.label }),
      ...holdOf(held, certain(ramp(held), `column ${held}`)),
      vehicleSpeed: held === 'vehicle_speed' ? undefined : ramp('vehicle_speed'),
      climb: ramp('climb'),
      grade: ramp('grade'),
    };
    steps.push(stepOfParts(parts));
  }
  const deviations = values.map((value, c) => {
    const { largest, mean } = polylineDeviation(time, value, kept);
    const scale = scales[c] || 1;
    return { column: keys[c].replace('_', ' '), largest: largest / scale, mean: mean / scale };
  });
  const facts: LogFacts = { file, rows: time.length, pieces: steps.length, from: time[0], to: time[time.length - 1], deviations, taken };
  return { steps, facts, problems: [] };
}

function holdOf(held: LogHold, { from, to }: Ramp): { readonly hold: Held; readonly value: Ramp } {
  if (held !== 'shaft_speed') return { hold: HOLDS[held], value: { from, to } };
  if (from === 0 && to === 0) return { hold: 'throttle', value: { from, to } };
  return { hold: HOLDS[held], value: { from: from || BARELY_TURNING, to: to || BARELY_TURNING } };
}
