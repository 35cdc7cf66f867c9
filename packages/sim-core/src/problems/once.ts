/** Problems told once. @module */

import type { ScenarioProblem } from './scenario-problem.js';

/** Candidates that share a line share its problem, and what all of them lack has no line of theirs; it is told once. */
export function once(problems: readonly ScenarioProblem[]): ScenarioProblem[] {
  const seen = new Set<string>();
  return problems.filter(({ kind, place, expected }) => {
    const lacking = kind === 'missing-datum' && place.path !== '';
    const key = `${place.file}:${lacking ? '' : `${place.line}:${place.column}`}:${place.path}:${expected}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
