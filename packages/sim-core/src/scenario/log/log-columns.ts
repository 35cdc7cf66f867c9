/** The head of a log file: which column is which, and in what unit. @module */

import type { ScenarioProblem } from '../../problems/index.js';
import { type Dimension, type ReadFailure, readQuantity } from '../../quantities/index.js';
import { nearestWord } from '../nearest-key.js';
import { type Bounds, expectedWithin } from '../schema/bounds.js';
import { alternatives, problem, quoted } from '../wording.js';
import { isClock } from './log-clock.js';
import type { LogDialect } from './log-dialect.js';

/** A column that is wanted: the name of its head, and what its numbers must be. */
export interface WantedColumn {
  readonly key: string;
  /** Name in the head, a unit in brackets where the head itself has none. */
  readonly head: string;
  readonly dimension: Dimension;
  readonly bounds: Bounds;
  /** What is read all the same, and brought within the bounds by whoever asked; else nothing beyond them. */
  readonly tolerated?: Bounds;
  readonly required: boolean;
  /** Another kind of quantity that may stand for it: the pulse of a receiver, a time, for a throttle. */
  readonly instead?: Dimension;
  /** Whether numbers without a unit are read too, as they are. */
  readonly bare?: boolean;
  /** Whether it is left out, which is then said, where something is wrong with it. */
  readonly optional?: boolean;
}

/** How a column's numbers are to be understood: in its own dimension, as what may stand for it, without a unit, or as a clock's time. */
export type ColumnForm = 'own' | 'instead' | 'bare' | 'clock';

const plainName = (head: string): string =>
  head
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** "vehicle speed [m/s]", "vehicle speed (m/s)" or "vehicle_speed_m_per_s" → name and unit. */
function nameAndUnit(
  head: string,
  { dimension, instead }: Pick<WantedColumn, 'dimension' | 'instead'>,
): { readonly name: string; readonly unit?: string } {
  const parts = /^(.*?)\s*[[(]\s*([^\])]*?)\s*[\])]\s*$/.exec(head.trim());
  if (parts !== null) return { name: plainName(parts[1]), unit: parts[2] };
  for (let at = head.indexOf('_'); at > 0; at = head.indexOf('_', at + 1)) {
    const unit = head
      .slice(at + 1)
      .trim()
      .replaceAll('_per_', '/');
    const reads = (kind: Dimension | undefined) => kind !== undefined && readQuantity(`1 ${unit}`, kind).ok;
    if (unit !== '' && (reads(dimension) || reads(instead))) return { name: plainName(head.slice(0, at)), unit };
  }
  return { name: plainName(head) };
}

/** A wanted column that was found. */
export interface LogColumn extends WantedColumn {
  readonly index: number;
  readonly title: string;
  readonly form: ColumnForm;
  /** Unit of its numbers, empty where there is none; a number n of it is zero + n·scale in SI. */
  readonly unit: string;
  readonly scale: number;
  readonly zero: number;
}

const PLAIN = { unit: '', scale: 1, zero: 0 } as const;

/** Whether a head names the wanted column. */
export function names(head: string, want: WantedColumn): boolean {
  const { name } = nameAndUnit(want.head, want);
  // a head may itself end in what looks like a unit: Thr(%) is asked for as it stands, or as "Thr(%) [%]"
  return nameAndUnit(head, want).name === name || plainName(head) === name;
}

