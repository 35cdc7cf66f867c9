/** What is wrong with the rows of a log: the first place of each kind and column, and how often it occurs. @module */

import type { ScenarioProblem } from '../../problems/index.js';
import { expectation, noSuchValue } from '../../quantities/index.js';
import { problem, quoted } from '../wording.js';
import { columnAt, expectedBounds, type LogColumn } from './log-columns.js';

export interface LogFaults {
  readonly none: () => boolean;
  readonly ragged: (line: number, cells: readonly string[]) => void;
  readonly cell: (line: number, cells: readonly string[], column: LogColumn, fault: CellFault) => void;
  readonly problems: () => readonly ScenarioProblem[];
}

export type CellFault = 'not-a-number' | 'two-marks' | 'no-time' | 'no-such-value' | 'out-of-bounds';

const SEPARATOR_WORDS: Readonly<Record<string, string>> = { ',': 'commas', ';': 'semicolons', '\t': 'tabs' };

export function logFaults(file: string, heads: readonly string[], delimiter: string): LogFaults {
  const found = new Map<string, { readonly first: ScenarioProblem; count: number }>();
  const note = (key: string, first: () => ScenarioProblem): void => {
    const known = found.get(key);
    if (known === undefined) found.set(key, { first: first(), count: 1 });
    else known.count++;
  };
  return {
    none: () => found.size === 0,
    ragged: (line, cells) =>
      note('ragged', () => {
        const comma = delimiter === ',' && cells.length > heads.length;
        const hint = comma
          ? 'a decimal comma parts a number in two here: export with a point before decimals'
          : 'every row has one cell under each head; empty cells are allowed';
        return problem(
          'broken-table',
          { file, line, column: 1, path: '' },
          `${heads.length} cells, parted by ${SEPARATOR_WORDS[delimiter] ?? quoted(delimiter)}`,
          `${cells.length} in ${quoted(cells.join(delimiter))}`,
          { hint },
        );
      }),
    cell: (line, cells, column, fault) => note(`${fault} ${column.key}`, () => cellProblem(file, line, cells, delimiter, column, fault)),
    problems: () =>
      [...found.values()].map(({ first, count }) =>
        count === 1 ? first : { ...first, found: `${first.found}, and ${count - 1} more like it` },
      ),
  };
}

function cellProblem(
  file: string,
  line: number,
  cells: readonly string[],
  delimiter: string,
  column: LogColumn,
  fault: CellFault,
): ScenarioProblem {
  const place = { file, line, column: columnAt(cells, delimiter, column.index), path: column.title };
  const cell = cells[column.index].trim();
  if (fault === 'out-of-bounds') return problem('out-of-range', place, expectedBounds(column), quoted(cell));
  if (fault === 'no-such-value') {
    const hint = noSuchValue(+cell.replace(',', '.') * column.scale + column.zero, column.dimension);
    return problem('out-of-range', place, expectation(column.dimension), quoted(cell), { ...(hint === undefined ? {} : { hint }) });
  }
  if (fault === 'no-time') return problem('missing-datum', place, 'a time in every row', 'none');
  if (fault === 'two-marks') {
    const hint = 'a mark of thousands is not read: export numbers without it';
    return problem('bad-number', place, 'one mark before decimals in the whole file, a point or a comma', quoted(cell), { hint });
  }
  const clock = column.key === 'time' && /[:/T]/.test(cell);
  const hint = clock ? 'write clock times as 12:30:05.2, hours first, in every row' : undefined;
  return problem('bad-number', place, 'a number alone, its unit in the head', quoted(cell), { hint });
}
