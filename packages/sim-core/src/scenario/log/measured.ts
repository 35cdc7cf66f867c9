/** What a log has measured, for comparison with a run: every column that it has of what can be measured, zeros that mean no sensor left out. @module */
import type { ScenarioProblem } from '../../problems/index.js';
import type { Place } from '../../provenance/datum.js';
import { type LogBeginning, MEASURABLE_IDS, type MeasurableId, type MeasuredLog, measurableOf } from '../../provenance/measurables.js';
import type { LogFile, MeasuredEntry } from '../schema/log.js';
import { alternatives, problem, quoted } from '../wording.js';
import { childOf, type LocatedNode } from '../yaml/located-tree.js';
import { scaledByCharge } from './charge-put-back.js';
import type { WantedColumn } from './log-columns.js';
import { type LogTable, readLogTable } from './log-table.js';
import { dutiesOf } from './log-throttle.js';

/** A throttle may be a pulse, or a number without a unit; a brake is below zero, and a little above full is jitter. */
export const THROTTLE_AS_LOGGED = {
  instead: 'time',
  bare: true,
  tolerated: { from: -1.05, to: 1.05 },
} as const satisfies Partial<WantedColumn>;

export const headOf = (id: string): string => id.replaceAll('_', ' ');

/** The columns of what can be measured, as they are looked for in a file; those that were named must be there. */
export const wantedOf = ({ columns }: Pick<LogFile, 'columns'>): readonly WantedColumn[] =>
  MEASURABLE_IDS.map((key) => ({
    key,
    head: columns?.[key] ?? headOf(key),
    dimension: measurableOf(key).dimension,
    bounds: {},
    required: columns?.[key] !== undefined,
    optional: columns?.[key] === undefined,
    ...(key === 'throttle' ? THROTTLE_AS_LOGGED : {}),
  }));

export const wantedTime = ({ columns }: Pick<LogFile, 'columns'>): WantedColumn => ({
  key: 'time',
  head: columns?.time ?? 'time',
  dimension: 'time',
  bounds: {},
  required: true,
});

export interface ReadColumns {
  /** SI, the time among them. */
  readonly columns: Map<string, Float64Array>;
  readonly taken: readonly string[];
  readonly problems: readonly ScenarioProblem[];
}

/** The columns of a table with what the scenario says of them: charge put back, pairs of poles, pulses. Without the `throttle` none needs be understood. */
export function columnsOf(
  table: LogTable,
  entry: LogFile,
  at: { readonly file: string; readonly charge: Place; readonly wheels: boolean; readonly throttle: boolean },
): ReadColumns {
  const scaled = scaledByCharge(table.columns, entry.charge_put_back?.value, at.charge);
  const columns = new Map(scaled.columns);
  const taken = [...scaled.taken];
  const problems = [...scaled.problems];
  const speed = columns.get('shaft_speed');
  const { pole_pairs: pairs } = entry;
  if (speed !== undefined && pairs !== undefined) {
    columns.set(
      'shaft_speed',
      Float64Array.from(speed, (each) => each / pairs),
    );
    taken.push(`the shaft speed of the file taken for the electrical one, ${pairs} times the shaft’s`);
  }
  const throttle = table.columns.get('throttle');
  if (throttle !== undefined) {
    const duties = dutiesOf(throttle, entry.pulse, at.file, at.wheels);
    if (duties.problems.length === 0) columns.set('throttle', duties.duty);
    else columns.delete('throttle');
    taken.push(...duties.taken);
    if (at.throttle) problems.push(...duties.problems);
    else if (duties.problems.length > 0)
      taken.push(`${quoted(throttle.column.title)} left out: it is neither a share, a percentage nor a pulse`);
  }
  return { columns, taken, problems };
}

/** Rows that a comparison keeps at most. */
const MOST_ROWS = 6000;
/** A thermometer that shows 0 beside readings farther from it than this has no value there [K]. */
const JUMP = 5;

