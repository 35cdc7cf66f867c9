/** How much one scenario may ask for, so that time and memory stay within what a small machine has. @module */

import type { ScenarioProblem } from '../problems/index.js';
import { problem } from './wording.js';
import { childOf, type LocatedMap } from './yaml/located-tree.js';

/** Some 1.5 MB each, with all that is told of it. */
export const MOST_CANDIDATES = 500;
/** Steps of the profile, or pieces of its log, times candidates: each takes about a millisecond, and half a kilobyte. */
export const MOST_DRIVEN_STEPS = 500_000;

/** The problem of more candidates than one scenario may have, with a profile of so many steps; undefined where they are few enough. */
export function tooManyCandidates(root: LocatedMap, steps: number): ScenarioProblem | undefined {
  const node = childOf(root, 'candidates');
  if (node?.kind !== 'list') return undefined;
  const count = node.items.length;
  const hint = 'put some of them into a second scenario: what is common can stand in part files that both use';
  if (count > MOST_CANDIDATES) return problem('too-large', node.place, `at most ${MOST_CANDIDATES} candidates`, `${count}`, { hint });
  if (count * steps <= MOST_DRIVEN_STEPS) return undefined;
  const most = Math.floor(MOST_DRIVEN_STEPS / steps);
  const expected = `at most ${most === 1 ? 'one candidate' : `${most} candidates`} for a profile of ${steps} steps`;
  return problem('too-large', node.place, expected, `${count}`, { hint: `${hint}; or drive a shorter profile` });
}
