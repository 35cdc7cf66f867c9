/** The greatest climb rate of a run. @module */

import type { CandidateResult } from './run-result.js';

/** Greatest climb rate of a run [m/s]; undefined for what never climbs. An aircraft flies at speeds that are set: what is left of its thrust is its climb. */
export function bestClimb({ trace }: Pick<CandidateResult, 'trace'>): number | undefined {
  const most = trace.climbRate.reduce((greatest, each) => Math.max(greatest, each), 0);
  return most > 0 ? most : undefined;
}
