/** Problems as text for a person. @module */

import type { ScenarioProblem } from '@shaftwork/sim-core/problems';
import type { Colours } from '../hands/terminal.js';
import { wrap } from './table.js';

/** As many as somebody mends before looking again. */
const MOST_SHOWN = 20;

export interface ProblemWords {
  readonly colours: Colours;
  /** All of them, however many. */
  readonly all: boolean;
}

/** Problems for a person: place, kind, what was expected and found, what to do; the last lines are the next commands, `again` the one to try again. */
export function problemText(problems: readonly ScenarioProblem[], again: string, { colours, all }: ProblemWords): string {
  const shown = all ? problems : problems.slice(0, MOST_SHOWN);
  const lines = shown.flatMap(({ kind, place, expected, found, nearest, hint }) => [
    `${colours.strong(`${place.file}:${place.line}:${place.column}`)}${place.path === '' ? '' : `  ${place.path}`}  ${colours.faint(`[${kind}]`)}`,
    `  ${wrap(`expected ${expected}; found ${found}${nearest === undefined ? '' : ` (did you mean ${nearest}?)`}`, 80, '  ')}`,
    ...(hint === undefined ? [] : [`  ${wrap(hint, 80, '  ')}`]),
  ]);
  const left = problems.length - shown.length;
  if (left > 0) lines.push(`… and ${left} more; mend these first, or see all with --verbose.`);
  const count = problems.length === 1 ? '1 problem' : `${problems.length} problems`;
  const kinds = [...new Set(shown.map(({ kind }) => kind))];
  const which = kinds.length === 1 ? kinds[0] : `<${kinds.slice(0, 3).join(' | ')}${kinds.length > 3 ? ' | …' : ''}>`;
  return `${lines.join('\n')}

${colours.bad(count)}. Mend and try again: npx shaftwork ${again}
What a kind means: npx shaftwork explain ${which}
`;
}

export const problemJson = (problems: readonly ScenarioProblem[]): string =>
  `${JSON.stringify({ schema: 'shaftwork.problems/1', problems }, null, 2)}\n`;
