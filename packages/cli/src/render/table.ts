/** Plain tables and paragraphs for a terminal of 80 columns. @module */

import type { Label, Row } from './labels.js';
import { lines, textWidth } from './text-width.js';

export const TERMINAL_WIDTH = 80;
const GAP = 2;
/** What the first column keeps at least before the others are dealt out over several tables. */
const LEAST_FIRST = 24;

export interface TableOptions {
  readonly width?: number;
  /** Colours a cell, as padded; row and column counted from 0. */
  readonly paint?: (cell: string, row: number, column: number) => string;
}

/**
 * A table: the first column to the left, the others to the right, two blanks between. Never wider than `width`: long cells of the first
 * column are broken into lines, and columns that do not fit are dealt out over several tables that repeat the first.
 */
export function table(
  heads: readonly Label[],
  body: readonly Row[],
  { width = TERMINAL_WIDTH, paint = (cell) => cell }: TableOptions = {},
): string {
  const rows: readonly (readonly string[])[] = [heads, ...body];
  const count = Math.max(0, ...rows.map((row) => row.length));
  const natural = Array.from({ length: count }, (_, k) => Math.max(0, ...rows.map((row) => textWidth(row[k] ?? ''))));
  const [first = 0, ...others] = natural;
  const sum = others.reduce((total, each) => total + each + GAP, 0);
  if (first + sum <= width) return drawn(rows, natural, paint, range(count));
  if (LEAST_FIRST + sum <= width) return drawn(rows, [width - sum, ...others], paint, range(count));
  const narrow = Math.min(first, LEAST_FIRST);
  const widths = [narrow, ...others.map((each) => Math.min(each, width - narrow - GAP))];
  return groups(widths, width)
    .map((columns) => drawn(rows, widths, paint, columns))
    .join('\n');
}

const range = (count: number): number[] => Array.from({ length: count }, (_, k) => k);

/** Columns in as few tables as they fit into, each with the first. */
function groups(widths: readonly number[], width: number): number[][] {
  const found: number[][] = [];
  let room = -1;
  for (let k = 1; k < widths.length; k++) {
    if (widths[k] + GAP > room) {
      found.push([0]);
      room = width - widths[0];
    }
    found[found.length - 1].push(k);
    room -= widths[k] + GAP;
  }
  return found;
}

function drawn(
  rows: readonly (readonly string[])[],
  widths: readonly number[],
  paint: NonNullable<TableOptions['paint']>,
  columns: readonly number[],
): string {
  const blank = (length: number): string => ' '.repeat(Math.max(0, length));
  const text = rows.flatMap((row, r) => {
    const cells = columns.map((k) => lines(row[k] ?? '', widths[k]));
    const height = Math.max(...cells.map((cell) => cell.length));
    return Array.from({ length: height }, (_, line) =>
      cells
        .map((cell, k) => {
          const content = cell[line] ?? '';
          const space = blank(widths[columns[k]] - textWidth(content));
          const painted = content === '' ? '' : paint(content, r, columns[k]);
          return columns[k] === 0 ? painted + space : space + painted;
        })
        .join(blank(GAP))
        .trimEnd(),
    );
  });
  return `${text.join('\n')}\n`;
}

/** Breaks a paragraph at blanks so that no line is longer than `width`; `indent` stands before each line but the first. */
export const wrap = (text: string, width = TERMINAL_WIDTH, indent = ''): string =>
  text
    .split('\n')
    .map((paragraph) => lines(paragraph, width - indent.length).join(`\n${indent}`))
    .join(`\n${indent}`);
