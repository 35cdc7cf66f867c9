/**
 * A log file's columns as numbers: text with one row a moment, a head with names and units such as `time [s]`, cells parted by commas,
 * semicolons or tabs. What is wrong with it comes back as problems with line and column, one a kind and column, with how often it occurs.
 *
 * @module
 */

import Papa from 'papaparse/papaparse.min.js';
import { certain } from '../../problems/certain.js';
import type { ScenarioProblem } from '../../problems/index.js';
import type { Place } from '../../provenance/datum.js';
import { formatQuantity, noSuchValue } from '../../quantities/index.js';
import { within } from '../schema/bounds.js';
import { problem, quoted } from '../wording.js';
import { withoutByteOrderMark } from '../yaml/text-checks.js';
import { clockSeconds, type InOrder, inOrder, passMidnight } from './log-clock.js';
import { columnAt, findColumns, type LogColumn, names, type WantedColumn } from './log-columns.js';
import { COMMENT, dialectOf, type LogDialect } from './log-dialect.js';
import { logFaults } from './log-faults.js';

export interface LogTable {
  /** SI; times rise and are never NaN, another cell is where the log leaves it empty. */
  readonly columns: ReadonlyMap<string, LogValues>;
  /** Line of each row in the file, counted from 1. */
  readonly lines: Int32Array;
  /** False for a table of points without a time: its rows are numbered, in the order of the file. */
  readonly timed: boolean;
  /** Words of the column that was asked for by name, one a row, where the file has it. */
  readonly labels?: readonly string[];
  /** Sentences on what was taken for what. */
  readonly taken: readonly string[];
}

export interface LogValues {
  readonly values: Float64Array;
  readonly column: LogColumn;
}

export type ReadLog =
  | { readonly ok: true; readonly table: LogTable }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

/** Characters parsed at a time, up to the end of a row. */
const BLOCK = 1 << 16;
/** A log that lasts for less tells of no run: its times have another unit than its head says [s]. */
const SHORTEST = 1;
/** Words that loggers write where they have no value. */
const NO_VALUE = /^(|nan|n\/a|na|null|none|-+)$/i;
const DECIMAL_COMMA = /^[+-]?\d*,\d+$/;

/**
 * Reads the wanted columns; `key: 'time'` must be among them, and in the file unless it is not required. `part` chooses where the clock began
 * again, counted from 1; `label` is the head of a column of words.
 */
