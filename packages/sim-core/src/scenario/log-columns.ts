/** The head of a log file: which column is which, and in what unit. */
import type { ScenarioProblem } from '../problems/index.js';
import { type Dimension, readQuantity } from '../quantities/index.js';
import { nearestWord } from './nearest-key.js';
import { type Bounds, expectedWithin } from './schema/bounds.js';
import { alternatives, problem, quoted } from './wording.js';

/** A column that is wanted: the name of its head, and what its numbers must be. */
export interface WantedColumn {
  readonly key: string;
  /** Name in the head, a unit in brackets where the head itself has none. */
  readonly head: string;
  readonly dimension: Dimension;
  readonly bounds: Bounds;
  readonly required: boolean;
}

const plainName = (head: string): string =>
  head
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** "vehicle speed [m/s]", "vehicle speed (m/s)" or "vehicle_speed_m_per_s" → name and unit. */
function nameAndUnit(head: string, dimension: Dimension): { readonly name: string; readonly unit?: string } {
  const parts = /^(.*?)\s*[[(]\s*([^\])]*?)\s*[\])]\s*$/.exec(head.trim());
  if (parts !== null) return { name: plainName(parts[1]!), unit: parts[2]! };
  for (let at = head.indexOf('_'); at > 0; at = head.indexOf('_', at + 1)) {
    const unit = head
      .slice(at + 1)
      .trim()
      .replaceAll('_per_', '/');
    if (unit !== '' && readQuantity(`1 ${unit}`, dimension).ok) return { name: plainName(head.slice(0, at)), unit };
  }
  return { name: plainName(head) };
}

/** A wanted column that was found. */
export interface LogColumn extends WantedColumn {
  readonly index: number;
  readonly title: string;
  /** SI value of one unit. */
  readonly scale: number;
}

/** The wanted columns among `heads`, which stand in `line`; optional ones may be missing. */
export function findColumns(
  file: string,
  line: number,
  heads: readonly string[],
  delimiter: string,
  wanted: readonly WantedColumn[],
): { readonly columns: readonly LogColumn[]; readonly problems: readonly ScenarioProblem[] } {
  const problems: ScenarioProblem[] = [];
  const columns: LogColumn[] = [];
  const place = (index: number) => ({ file, line, column: columnAt(heads, delimiter, index), path: heads[index]?.trim() ?? '' });
  for (const want of wanted) {
    const named = heads.map((head) => nameAndUnit(head, want.dimension));
    const asked = nameAndUnit(want.head, want.dimension);
    // a head may itself end in what looks like a unit: Thr(%) is asked for as it stands, or as "Thr(%) [%]"
    const matches = named.flatMap(({ name }, index) => (name === asked.name || plainName(heads[index]!) === asked.name ? [index] : []));
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
          nearest: nearest === undefined ? undefined : heads[named.findIndex(({ name }) => name === nearest)]!.trim(),
          hint: `${alone}rename it, or say in the profile which column it is: columns: { ${want.key}: … }`,
        }),
      );
      continue;
    }
    const index = matches[0]!;
    if (matches.length > 1) {
      problems.push(problem('conflict', place(matches[1]!), `one column ${quoted(want.head)}`, `${matches.length} of that name`));
      continue;
    }
    const own = named[index]!.unit;
    const unit = own ?? asked.unit;
    if (unit === undefined) {
      const example = want.key === 'time' ? 's' : want.dimension === 'fraction' ? '%' : '…';
      problems.push(
        problem('bare-number', place(index), 'a unit in brackets after the name', quoted(heads[index]!), {
          nearest: `${heads[index]!.trim()} [${example}]`,
          hint: `write it in the file, or in the profile: columns: { ${want.key}: "${heads[index]!.trim()} [${example}]" }`,
        }),
      );
      continue;
    }
    if (own !== undefined && asked.unit !== undefined && own !== asked.unit) {
      problems.push(problem('conflict', place(index), `the unit that the profile says, ${asked.unit}`, `${own} in the file`));
      continue;
    }
    const one = readQuantity(`1 ${unit}`, want.dimension);
    if (!one.ok) {
      const kind = one.kind === 'wrong-dimension' ? 'wrong-dimension' : 'wrong-unit';
      problems.push(problem(kind, place(index), one.expected, quoted(heads[index]!.trim()), { nearest: one.nearest, hint: one.hint }));
      continue;
    }
    columns.push({ ...want, index, title: heads[index]!.trim(), scale: one.value });
  }
  return { columns, problems };
}

/** Where a cell begins in its line, counted from 1. */
export const columnAt = (cells: readonly string[], delimiter: string, index: number): number =>
  1 + cells.slice(0, index).reduce((sum, cell) => sum + cell.length + delimiter.length, 0);

/** Bounds of a column's values in its own unit. */
export function expectedBounds({ bounds, dimension, title, head }: LogColumn): string {
  const unit = nameAndUnit(title, dimension).unit ?? nameAndUnit(head, dimension).unit ?? '';
  const read = readQuantity(`1 ${unit}`, dimension);
  return read.ok ? expectedWithin(bounds, dimension, read.shownUnit) : 'a value within its bounds';
}
