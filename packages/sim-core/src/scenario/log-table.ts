/**
 * A log file's columns as numbers: text with one row a moment, a head with names and units such as `time [s]`, cells parted by commas,
 * semicolons or tabs. What is wrong with it comes back as problems with line and column, one a kind and column, with how often it occurs.
 */
import Papa from 'papaparse/papaparse.min.js';
import type { ScenarioProblem } from '../problems/index.js';
import { findColumns, type WantedColumn } from './log-columns.js';
import { logFaults } from './log-faults.js';
import { within } from './schema/bounds.js';
import { withoutByteOrderMark } from './text-checks.js';
import { problem } from './wording.js';

export interface LogTable {
  /** SI; a time is never NaN, another cell is where the log leaves it empty. */
  readonly columns: ReadonlyMap<string, Float64Array>;
  /** Line of each row in the file, counted from 1. */
  readonly lines: Int32Array;
}

export type ReadLog =
  | { readonly ok: true; readonly table: LogTable }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

const SEPARATORS = [',', ';', '\t'] as const;
/** Characters parsed at a time, so that a long log never stands in memory as cells. */
const BLOCK = 1 << 16;
/** Words that loggers write where they have no value. */
const NO_VALUE = /^(|nan|n\/a|na|null|none|-+)$/i;
const COMMENT = '#';

/** Reads the wanted columns; `key: 'time'` must be among them. */
export function readLogTable(file: string, written: string, wanted: readonly WantedColumn[]): ReadLog {
  const text = withoutByteOrderMark(written);
  const newline = text.includes('\r\n') ? '\r\n' : text.includes('\n') ? '\n' : '\r';
  const at = (line: number, column = 1, path = '') => ({ file, line, column, path });
  const failed = (...problems: readonly ScenarioProblem[]): ReadLog => ({ ok: false, problems });

  const begin = startOfHead(text, newline);
  if (begin === undefined) return failed(problem('nothing-to-do', at(1), 'a head and rows below it', 'an empty file'));
  const delimiter = separatorOf(text.slice(begin.offset, begin.end));
  const heads = Papa.parse(text.slice(begin.offset, begin.end), { newline, delimiter, preview: 1 }).data[0]!;
  const found = findColumns(file, begin.line, heads, delimiter, wanted);
  if (found.problems.length > 0) return failed(...found.problems);

  const { columns } = found;
  const faults = logFaults(file, heads, delimiter);
  const values = columns.map(() => growingArray());
  const lines: number[] = [];
  let line = begin.line;
  let head = true;
  for (const cells of rowsOf(text, begin.offset, { delimiter, newline })) {
    const here = line++;
    if (head) {
      head = false;
      continue;
    }
    if (cells.length === 1 && cells[0]!.trim() === '') continue;
    if (cells[0]!.startsWith(COMMENT)) continue;
    if (cells.length !== heads.length && !(cells.length === heads.length + 1 && cells.at(-1) === '')) {
      faults.ragged(here, cells);
      continue;
    }
    lines.push(here);
    for (let c = 0; c < columns.length; c++) {
      const column = columns[c]!;
      const cell = cells[column.index]!;
      let value = +cell;
      if (value === 0 && cell.trim() === '') value = Number.NaN;
      if (!Number.isFinite(value) || (cell.charCodeAt(1) | 32) === 120) {
        value = Number.NaN;
        if (!NO_VALUE.test(cell.trim())) faults.cell(here, cells, column, 'not-a-number');
        else if (column.key === 'time') faults.cell(here, cells, column, 'no-time');
      } else {
        value *= column.scale;
        if (!within(value, column.bounds)) faults.cell(here, cells, column, 'out-of-bounds');
      }
      values[c]!.push(value);
    }
  }
  const table: LogTable = {
    columns: new Map(columns.map((column, c) => [column.key, values[c]!.toArray()])),
    lines: Int32Array.from(lines),
  };
  if (lines.length < 2 && faults.none()) {
    return failed(problem('nothing-to-do', at(begin.line), 'two rows at least below the head', lines.length === 1 ? 'one row' : 'no row'));
  }
  faults.times(table.columns.get('time')!, table.lines, columns.find(({ key }) => key === 'time')!);
  return faults.none() ? { ok: true, table } : failed(...faults.problems());
}

/** The first line that is neither blank nor a comment. */
function startOfHead(text: string, newline: string): { readonly offset: number; readonly end: number; readonly line: number } | undefined {
  let offset = 0;
  for (let line = 1; offset < text.length; line++) {
    const end = text.indexOf(newline, offset);
    const lineEnd = end < 0 ? text.length : end;
    const content = text.slice(offset, lineEnd).trim();
    if (content !== '' && !content.startsWith(COMMENT)) return { offset, end: lineEnd, line };
    if (end < 0) return undefined;
    offset = end + newline.length;
  }
  return undefined;
}

/** What parts most cells of the head; its names hold no commas, as decimals below it may. */
function separatorOf(head: string): string {
  const counts = SEPARATORS.map((separator) => head.split(separator).length);
  return SEPARATORS[counts.indexOf(Math.max(...counts))]!;
}

/** Rows block by block; quoted cells may hold a line break, so a text with quotation marks is parsed whole. */
function* rowsOf(text: string, from: number, dialect: { readonly delimiter: string; readonly newline: '\n' | '\r\n' | '\r' }) {
  const whole = text.includes('"', from);
  while (from < text.length) {
    let to = whole ? text.length : Math.min(text.length, from + BLOCK);
    if (to < text.length) {
      const cut = text.lastIndexOf(dialect.newline, to);
      const next = text.indexOf(dialect.newline, to);
      to = cut > from ? cut : next < 0 ? text.length : next;
    }
    yield* Papa.parse(text.slice(from, to), dialect).data;
    from = to + dialect.newline.length;
  }
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