/** The wanted columns among the heads; optional ones may be missing. */
export function findColumns(
  file: string,
  { line, heads, delimiter, units, first }: Pick<LogDialect, 'line' | 'heads' | 'delimiter' | 'units' | 'first'>,
  wanted: readonly WantedColumn[],
): { readonly columns: readonly LogColumn[]; readonly problems: readonly ScenarioProblem[]; readonly leftOut: readonly string[] } {
  const problems: ScenarioProblem[] = [];
  const columns: LogColumn[] = [];
  const leftOut: string[] = [];
  const refuse = (want: WantedColumn, made: ScenarioProblem): void => {
    if (!want.optional) problems.push(made);
    else leftOut.push(`${quoted(made.place.path)} left out: expected ${made.expected}, found ${made.found}`);
  };
  const place = (index: number) => ({ file, line, column: columnAt(heads, delimiter, index), path: heads[index]?.trim() ?? '' });
  for (const want of wanted) {
    const named = heads.map((head) => nameAndUnit(head, want));
    const asked = nameAndUnit(want.head, want);
    const matches = heads.flatMap((head, index) => (names(head, want) ? [index] : []));
    if (matches.length === 0) {
      if (!want.required) continue;
      const shown = heads.filter((head) => head.trim() !== '').map((head) => quoted(head.trim()));
      const nearest = nearestWord(
        asked.name,
        named.map(({ name }) => name),
      );
      const alone = heads.length === 1 ? 'cells are parted by commas, semicolons or tabs; ' : '';
      problems.push(
        problem('missing-datum', { file, line, column: 1, path: '' }, `a column ${quoted(want.head)}`, alternatives(shown), {
          nearest: nearest === undefined ? undefined : heads[named.findIndex(({ name }) => name === nearest)].trim(),
          hint: `${alone}rename it, or say in the profile which column it is: columns: { ${want.key}: … }`,
        }),
      );
      continue;
    }
    const index = matches[0];
    if (matches.length > 1) {
      refuse(want, problem('conflict', place(matches[1]), `one column ${quoted(want.head)}`, `${matches.length} of that name`));
      continue;
    }
    const title = heads[index].trim();
    if (want.dimension === 'time' && isClock(first[index] ?? '')) {
      columns.push({ ...want, index, title, form: 'clock', ...PLAIN });
      continue;
    }
    const own = named[index].unit ?? (units?.[index] || undefined);
    // what stands in the file counts, unless it is no unit that can be read
    const read = (text: string): boolean =>
      readUnit(text, want.dimension).ok || (want.instead !== undefined && readUnit(text, want.instead).ok);
    const unit = own === undefined || (asked.unit !== undefined && !read(own)) ? asked.unit : own;
    if (unit === undefined && want.bare) {
      columns.push({ ...want, index, title, form: 'bare', ...PLAIN });
      continue;
    }
    if (unit === undefined) {
      const example = want.key === 'time' ? 's' : want.dimension === 'fraction' ? '%' : '…';
      refuse(
        want,
        problem('bare-number', place(index), 'a unit in brackets after the name', quoted(heads[index]), {
          nearest: `${heads[index].trim()} [${example}]`,
          hint: `write it in the file, or in the profile: columns: { ${want.key}: "${heads[index].trim()} [${example}]" }`,
        }),
      );
      continue;
    }
    if (own !== undefined && asked.unit !== undefined && own !== asked.unit && read(own)) {
      refuse(want, problem('conflict', place(index), `the unit that the profile says, ${asked.unit}`, `${own} in the file`));
      continue;
    }
    const one = readUnit(unit, want.dimension);
    const other = want.instead === undefined || one.ok ? undefined : readUnit(unit, want.instead);
    if (other?.ok) {
      columns.push({ ...want, index, title, form: 'instead', unit, scale: other.scale, zero: 0 });
      continue;
    }
    if (!one.ok) {
      const kind = one.kind === 'wrong-dimension' ? 'wrong-dimension' : 'wrong-unit';
      refuse(want, problem(kind, place(index), one.expected, quoted(heads[index].trim()), { nearest: one.nearest, hint: one.hint }));
      continue;
    }
    columns.push({ ...want, index, title, form: 'own', unit, scale: one.scale, zero: one.zero });
  }
  return { columns, problems, leftOut };
}

const FACTOR = /^(\d*\.?\d+)\s*(\D.*)$/;

/** A unit as a scale and its zero; a number before it is a factor: hundredths of a degree are `0.01 °C`. */
function readUnit(unit: string, dimension: Dimension): { readonly ok: true; readonly scale: number; readonly zero: number } | ReadFailure {
  const one = readQuantity(`1 ${unit}`, dimension);
  if (!one.ok) {
    const [, factor, rest] = FACTOR.exec(unit) ?? [];
    const read = rest === undefined ? one : readUnit(rest, dimension);
    return read.ok ? { ...read, scale: read.scale * Number(factor) } : one;
  }
  const none = readQuantity(`0 ${unit}`, dimension);
  const zero = none.ok ? none.value : 0;
  return { ok: true, scale: one.value - zero, zero };
}

/** Where a cell begins in its line, counted from 1. */
export const columnAt = (cells: readonly string[], delimiter: string, index: number): number =>
  1 + cells.slice(0, index).reduce((sum, cell) => sum + cell.length + delimiter.length, 0);

/** Bounds of a column's values in its own unit. */
export function expectedBounds({ bounds, dimension, unit }: LogColumn): string {
  const read = readQuantity(`1 ${unit}`, dimension);
  return read.ok ? expectedWithin(bounds, dimension, read.shownUnit) : 'a value within its bounds';
}
