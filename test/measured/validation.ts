/** Predicted against measured, in one form for every table: how far off, which way, and how often inside the stated band. */
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
  readonly unit: '%' | 'K' | 's';
  /** Share of rows inside the band, where one is predicted. */
  readonly inside: number | undefined;
}

/**
 * Sums up `compared`. Differences are shares of the measured value, or of `scale` where one is given (a greatest power), or in kelvin or
 * seconds as they are. What is predicted never to come (infinite) has a place in the band and no difference.
 */
export function validationRow(
  table: string,
  quantity: string,
  compared: readonly Compared[],
  { unit = '%', scale }: { readonly unit?: ValidationRow['unit']; readonly scale?: number } = {},
): ValidationRow {
  if (compared.length === 0) throw new RangeError(`${table} has no row to judge ${quantity} by`);
  const off = compared
    .filter(({ predicted }) => predicted !== Number.POSITIVE_INFINITY)
    .map(({ predicted, measured }) =>
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

/** What a kind of table told: the data in a sentence or two, rows of sums, and the interval that "inside" means. */
export interface Section {
  readonly data: string;
  readonly rows: readonly ValidationRow[];
  readonly interval?: string;
}

/** The section in Markdown. */
export function sectionText({ data, rows, interval = '5–95 %' }: Section): string {
  const cells = rows.map(({ table, quantity, rows: count, rms, bias, unit, inside }) => [
    table,
    quantity,
    String(count),
    `${rms.toFixed(1)} ${unit}`,
    `${bias < 0 ? '−' : '+'}${Math.abs(bias).toFixed(1)} ${unit}`,
    inside === undefined ? '' : `${(100 * inside).toFixed(0)} %`,
  ]);
  const head = ['measured', 'quantity', 'rows', 'RMS', 'bias', `inside ${interval}`];
  const width = head.map((name, k) => Math.max(name.length, ...cells.map((row) => row[k]!.length)));
  const line = (row: readonly string[]): string => `| ${row.map((cell, k) => cell.padEnd(width[k]!)).join(' | ')} |`;
  return [data, '', line(head), line(width.map((size) => '-'.repeat(size))), ...cells.map(line)].join('\n');
}

const HEADING = '## ';

/** Headings of the sections of `page`, in their order. */
export const headingsOf = (page: string): string[] => [...page.matchAll(/^## (.*)$/gm)].map(([, heading]) => heading!);

/** `page` with `text` under the heading `title`, and its sections in the order of `titles`; what has no title there goes. */
export function withSection(page: string, titles: readonly string[], title: string, text: string): string {
  const [head, ...sections] = page.split(/^## /m);
  const found = new Map(sections.map((section) => [section.split('\n', 1)[0]!, `${HEADING}${section.trim()}\n`]));
  found.set(title, `${HEADING}${title}\n\n${text.trim()}\n`);
  return [`${head!.trim()}\n`, ...titles.flatMap((each) => found.get(each) ?? [])].join('\n');
}
