/** The steps that a result tells of. @module */

import { profileDuration } from '../../drive/profile.js';
import type { GivenScenario } from '../../provenance/given.js';
import type { StepResult } from '../../results/run-result.js';

/** What the report brackets: every step, or a log as one, since its pieces are ours and nobody's steps. */
export function stepsOf({ profile, log }: GivenScenario): StepResult[] {
  if (log !== undefined) return [{ from: 0, to: profileDuration(profile), hold: profile[0].hold, label: profile[0].label ?? log.file }];
  let from = 0;
  return profile.map((step) => {
    const begun = from;
    from += step.duration;
    return { from: begun, to: from, hold: step.hold, ...(step.label === undefined ? {} : { label: step.label }) };
  });
}
