/** Problems told once. @module */

import type { ScenarioProblem } from './scenario-problem.js';

/** Candidates that share a line share its problem; it is told once. */
export function once(problems: readonly ScenarioProblem[]): ScenarioProblem[] {
  const seen = new Set<string>();
  return problems.filter(({ place, expected }) => {
    const key = `${place.file}:${place.line}:${place.column}:${place.path}:${expected}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
