/**
 * How a log file is written: lines above its head, what parts its cells, a row of units below the head. Whatever was taken for
 * something is said, so that nothing is guessed in silence.
 *
 * @module
 */

import Papa from 'papaparse/papaparse.min.js';
import type { Dimension } from '../../quantities/index.js';
import { readQuantity } from '../../quantities/index.js';
import { isClock } from './log-clock.js';

export type Newline = '\n' | '\r\n' | '\r';

export interface LogDialect {
  readonly newline: Newline;
  readonly delimiter: string;
  readonly heads: readonly string[];
  /** Units in a row of their own below the head, one a column, without brackets. */
  readonly units?: readonly string[];
  /** Cells of the first row of values; empty where there is none. */
  readonly first: readonly string[];
  /** Where the head begins in the text, and its line counted from 1. */
  readonly offset: number;
  readonly line: number;
  /** Rows between the head and the first values: 1 where units have a row of their own. */
  readonly rowsOfHead: number;
  /** Sentences on what was taken for what. */
  readonly taken: readonly string[];
}

const SEPARATORS = [',', ';', '\t'] as const;
export const COMMENT = '#';
/** A head stands among the first lines; a logger's preface is not longer. */
const LINES_ABOVE = 60;

/** Undefined for a text without a line; `timeName` says whether a head's cell is the time that is wanted. */
export function dialectOf(text: string, isTime: (head: string) => boolean): LogDialect | undefined {
  const newline: Newline = text.includes('\r\n') ? '\r\n' : text.includes('\n') ? '\n' : '\r';
  const cellsOf = (line: string, delimiter: string) => Papa.parse(line, { newline, delimiter, preview: 1 }).data[0] ?? [];
  const lines = firstLines(text, newline);
  if (lines.length === 0) return undefined;
  const heads = lines.map(({ content }) => {
    const delimiter = separatorOf(content);
    return { delimiter, cells: cellsOf(content, delimiter) };
  });
  const found = heads.findIndex(({ cells }) => cells.length > 1 && cells.some(isTime));
  // without it, the first of the lines with most cells: their heads can then be told
  const widest = Math.max(...heads.map(({ cells }) => cells.length));
  const at = found >= 0 ? found : heads.findIndex(({ cells }) => cells.length === widest);
  const head = heads[at];
  const taken: string[] = [];
  if (at > 0) taken.push(`the ${at === 1 ? 'line' : `${at} lines`} above the head in line ${lines[at].line} left out`);
  const below = lines.slice(at + 1).map(({ content }) => cellsOf(content, head.delimiter));
  const units = unitsIn(below[0]);
  if (units !== undefined) taken.push(`line ${lines[at + 1].line} taken for the units of the columns`);
  return {
    newline,
    delimiter: head.delimiter,
    heads: head.cells,
    ...(units === undefined ? {} : { units }),
    first: below[units === undefined ? 0 : 1] ?? [],
    offset: lines[at].offset,
    line: lines[at].line,
    rowsOfHead: units === undefined ? 0 : 1,
    taken,
  };
}

interface Line {
  readonly offset: number;
  readonly line: number;
  readonly content: string;
}

/** Lines that are neither blank nor comments, and where they begin. */
function firstLines(text: string, newline: string): readonly Line[] {
  const lines: Line[] = [];
  let offset = 0;
  for (let line = 1; offset < text.length && lines.length < LINES_ABOVE; line++) {
    const end = text.indexOf(newline, offset);
    const content = text.slice(offset, end < 0 ? text.length : end);
    if (content.trim() !== '' && !content.trim().startsWith(COMMENT)) lines.push({ offset, line, content });
    if (end < 0) break;
    offset = end + newline.length;
  }
  return lines;
}

/** What parts most cells of the head; its names hold no commas, as decimals below it may. */
function separatorOf(head: string): string {
  const counts = SEPARATORS.map((separator) => head.split(separator).length);
  return SEPARATORS[counts.indexOf(Math.max(...counts))];
}

const UNIT_DIMENSIONS: readonly Dimension[] = [
  'time',
  'fraction',
  'voltage',
  'current',
  'temperature',
  'angularSpeed',
  'power',
  'force',
  'speed',
  'length',
];
const bare = (cell: string): string => cell.trim().replace(/^[[(]\s*(.*?)\s*[\])]$/, '$1');

/** A row is one of units where no cell is a number or a clock and two at least, or the only one, are units. */
function unitsIn(cells: readonly string[] | undefined): readonly string[] | undefined {
  if (cells === undefined) return undefined;
  const written = cells.map(bare).filter((cell) => cell !== '');
  if (written.some((cell) => Number.isFinite(+cell.replace(',', '.')) || isClock(cell))) return undefined;
  const units = written.filter((cell) => UNIT_DIMENSIONS.some((dimension) => readQuantity(`1 ${cell}`, dimension).ok));
  return units.length >= Math.min(2, Math.max(1, written.length)) && units.length * 2 > written.length ? cells.map(bare) : undefined;
}
