/** Limits that nobody gave: which stand assumed, and which were not checked at all. @module */

import { listed } from '../problems/listed.js';
import { formatQuantity } from '../quantities/index.js';
import type { LimitResult } from '../results/limit-result.js';
import { LIMIT_IDS, LIMITS, type LimitId } from '../results/limits.js';
import type { CandidateResult, RunResult } from '../results/run-result.js';

/** Limits whose lack is told even where nobody gave one. */
const MISSED = LIMIT_IDS.filter((id) => LIMITS[id].missed);

/** In sentences, over all candidates; none where every limit was given. */
export function limitNotes({ candidates }: Pick<RunResult, 'candidates'>): string[] {
  const told = ({ words, bound, dimension, shown }: LimitResult): string =>
    `${words} ${formatQuantity(bound, dimension, { unit: shown, decimals: dimension === 'voltage' ? 1 : 0 })}`;
  const assumed = [...new Set(candidates.flatMap(({ limits }) => limits.filter((limit) => limit.assumed).map(told)))];
  const lacks = (id: LimitId) => (candidate: CandidateResult) => !candidate.limits.some((limit) => limit.id === id);
  // a limit that only some must keep would make the others look better than they are
  const wanted = new Set([...MISSED, ...candidates.flatMap(({ limits }) => limits.map(({ id }) => id))]);
  const unchecked = [...wanted].flatMap((id) => {
    const { words } = LIMITS[id];
    const without = candidates.filter(lacks(id)).map(({ name }) => name);
    if (without.length === 0) return [];
    return [without.length === candidates.length ? words : `${words} of ${listed(without, 'and')}`];
  });
  return [
    ...(assumed.length === 0 ? [] : [`Limits assumed, since nobody gave them: ${listed(assumed, 'and')}.`]),
    ...(unchecked.length === 0 ? [] : [`No limit of ${listed(unchecked, 'or')} was given, so none was checked.`]),
  ];
}
