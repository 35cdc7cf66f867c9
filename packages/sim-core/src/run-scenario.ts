/**
 * Read this first: the whole way from a scenario's text to its result.
 *
 *   1 read      documents → given data, gaps allowed, overrides merged        (scenario/)
 *   2 complete  every gap filled by a named rule                              (provenance/complete/)
 *     learn     what was read narrows what it speaks of                       (questions/readings/)
 *   3 realise   data → plain SI numbers under one draw                        (provenance/realise)
 *   4 integrate the drive over the profile                                    (questions/simulate/, kernel/, numerics/)
 *   5 account   limits, energies, figures                                     (questions/run/, questions/judge/)
 *   6 judge     feasible first, then the objective; sentences from figures    (questions/judge/rank, words/verdict)
 *
 * Every other question stands in other-questions.ts, measured-questions.ts and bench-questions.ts.
 *
 * @module
 */

import { profileDuration } from './drive/profile.js';
import type { ScenarioProblem } from './problems/index.js';
import { once } from './problems/once.js';
import { complete } from './provenance/complete/complete.js';
import { withBenches } from './provenance/complete/measured-with.js';
import type { GivenScenario } from './provenance/given.js';
import { type TakenReading, takenReadings } from './provenance/taken-readings.js';
import { audit } from './questions/audit/audit.js';
import type { RunInput } from './questions/candidate.js';
import { judged } from './questions/judge/judged.js';
import { rank } from './questions/judge/rank.js';
import { type Lesson, learn, withReadings } from './questions/readings/learn.js';
import { asOneStep } from './questions/run/as-one-step.js';
import { assumptionsOf } from './questions/run/assumptions.js';
import { runCandidate } from './questions/run/run.js';
import { withRunaway } from './questions/run/runaway.js';
import { stepsOf } from './questions/run/steps-shown.js';
import { textsCarried } from './questions/run/texts-carried.js';
import type { RunResult } from './results/run-result.js';
import { type KnownFolder, readKnown, readScenario } from './scenario/index.js';
import { hashOf } from './scenario/text-hash.js';
import { CAUTIONS } from './words/cautions.js';

/** Version of the program, as results carry it. */
export const VERSION = '0.1.0';

/** A scenario that is right: what every question is asked of. */
export interface PreparedScenario {
  /** What was written, profile unrolled; all numbers SI. */
  readonly scenario: GivenScenario;
  /** Each candidate as it was given, and the same with every gap filled, readings taken in. */
  readonly candidates: readonly RunInput[];
  /** The same without the readings, for what is said of sheets. */
  readonly written: readonly RunInput[];
  /** What was read, each with the candidate it was read on. */
  readonly taken: readonly TakenReading[];
  /** What the readings taught, where there are any. */
  readonly lesson?: Lesson;
  /** The folder of identified motors, where one was named. */
  readonly known?: KnownFolder;
  /** The texts it was read from, the scenario first. */
  readonly files: readonly { readonly path: string; readonly text: string }[];
  /** Tells these texts from others. */
  readonly hash: string;
}

/** What came of preparing: ready to be asked, everything that is wrong with it, or the files that it names and that were not among the texts; `ok` where it is ready. */
export type Preparation =
  | { readonly kind: 'ready'; readonly ok: true; readonly prepared: PreparedScenario }
  | { readonly kind: 'problems'; readonly ok: false; readonly problems: readonly ScenarioProblem[] }
  | { readonly kind: 'needs'; readonly ok: false; readonly needs: readonly string[] };

/** The name under which problems speak of a text that was given without one. */
const ONE_TEXT = 'scenario.yaml';

/** Steps 1 and 2 for a scenario in one text. Never throws for what the text says. */
export function prepareScenario(text: string): Preparation;
/**
 * Steps 1 and 2. `files` maps paths to texts, null where a file cannot be read; `main` is the scenario's own path; `measured` a log to compare with in place of the one
 * that the scenario names, null for none; `known` a folder of identified motors.
 */
export function prepareScenario(
  files: ReadonlyMap<string, string | null>,
  main: string,
  measured?: string | null,
  known?: KnownFolder,
): Preparation;
export function prepareScenario(
  given: string | ReadonlyMap<string, string | null>,
  main: string = ONE_TEXT,
  measured?: string | null,
  known?: KnownFolder,
): Preparation {
  // 1 read
  const files = typeof given === 'string' ? new Map([[main, given]]) : given;
  const reading = readScenario(files, main, measured);
  if (reading.kind !== 'read') return { ...reading, ok: false };
  // 2 complete
  const { scenario } = reading;
  const { fleet, problems: unknown } = known === undefined ? { fleet: undefined, problems: [] } : readKnown(known);
  const benched = withBenches(
    scenario.candidates.map(({ name, given }) => ({ name, given: fleet === undefined ? given : { ...given, fleet } })),
  );
  const { taken, problems: untold } = takenReadings(benched.candidates, scenario.readings ?? []);
  const problems: ScenarioProblem[] = [...unknown, ...benched.problems, ...untold];
  const completed = (drives: readonly Pick<RunInput, 'name' | 'given'>[]): RunInput[] =>
    drives.flatMap(({ name, given }) => {
      const completion = complete(name, given);
      if (completion.ok) return [{ name, given, data: completion.data, choices: completion.choices }];
      problems.push(...completion.problems);
      return [];
    });
  const written = completed(benched.candidates);
  if (problems.length > 0) return { kind: 'problems', ok: false, problems: once(problems) };
  const texts = reading.files.map((path) => ({ path, text: files.get(path) ?? '' }));
  const hash = hashOf([...texts, ...(known?.files ?? [])]);
  const prepared = { scenario, candidates: written, written, taken, files: texts, hash, ...(known === undefined ? {} : { known }) };
  if (taken.length === 0) return { kind: 'ready', ok: true, prepared };
  const learning = learn(written, taken, scenario.profile);
  if (!learning.ok) return { kind: 'problems', ok: false, problems: once(learning.problems) };
  const { lesson } = learning;
  const candidates = completed(written.map(({ name, given }) => ({ name, given: { ...given, learnt: lesson.learnt } })));
  return { kind: 'ready', ok: true, prepared: { ...prepared, candidates, lesson } };
}

/**
 * Steps 3 to 6 for all candidates, the best first in `ranking`. Synchronous, on one thread: some tenths of a second for a run of minutes.
 * What went wrong with a drive is a finding or an end of its run; an error that is thrown is a fault of the program.
 */
export function runScenario({ scenario, candidates, written, lesson, files, hash }: PreparedScenario): RunResult {
  const duration = profileDuration(scenario.profile);
  // 3 realise, 4 integrate, 5 account: one candidate after another
  const runs = candidates.map((candidate) => withReadings(lesson, withRunaway(candidate, runCandidate(candidate, scenario.profile))));
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
    audit: audit(written, results),
    ...(lesson === undefined ? {} : { readings: lesson.result }),
    cautions: CAUTIONS,
  });
}
