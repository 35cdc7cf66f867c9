/** The danger of a run that its own temperatures do not show. @module */

import { realise } from '../../provenance/realise.js';
import type { Finding } from '../../results/finding.js';
import type { CandidateResult } from '../../results/run-result.js';
import type { RunInput } from '../candidate.js';
import { runsAway } from '../rate/equilibrium.js';
import { STANDARD_CHARGE } from '../rate/rate.js';

/** The run with what no temperature of it shows: that its full throttle, held, would have no equilibrium. */
export function withRunaway(input: RunInput, run: CandidateResult): CandidateResult {
  const away = runsAway(realise(input.data), STANDARD_CHARGE);
  if (away === undefined) return run;
  const finding: Finding = { candidate: run.name, kind: 'thermal-runaway', value: away.current, bound: away.bound };
  return { ...run, findings: [...run.findings, finding] };
}
