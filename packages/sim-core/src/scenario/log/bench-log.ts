/**
 * A bench log as columns of numbers: a run over time, or a table of steady points whose rows are in any order, one propeller a file or
 * a column that names it.
 * @module
 */

import type { ScenarioProblem } from '../../problems/index.js';
import { listed } from '../../problems/listed.js';
import type { Dimension } from '../../quantities/index.js';
import type { LogFile } from '../schema/log.js';
import { problem } from '../wording.js';
import type { WantedColumn } from './log-columns.js';
import { type LogTable, readLogTable } from './log-table.js';
import { columnsOf, headOf, rowsWithin, wantedOf, wantedTime } from './measured.js';

/** What a bench reads beside what a log of a run may have. */
const ON_BENCH = {
  torque: 'torque',
  air_temperature: 'temperature',
} as const satisfies Record<string, Dimension>;
export type BenchColumn = keyof typeof ON_BENCH;

export interface BenchLog {
  readonly file: string;
  /** Whether the rows have a time; else they are steady points and `time` numbers them. */
  readonly timed: boolean;
  /** SI by the keys of provenance/measurables.ts and of what a bench reads beside; the time among them. */
  readonly columns: ReadonlyMap<string, Float64Array>;
  /** Whether the duty follows from the throttle's column, and not from a pulse of which nobody said what it stands for. */
  readonly dutyKnown: boolean;
  /** Names of propellers, one a row, where the file has such a column. */
  readonly labels: readonly string[] | undefined;
  readonly taken: readonly string[];
}

export type ReadBench =
  | { readonly ok: true; readonly log: BenchLog }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

/** How the file is to be read: as a log of a run, and heads of what a bench has beside. */
export type BenchEntry = Omit<LogFile, 'columns'> & { readonly columns?: Readonly<Record<string, string>> };

/** Keys that a head may be said for. */
export const benchKeys = (): readonly string[] => ['time', ...wantedOf({}).map(({ key }) => key), ...Object.keys(ON_BENCH), LABEL];
const LABEL = 'propeller';

export function readBench(entry: BenchEntry, file: string, text: string): ReadBench {
  const { columns: heads = {} } = entry;
  const logFile = entry as LogFile;
  const extra = (Object.entries(ON_BENCH) as [BenchColumn, Dimension][]).map(
    ([key, dimension]): WantedColumn => ({
      key,
      head: heads[key] ?? headOf(key),
      dimension,
      bounds: {},
      required: heads[key] !== undefined,
      optional: heads[key] === undefined,
    }),
  );
  const wanted: WantedColumn[] = [{ ...wantedTime(logFile), required: false }, ...wantedOf(logFile), ...extra];
  const read = readLogTable(file, text, wanted, entry.part, heads[LABEL] ?? LABEL);
  if (!read.ok) return read;
  const { table } = read;
  const place = { file, line: 1, column: 1, path: '' };
  const told = columnsOf(table, logFile, { file, charge: place, wheels: false, throttle: heads['throttle'] !== undefined });
  if (told.problems.length > 0) return { ok: false, problems: told.problems };
  const columns = new Map(told.columns);
  for (const key of Object.keys(ON_BENCH)) {
    const found = table.columns.get(key);
    if (found !== undefined) columns.set(key, found.values);
  }
  const time = columns.get('time') ?? new Float64Array();
  const { from, to } = rowsWithin(time, logFile);
  const cut = new Map([...columns].map(([key, values]) => [key, values.subarray(from, to)]));
  const pulse = pulseWithoutTable(table, entry);
  const log: BenchLog = {
    file,
    timed: table.timed,
    columns: cut,
    dutyKnown: !pulse,
    labels: table.labels?.slice(from, to),
    taken: [...table.taken, ...(pulse ? [PULSE] : told.taken)],
  };
  const lacking = lackingProblem(log, place);
  return lacking === undefined ? { ok: true, log } : { ok: false, problems: [lacking] };
}

const PULSE = 'a pulse is no duty: only that of 2000 µs or above is taken for full throttle, and 1000 µs or below for off';

function pulseWithoutTable(table: LogTable, { pulse }: BenchEntry): boolean {
  const throttle = table.columns.get('throttle');
  if (throttle === undefined || pulse !== undefined) return false;
  // a number without a unit is a pulse where it is far above a percentage
  return throttle.column.form === 'instead' || (throttle.column.form === 'bare' && throttle.values.some((value) => value > PERCENT));
}
const PERCENT = 200;

const NEEDED = ['voltage', 'battery_current'] as const;

function lackingProblem(
  { file, columns }: BenchLog,
  place: { readonly file: string; readonly line: number; readonly column: number; readonly path: string },
): ScenarioProblem | undefined {
  const missing = NEEDED.filter((key) => !columns.has(key));
  if (missing.length === 0) return undefined;
  const heads = missing.map((key) => `${headOf(key)} [${key === 'voltage' ? 'V' : 'A'}]`);
  const options = missing.map((key) => `--column '${key}=Head [unit]'`).join(' ');
  const hint =
    missing.length === 1
      ? `rename it in ${file}, or say which column it is: ${options}`
      : `rename them in ${file}, or say which columns they are: ${options}`;
  return problem(
    'missing-datum',
    place,
    missing.length === 1 ? `a column ${heads[0]}` : `the columns ${listed(heads)}`,
    'none that is named so',
    { hint },
  );
}