export function readLogTable(file: string, written: string, wanted: readonly WantedColumn[], part?: number, label?: string): ReadLog {
  const text = withoutByteOrderMark(written);
  const at = (line: number, column = 1, path = '') => ({ file, line, column, path });
  const failed = (...problems: readonly ScenarioProblem[]): ReadLog => ({ ok: false, problems });

  const wantedTime = certain(
    wanted.find(({ key }) => key === 'time'),
    'column for the time',
  );
  const known = wantedTime.required ? [wantedTime] : wanted;
  const dialect = dialectOf(text, (head) => known.some((want) => names(head, want)));
  if (dialect === undefined) return failed(problem('nothing-to-do', at(1), 'a head and rows below it', 'an empty file'));
  const { delimiter, heads } = dialect;
  const found = findColumns(file, dialect, wanted);
  if (found.problems.length > 0) return failed(...found.problems);

  const { columns } = found;
  const faults = logFaults(file, heads, delimiter);
  const values = columns.map(() => growingArray());
  const labelAt = label === undefined ? -1 : heads.findIndex((head) => head.trim().toLowerCase() === label.trim().toLowerCase());
  const labels: string[] = [];
  const lines: number[] = [];
  let line = dialect.line;
  let headRows = 1 + dialect.rowsOfHead;
  let points = 0;
  let commas = 0;
  const spoilt = columns.map(() => 0);
  const fault = (c: number, ...[here, cells, column, what]: Parameters<typeof faults.cell>): void => {
    if (column.optional) spoilt[c]++;
    else faults.cell(here, cells, column, what);
  };
  for (const cells of rowsOf(text, dialect.offset, dialect)) {
    const here = line++;
    if (cells.length === 1 && cells[0].trim() === '') continue;
    if (cells[0].startsWith(COMMENT)) continue;
    if (headRows > 0) {
      headRows--;
      continue;
    }
    if (cells.length !== heads.length && !(cells.length === heads.length + 1 && cells.at(-1) === '')) {
      faults.ragged(here, cells);
      continue;
    }
    lines.push(here);
    if (labelAt >= 0) labels.push(cells[labelAt].trim());
    for (let c = 0; c < columns.length; c++) {
      const column = columns[c];
      const cell = cells[column.index];
      let value = +cell;
      if (column.form === 'clock') value = clockSeconds(cell);
      else if (Number.isFinite(value)) {
        if (value === 0 && cell.trim() === '') value = Number.NaN;
        else if ((cell.charCodeAt(1) | 32) === 120) value = Number.NaN;
        else if (cell.includes('.')) points++;
      } else if (delimiter !== ',' && DECIMAL_COMMA.test(cell.trim())) {
        commas++;
        value = +cell.replace(',', '.');
        if (points > 0) fault(c, here, cells, column, 'two-marks');
      }
      if (!Number.isFinite(value)) {
        value = Number.NaN;
        if (!NO_VALUE.test(cell.trim())) fault(c, here, cells, column, 'not-a-number');
        else if (column.key === 'time') fault(c, here, cells, column, 'no-time');
      } else {
        value = value * column.scale + column.zero;
        const limits = column.tolerated ?? column.bounds;
        const impossible = noSuchValue(value, column.dimension) !== undefined;
        if (impossible || (column.form === 'own' && !within(value, limits))) {
          fault(c, here, cells, column, impossible ? 'no-such-value' : 'out-of-bounds');
          if (column.optional) value = Number.NaN;
        }
      }
      values[c].push(value);
    }
  }
  if (lines.length < 2 && faults.none()) {
    return failed(
      problem('nothing-to-do', at(dialect.line), 'two rows at least below the head', lines.length === 1 ? 'one row' : 'no row'),
    );
  }
  if (!faults.none()) return failed(...faults.problems());

  const taken = [...dialect.taken, ...found.leftOut];
  columns.forEach(({ title }, c) => {
    if (spoilt[c] > 0) taken.push(`${cellsInWords(spoilt[c])} of ${quoted(title)} left out, no numbers or none that can be`);
  });
  if (commas > 0) taken.push('a comma taken for the mark before decimals');
  const timeAt = columns.findIndex(({ key }) => key === 'time');
  if (timeAt < 0) {
    const time = Float64Array.from(lines, (_, k) => k);
    const found = columns.map((column, c) => [column.key, { column, values: values[c].toArray() }] as const);
    const numbered = { ...wantedTime, index: -1, title: '', form: 'own', unit: '', scale: 1, zero: 0 } as const;
    return {
      ok: true,
      table: {
        columns: new Map([...found, ['time', { column: numbered, values: time }]]),
        lines: Int32Array.from(lines),
        timed: false,
        ...(labelAt < 0 ? {} : { labels }),
        taken: [...taken, 'no time in the file: its rows taken for steady points'],
      },
    };
  }
  const clock = values[timeAt].toArray();
  if (columns[timeAt].form === 'clock') {
    taken.push(`${quoted(columns[timeAt].title)} taken for clock times, hours first`);
    passMidnight(clock);
  }
  const order = inOrder(clock);
  const chosen = chosenPart(order, part, (row) => at(lines[order.rows[row]], 1, columns[timeAt].title), at(dialect.line));
  if (!chosen.ok) return failed(chosen.problem);
  const lasts = order.time[chosen.to - 1] - order.time[chosen.from];
  if (lasts < SHORTEST && columns[timeAt].form === 'own')
    return failed(
      problem(
        'out-of-range',
        at(dialect.line, columnAt(heads, delimiter, columns[timeAt].index), columns[timeAt].title),
        'a clock that runs for a second or more',
        `${rowsInWords(chosen.to - chosen.from)} in ${formatQuantity(lasts, 'time', { unit: 'ms', significant: 3, space: ' ' })}`,
        { hint: 'is that the unit of its numbers? write the right one in the head, such as time [s]' },
      ),
    );
  if (order.strays > 0) taken.push(`${rowsInWords(order.strays)} out of order left out`);
  if (order.shared > 0) taken.push(`${rowsInWords(order.shared)} with the time of the row before spread evenly up to the next time`);
  if (order.restarts.length > 0) taken.push(`part ${part} of ${order.restarts.length + 1}, parted where the clock began again`);
  const rows = order.rows.subarray(chosen.from, chosen.to);
  const keep = (array: Float64Array): Float64Array => (rows.length === array.length ? array : Float64Array.from(rows, (row) => array[row]));
  return {
    ok: true,
    table: {
      columns: new Map(
        columns.map((column, c) => [
          column.key,
          { column, values: c === timeAt ? order.time.subarray(chosen.from, chosen.to) : keep(values[c].toArray()) },
        ]),
      ),
      lines: Int32Array.from(rows, (row) => lines[row]),
      timed: true,
      ...(labelAt < 0 ? {} : { labels: Array.from(rows, (row) => labels[row]) }),
      taken,
    },
  };
}

