/** The greatest climb rate of a run. @module */

import type { CandidateResult } from './run-result.js';

/**
 * Greatest climb rate of a run [m/s]; undefined for what never climbs, and on wheels, where the slope sets it. An aircraft flies at speeds that are set:
 * what is left of its thrust is its climb.
 */
export function bestClimb({
  trace,
  facts,
}: {
  readonly trace: CandidateResult['trace'];
  readonly facts: Pick<CandidateResult['facts'], 'carriedBy'>;
}): number | undefined {
  if (facts.carriedBy === 'wheels') return undefined;
  const most = trace.climbRate.reduce((greatest, each) => Math.max(greatest, each), 0);
  return most > 0 ? most : undefined;
}
