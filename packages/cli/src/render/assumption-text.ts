/** What was assumed, by part, the most influential first; what does not matter is counted, not listed. @module */

import type { AssumedNumber, Assumption, CostlyResult } from '@shaftwork/sim-core';
import { listed } from '@shaftwork/sim-core/problems';
import { formatNumber, formatQuantity } from '@shaftwork/sim-core/quantities';
import { narrowedWords } from '@shaftwork/sim-core/words';
import { hanging } from './audit-text.js';

const PARTS: readonly (readonly [path: string, words: string])[] = [
  ['limits', 'limits'],
  ['heat.controller', 'controller'],
  ['heat.capacity.controller', 'controller'],
  ['heat.cells', 'battery'],
  ['heat.capacity.cells', 'battery'],
  ['heat', 'heat paths of the motor'],
  ['motor', 'motor'],
  ['battery', 'battery'],
  ['wiring', 'wiring'],
  ['controller', 'controller'],
  ['gearbox', 'gearbox'],
  ['load', 'propeller or wheel'],
  ['vehicle', 'vehicle'],
  ['surroundings', 'surroundings'],
];
const partOf = (path: string): string => PARTS.find(([start]) => path.startsWith(start))?.[1] ?? 'start of the run';

/** Below this a number's whole interval moves the peaks by less than anybody can measure [K]. */
const MATTERS = 0.5;

/** Effects from here on are printed [K]. */
const SHOWN = 0.05;
const movedWords = ({ leading }: CostlyResult): string =>
  `± K behind a number: what its interval alone does to the peak of the winding of ${
    leading.length === 1 ? leading[0] : `${listed(leading, 'or')}, the one named, which it moves more`
  }; above, each limit is told apart.`;

interface Row {
  readonly words: string;
  readonly part: string;
  readonly all: AssumedNumber[];
  readonly moves: number;
  /** Whose winding it moves so far, in brackets where there is a choice. */
  readonly mover: string;
}

function rowsOf(assumptions: readonly AssumedNumber[], costly: CostlyResult): Row[] {
  // several motors have a Kv each: the one whose interval moves most
  const moves = new Map<string, CostlyResult['all'][number]>();
  for (const each of costly.all) if (each.before > (moves.get(each.subject)?.before ?? 0)) moves.set(each.subject, each);
  const rows = new Map<string, Row>();
  for (const each of assumptions) {
    const key = `${each.origin}|${each.narrowed === undefined ? '' : each.value}`;
    const row = rows.get(key);
    const most = moves.get(each.origin);
    if (row === undefined)
      rows.set(key, {
        words: each.words,
        part: partOf(each.path),
        all: [each],
        moves: most?.before ?? 0,
        mover: most === undefined || costly.leading.length === 1 ? '' : ` (${most.candidate})`,
      });
    else row.all.push(each);
  }
  return [...rows.values()];
}

const show = (value: number, { dimension }: AssumedNumber): string => formatQuantity(value, dimension, { significant: 3 });

function line({ words, all, moves, mover }: Row, count: number): string {
  const [first] = all;
  // of several motors, each with the range of its own
  const values = [...new Set(all.map((each) => show(each.value, each)))]
    .map((value) => {
      const same = all.filter((each) => show(each.value, each) === value);
      const low = Math.min(...same.map((each) => each.low));
      const high = Math.max(...same.map((each) => each.high));
      return low === high ? value : `${value} (${show(low, first)} to ${show(high, first)})`;
    })
    .join(', ');
  const effect = moves >= SHOWN ? `, ±${formatNumber(moves, { significant: moves < 10 ? 1 : 2 })} K${mover}` : '';
  const narrowed = narrowedWords(first);
  const whose = first.candidates.length < count ? ` of ${first.candidates.join(' and ')}` : '';
  if (narrowed !== undefined) return `${words}${whose}: ${values}, ${narrowed}${effect}`;
  return `${words}${first.kind === 'given' ? ', no ± beside it' : ''}: ${values}${effect}`;
}

/** The list for people; with `verbose` every line. */
export function assumptionText(assumptions: readonly Assumption[], costly: CostlyResult, verbose: boolean): string {
  const numbers = assumptions.filter((each) => each.kind !== 'choice');
  const choices = assumptions.filter((each) => each.kind === 'choice');
  const rows = rowsOf(numbers, costly);
  const told = rows.filter(
    (row) =>
      verbose || row.all[0].narrowed !== undefined || row.moves >= MATTERS || (row.part === 'limits' && row.all[0].origin !== 'no-reserve'),
  );
  const count = new Set(numbers.flatMap(({ candidates }) => candidates)).size;
  const parts = new Map<string, Row[]>();
  for (const row of [...told].sort((a, b) => b.moves - a.moves)) parts.set(row.part, [...(parts.get(row.part) ?? []), row]);
  const text = [...parts]
    .map(([part, list]) => [`  ${part}`, ...list.map((row) => hanging('    ', line(row, count)))].join('\n'))
    .join('\n');
  const rest = rows.length - told.length;
  const moved = told.some(({ moves }) => moves >= SHOWN) ? `${hanging('  ', movedWords(costly))}\n` : '';
  const more = rest === 0 ? '' : `${hanging('  ', `${rest} more move that peak by less than ${MATTERS} K each: --verbose lists them.`)}\n`;
  const taken = choices.map(({ words, value, path }) => hanging('    ', `${words}: ${value} (${path})`)).join('\n');
  return `${moved}${text}\n${more}${taken === '' ? '' : `  where nothing was said (and the key that says otherwise)\n${taken}\n`}`;
}
