/** Predicted against measured, in one form for every table: how far off, which way, and how often inside the stated band. */
import { readFileSync, writeFileSync } from 'node:fs';

/** One figure of one measured row; `low` and `high` are the 5 and 95 % ends of what was predicted. */
export interface Compared {
  readonly predicted: number;
  readonly measured: number;
  readonly low?: number;
  readonly high?: number;
}

export interface ValidationRow {
  readonly table: string;
  readonly quantity: string;
  readonly rows: number;
  /** Of predicted − measured, in the unit said. */
  readonly rms: number;
  readonly bias: number;
  readonly unit: '%' | 'K' | 'V';
  /** Share of rows inside the band, where one is predicted. */
  readonly inside: number | undefined;
}

/**
 * Sums up `compared`. Differences are shares of the measured value, or of `scale` where one is given (a greatest power), or in kelvin or volt as they are.
 */
export function validationRow(
  table: string,
  quantity: string,
  compared: readonly Compared[],
  { unit = '%', scale }: { readonly unit?: ValidationRow['unit']; readonly scale?: number } = {},
): ValidationRow {
  if (compared.length === 0) throw new RangeError(`${table} has no row to judge ${quantity} by`);
  const off = compared.map(({ predicted, measured }) =>
    unit === '%' ? (100 * (predicted - measured)) / (scale ?? Math.abs(measured)) : predicted - measured,
  );
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const banded = compared.filter(({ low, high }) => low !== undefined && high !== undefined);
  return {
    table,
    quantity,
    rows: compared.length,
    rms: Math.sqrt(mean(off.map((value) => value * value))),
    bias: mean(off),
    unit,
    inside:
      banded.length === 0 ? undefined : mean(banded.map(({ measured, low, high }) => (measured >= low! && measured <= high! ? 1 : 0))),
  };
}

/** The rows as a table in Markdown. */
export function markdownTable(rows: readonly ValidationRow[]): string {
  const cells = rows.map(({ table, quantity, rows: count, rms, bias, unit, inside }) => [
    table,
    quantity,
    String(count),
    `${rms.toFixed(1)} ${unit}`,
    `${bias < 0 ? '−' : '+'}${Math.abs(bias).toFixed(1)} ${unit}`,
    inside === undefined ? '' : `${(100 * inside).toFixed(0)} %`,
  ]);
  const head = ['measured', 'quantity', 'rows', 'RMS', 'bias', 'inside 5–95 %'];
  const width = head.map((name, k) => Math.max(name.length, ...cells.map((row) => row[k]!.length)));
  const line = (row: readonly string[]): string => `| ${row.map((cell, k) => cell.padEnd(width[k]!)).join(' | ')} |`;
  return [line(head), line(width.map((size) => '-'.repeat(size))), ...cells.map(line)].join('\n');
}

const PAGE = new URL('../../packages/sim-core/docs/validation.md', import.meta.url);

/** Puts `text` (a sentence or two on the data, and the table) under the heading `title` of docs/validation.md, in place of what stands there. */
export function writeSection(title: string, text: string): void {
  const [head, ...sections] = readFileSync(PAGE, 'utf8').split(/^## /m);
  const others = sections.filter((section) => section.split('\n', 1)[0] !== title);
  const all = [...others, `${title}\n\n${text.trim()}\n`].map((section) => section.trim()).sort();
  writeFileSync(PAGE, `${head.trim()}\n\n${all.map((section) => `## ${section}\n`).join('\n')}`);
}