const cellsInWords = (count: number): string => (count === 1 ? 'one cell' : `${count} cells`);
const rowsInWords = (count: number): string => (count === 1 ? 'one row' : `${count} rows`);

type Chosen = { readonly ok: true; readonly from: number; readonly to: number } | { readonly ok: false; readonly problem: ScenarioProblem };

/** Rows of the part that is asked for; a file whose clock began again holds several runs, of which one must be chosen. */
function chosenPart({ time, restarts }: InOrder, part: number | undefined, place: (row: number) => Place, head: Place): Chosen {
  const begins = [0, ...restarts, time.length];
  const count = begins.length - 1;
  const refused = (made: ScenarioProblem): Chosen => ({ ok: false, problem: made });
  if (part === undefined && count > 1) {
    const parts = begins
      .slice(0, -1)
      .map((from, k) => `part: ${k + 1} (${rowsInWords(begins[k + 1] - from)}, ${(time[begins[k + 1] - 1] - time[from]).toFixed(0)} s)`);
    const shown = [...parts.slice(0, 3), ...(parts.length > 3 ? [`… part: ${count}`] : [])].join(', ');
    return refused(
      problem('out-of-range', place(restarts[0]), 'times that rise from row to row', 'a clock that began again', {
        hint: `the file holds ${count} runs: write one of ${shown} in the profile`,
      }),
    );
  }
  if (part !== undefined && part > count) {
    return refused(problem('out-of-range', head, `a part of the file, at most ${count}`, `part: ${part}`));
  }
  const [from, to] = [begins[(part ?? 1) - 1], begins[part ?? 1]];
  if (to - from < 2 || !(time[to - 1] > time[from])) {
    return refused(problem('out-of-range', place(from), 'times that rise from row to row', 'a clock that stands still'));
  }
  return { ok: true, from, to };
}

/** Rows block by block, so that a long log never stands in memory as cells. */
function* rowsOf(text: string, from: number, dialect: Pick<LogDialect, 'delimiter' | 'newline'>) {
  while (from < text.length) {
    const to = endOfRow(text, from, dialect.newline);
    yield* Papa.parse(text.slice(from, to), dialect).data;
    from = to + dialect.newline.length;
  }
}

/** Where a row ends, a block or more behind `from`; a line break between quotation marks ends none. */
function endOfRow(text: string, from: number, newline: string): number {
  let quoted = false;
  let mark = text.indexOf('"', from);
  for (let end = text.indexOf(newline, from + BLOCK); end >= 0; end = text.indexOf(newline, end + 1)) {
    for (; mark >= 0 && mark < end; mark = text.indexOf('"', mark + 1)) quoted = !quoted;
    if (!quoted) return end;
  }
  return text.length;
}

/** Numbers that come one by one, without boxes. */
function growingArray() {
  let array = new Float64Array(1024);
  let length = 0;
  return {
    push(value: number): void {
      if (length === array.length) {
        const longer = new Float64Array(2 * length);
        longer.set(array);
        array = longer;
      }
      array[length++] = value;
    },
    toArray: (): Float64Array => array.slice(0, length),
  };
}