/** Rows `from` … `to` (exclusive) of the columns, thinned, without what no sensor gave. */
export function measuredRows(
  read: ReadonlyMap<string, Float64Array>,
  table: LogTable,
  { from, to }: { readonly from: number; readonly to: number },
): Pick<MeasuredLog, 'rows' | 'time' | 'columns' | 'taken'> {
  const taken: string[] = [];
  const stride = Math.max(1, Math.ceil((to - from) / MOST_ROWS));
  const picked = (values: Float64Array): Float64Array =>
    Float64Array.from({ length: Math.ceil((to - from) / stride) }, (_, k) => values[from + k * stride]);
  if (stride > 1) taken.push(`every ${ordinal(stride)} of ${to - from} rows compared`);
  const columns = new Map<MeasurableId, Float64Array>();
  for (const id of MEASURABLE_IDS) {
    const all = read.get(id);
    const column = table.columns.get(id)?.column;
    if (all === undefined || column === undefined) continue;
    const values = picked(all);
    const zero = column.zero;
    const others = values.filter((value) => !Number.isNaN(value) && value !== zero);
    const title = quoted(column.title);
    if (others.length === 0) {
      taken.push(`${title} left out: ${values.every(Number.isNaN) ? 'it is empty' : 'it is 0 throughout, as without a sensor'}`);
      continue;
    }
    const missing =
      measurableOf(id).neverZero === true &&
      (measurableOf(id).dimension !== 'temperature' || others.every((each) => Math.abs(each - zero) > JUMP));
    let zeros = 0;
    if (missing) for (let k = 0; k < values.length; k++) if (values[k] === zero) [values[k], zeros] = [Number.NaN, zeros + 1];
    if (zeros > 0) taken.push(`0 in ${zeros} of ${values.length} rows of ${title} taken for no value`);
    columns.set(id, values);
  }
  return { rows: to - from, time: picked(read.get('time') ?? new Float64Array()), columns, taken };
}

const ordinal = (n: number): string => (n === 2 ? 'second' : n === 3 ? 'third' : `${n}th`);

/** Rows whose time lies within what was asked for. */
export function rowsWithin(time: Float64Array, { from, to }: Pick<LogFile, 'from' | 'to'>): { readonly from: number; readonly to: number } {
  let first = 0;
  let end = time.length;
  if (from !== undefined) while (first < end && time[first] < from.value) first++;
  if (to !== undefined) while (end > first && time[end - 1] > to.value) end--;
  return { from: first, to: end };
}

export type ReadMeasured =
  | { readonly ok: true; readonly log: MeasuredLog }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

/** The log that a run is compared with; `node` is where the scenario speaks of it. */
export function readMeasured(entry: MeasuredEntry, node: LocatedNode, file: string, text: string, wheels: boolean): ReadMeasured {
  const refused = (...problems: readonly ScenarioProblem[]): ReadMeasured => ({ ok: false, problems });
  const place = (key: string): Place =>
    childOf(node, key)?.place ?? { ...node.place, path: node.place.path === '' ? key : `${node.place.path}.${key}` };
  const read = readLogTable(file, text, [wantedTime(entry), ...wantedOf(entry)], entry.part);
  if (!read.ok) return refused(...read.problems);
  const { columns, taken, problems } = columnsOf(read.table, entry, {
    file,
    charge: place('charge_put_back'),
    wheels,
    throttle: entry.columns?.throttle !== undefined,
  });
  if (problems.length > 0) return refused(...problems);
  const window = rowsWithin(columns.get('time') ?? new Float64Array(), entry);
  if (window.to - window.from < 2)
    return refused(
      problem('nothing-to-do', place(entry.from ? 'from' : 'to'), 'two rows at least between from and to', `${window.to - window.from}`),
    );
  const rows = measuredRows(columns, read.table, window);
  if (rows.columns.size === 0) {
    const hint = 'name it in the file, or say which column it is: columns: { battery_current: "I [A]" }';
    const none = [...read.table.taken, ...taken, ...rows.taken].join('; ');
    return refused(
      problem(
        'missing-datum',
        { file, line: 1, column: 1, path: '' },
        `a column that can be compared, such as ${alternatives(['voltage [V]', 'battery current [A]', 'shaft speed [rpm]', 'can temperature [°C]'])}`,
        none === '' ? 'none' : `none (${none})`,
        { hint },
      ),
    );
  }
  if (entry.align !== undefined && !rows.columns.has(entry.align))
    return refused(problem('missing-datum', place('align'), `a column ${headOf(entry.align)} to align the clocks by`, 'none'));
  if (entry.align !== undefined && entry.begins !== undefined)
    return refused(
      problem('conflict', place('align'), 'begins or align', 'both', { hint: 'align finds when the run begins, begins says it' }),
    );
  const begins: LogBeginning =
    entry.align !== undefined
      ? { by: 'column', column: entry.align }
      : entry.begins !== undefined
        ? { by: 'given', at: entry.begins.value }
        : { by: 'first-row', at: rows.time[0] };
  return {
    ok: true,
    log: {
      file,
      ...rows,
      begins,
      ...(entry.candidate === undefined ? {} : { candidate: entry.candidate }),
      taken: [...read.table.taken, ...taken, ...rows.taken],
    },
  };
}
