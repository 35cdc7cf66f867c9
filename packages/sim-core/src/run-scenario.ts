/**
 * Read this first: the whole way from a scenario's text to its result.
 *
 *   1 read      documents → given data, gaps allowed, overrides merged        (scenario/)
 *   2 complete  every gap filled by a named rule                              (provenance/complete/)
 *   3 realise   data → plain SI numbers under one draw                        (provenance/realise)
 *   4 integrate the drive over the profile                                    (questions/simulate/, kernel/, numerics/)
 *   5 account   limits, energies, figures                                     (questions/run/, questions/judge/)
 *   6 judge     feasible first, then the objective; sentences from figures    (questions/judge/rank, words/verdict)
 *
 * Every other question stands in other-questions.ts.
 *
 * @module
 */

import { profileDuration } from './drive/profile.js';
import type { ScenarioProblem } from './problems/index.js';
import { once } from './problems/once.js';
import { complete } from './provenance/complete/complete.js';
import { withBenches } from './provenance/complete/measured-with.js';
import type { GivenScenario } from './provenance/given.js';
import { audit } from './questions/audit/audit.js';
import type { RunInput } from './questions/candidate.js';
import { judged } from './questions/judge/judged.js';
import { rank } from './questions/judge/rank.js';
import { asOneStep } from './questions/run/as-one-step.js';
import { assumptionsOf } from './questions/run/assumptions.js';
import { runCandidate } from './questions/run/run.js';
import { withRunaway } from './questions/run/runaway.js';
import { stepsOf } from './questions/run/steps-shown.js';
import { textsCarried } from './questions/run/texts-carried.js';
import type { RunResult } from './results/run-result.js';
import { readScenario } from './scenario/index.js';
import { hashOf } from './scenario/text-hash.js';
import { CAUTIONS } from './words/cautions.js';

export const VERSION = '0.1.0';

export interface PreparedScenario {
  readonly scenario: GivenScenario;
  readonly candidates: readonly RunInput[];
  readonly files: readonly { readonly path: string; readonly text: string }[];
  readonly hash: string;
}

export type Preparation =
  | { readonly ok: true; readonly prepared: PreparedScenario }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] }
  | { readonly needs: readonly string[] };

/** Steps 1 and 2. `files` maps paths to texts; `needs` names files to read first. `measured`: a log to compare with in place of the one named; null for none. */
export function prepareScenario(files: ReadonlyMap<string, string | null>, main: string, measured?: string | null): Preparation {
  // 1 read
  const reading = readScenario(files, main, measured);
  if ('needs' in reading) return reading;
  if (!reading.ok) return reading;
  // 2 complete
  const benched = withBenches(reading.scenario.candidates);
  const problems: ScenarioProblem[] = [...benched.problems];
  const candidates: RunInput[] = [];
  for (const { name, given } of benched.candidates) {
    const completion = complete(name, given);
    if (completion.ok) candidates.push({ name, given, data: completion.data });
    else problems.push(...completion.problems);
  }
  if (problems.length > 0) return { ok: false, problems: once(problems) };
  const texts = reading.files.map((path) => ({ path, text: files.get(path) ?? '' }));
  return { ok: true, prepared: { scenario: reading.scenario, candidates, files: texts, hash: hashOf(texts) } };
}

/** Steps 3 to 6, at once and on one thread: some tenths of a second for a run of minutes. Throws only on faults of the program. */
export function runScenario({ scenario, candidates, files, hash }: PreparedScenario): RunResult {
  const duration = profileDuration(scenario.profile);
  // 3 realise, 4 integrate, 5 account: one candidate after another
  const runs = candidates.map((candidate) => withRunaway(candidate, runCandidate(candidate, scenario.profile)));
  const results = scenario.log === undefined ? runs : runs.map(asOneStep);
  // 6 judge
  const ranked = rank(results, scenario.objective, duration);
  return judged({
    schema: 'shaftwork.run/1',
    version: VERSION,
    scenario: {
      title: scenario.title,
      ...(scenario.notes === undefined ? {} : { notes: scenario.notes }),
      objective: scenario.objective,
      hash,
      steps: stepsOf(scenario),
      duration,
      ...(scenario.log === undefined ? {} : { log: scenario.log }),
      files: textsCarried(files, scenario),
    },
    candidates: results,
    ranking: ranked.map((candidate) => candidate.name),
    verdict: [],
    findings: results.flatMap((candidate) => candidate.findings),
    assumptions: assumptionsOf(candidates),
    audit: audit(candidates, results),
    cautions: CAUTIONS,
  });
}
