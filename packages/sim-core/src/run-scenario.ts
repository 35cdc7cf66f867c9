/**
 * Read this first: the whole way from a scenario's text to its result.
 *
 *   1 read      documents → given data, gaps allowed, overrides merged        (scenario/)
 *   2 complete  every gap filled by a named rule                              (provenance/)
 *   3 realise   data → plain SI numbers under one draw                        (provenance/)
 *   4 integrate the drive over the profile                                    (studies/simulate, kernel/, numerics/)
 *   5 account   limits, energies, figures                                     (studies/run)
 *   6 judge     feasible first, then the objective; sentences from figures    (studies/rank, results/verdict)
 */

import type { Limits } from './drive/drive-system.js';
import { profileDuration } from './drive/profile.js';
import type { ScenarioProblem } from './problems/index.js';
import { complete } from './provenance/complete.js';
import type { GivenScenario } from './provenance/given.js';
import { withBenches } from './provenance/measured-with.js';
import { realise } from './provenance/realise.js';
import type { AuditResult } from './results/audit-result.js';
import { CAUTIONS } from './results/cautions.js';
import type { CoolResult } from './results/cool-result.js';
import type { CostlyResult } from './results/costly-result.js';
import type { Finding } from './results/finding.js';
import type { PartThrottleResult } from './results/part-throttle-result.js';
import type { RatingResult } from './results/rating-result.js';
import type { ReadingResult } from './results/reading-result.js';
import type { Assumption, CandidateResult, RunResult, StepResult } from './results/run-result.js';
import type { ShapeResult } from './results/shape-result.js';
import { verdictOf } from './results/verdict.js';
import type { WhyResult } from './results/why-result.js';
import type { WindingResult } from './results/winding-result.js';
import { readScenario } from './scenario/index.js';
import { asOneStep } from './studies/as-one-step.js';
import { assumptionsOf } from './studies/assumptions.js';
import { audit } from './studies/audit.js';
import { cool } from './studies/cool.js';
import { costlyNumbers } from './studies/costly-numbers.js';
import { type DoubtJob, jobsOf, workDoubt } from './studies/doubt.js';
import { BODY_WORDS, bodyInQuestion } from './studies/doubt-curves.js';
import { gatherDoubt } from './studies/doubt-gather.js';
import { type DoubtPlan, planDoubt } from './studies/doubt-plan.js';
import { runsAway } from './studies/equilibrium.js';
import { hardestMoment } from './studies/hardest-moment.js';
import { type PointAsk, type PointResult, pointWithBands } from './studies/point.js';
import { asGoodAsFirst, rank } from './studies/rank.js';
import { meanWarmth, rate, STANDARD_CHARGE, STANDARD_CYCLE } from './studies/rate.js';
import { type ReadingAsk, reading } from './studies/reading.js';
import { reshape } from './studies/reshape.js';
import { rewind } from './studies/rewind.js';
import { type RunInput, runCandidate } from './studies/run.js';
import { simulate } from './studies/simulate.js';
import { why } from './studies/why.js';

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

/** Steps 1 and 2. `files` maps paths to texts; `needs` names part files to read first. */
export function prepareScenario(files: ReadonlyMap<string, string | null>, main: string): Preparation {
  const reading = readScenario(files, main);
  if ('needs' in reading) return reading;
  if (!reading.ok) return reading;
  const measured = withBenches(reading.scenario.candidates);
  const problems: ScenarioProblem[] = [...measured.problems];
  const candidates: RunInput[] = [];
  for (const { name, given } of measured.candidates) {
    const completion = complete(name, given);
    if (completion.ok) candidates.push({ name, given, data: completion.data });
    else problems.push(...completion.problems);
  }
  if (problems.length > 0) return { ok: false, problems: once(problems) };
  const texts = reading.files.map((path) => ({ path, text: files.get(path) ?? '' }));
  return { ok: true, prepared: { scenario: reading.scenario, candidates, files: texts, hash: hashOf(texts) } };
}

/** Steps 3 to 6. */
export function runScenario({ scenario, candidates, files, hash }: PreparedScenario): RunResult {
  const runs = candidates.map((candidate) => withRunaway(candidate, runCandidate(candidate, scenario.profile)));
  const results = scenario.log === undefined ? runs : runs.map(asOneStep);
  const ranked = rank(results, scenario.objective, profileDuration(scenario.profile));
  const steps = stepsOf(scenario);
  return judged({
    schema: 'shaftwork.run/1',
    version: VERSION,
    scenario: {
      title: scenario.title,
      ...(scenario.notes === undefined ? {} : { notes: scenario.notes }),
      objective: scenario.objective,
      hash,
      steps,
      duration: profileDuration(scenario.profile),
      ...(scenario.log === undefined ? {} : { log: scenario.log }),
      files: files.map((file) => (file.path === scenario.log?.file && file.text.length > LONGEST_LOG ? beginningOf(file) : file)),
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

/** The result with its verdict, from all that is known by now. */
function judged(result: RunResult): RunResult {
  const { objective, duration } = result.scenario;
  const ranked = result.ranking.map((name) => result.candidates.find((candidate) => candidate.name === name)!);
  return { ...result, verdict: verdictOf(ranked, objective, asGoodAsFirst(ranked, objective, duration), result) };
}

/** Beside the run, how sure it is: the plan, its jobs worked anywhere in any order, and the rows, joined in order, read into the result. */
export const planDoubtOf = (
  { candidates, scenario }: PreparedScenario,
  ask: { readonly samples: number; readonly seed: number },
): DoubtPlan => planDoubt(candidates, scenario.profile, scenario.objective, ask);
export const workDoubtOf = ({ candidates }: PreparedScenario, plan: DoubtPlan, job: DoubtJob): Float64Array =>
  workDoubt(plan, candidates, job);

export function withDoubt(result: RunResult, plan: DoubtPlan, rows: Float64Array): RunResult {
  const { doubt, bands } = gatherDoubt(plan, rows, result.candidates, result.ranking);
  const candidates = result.candidates.map((candidate) => {
    const headline = Object.fromEntries(
      Object.entries(candidate.headline).map(([key, figure]) => [key, { ...figure, ...bands.get(candidate.name)?.[key as 'runTime'] }]),
    ) as unknown as CandidateResult['headline'];
    return { ...candidate, headline };
  });
  return judged({ ...result, candidates, doubt });
}

/** Why `to` differs from `from`, by name; the body split is the one that the verdict speaks of. Throws RangeError for an unknown name. */
export function whyOf(
  { candidates, scenario }: PreparedScenario,
  result: RunResult,
  from: string,
  to: string,
  more: { readonly lasting?: boolean } = {},
): WhyResult {
  const [a, b] = [from, to].map((name) => {
    const candidate = candidates.find((each) => each.name === name);
    if (candidate === undefined) throw new RangeError(`There is no candidate named ${name}.`);
    return candidate;
  });
  const body = bodyInQuestion(
    result.candidates.filter(({ name }) => name === from || name === to),
    scenario.objective,
  );
  return why(a, b, scenario.profile, { body, bodyWords: BODY_WORDS[body], ...more });
}

/** The result with the numbers that cost its answer most, and where each tips it; see studies/costly-numbers. */
export function withCostly({ candidates, scenario }: PreparedScenario, result: RunResult): RunResult {
  const costlyAt = (relative?: number): CostlyResult => costlyNumbers(candidates, scenario.profile, scenario.objective, relative);
  const quick = costlyAt();
  // candidates so close that the quick integration ranks them otherwise are looked at as closely as the run was
  return judged({ ...result, costly: quick.ranking[0] === result.ranking[0] ? quick : costlyAt(1e-6) });
}

/** The leader explained against the runner-up; the result as it is where there is only one candidate. */
export function withWhy(prepared: PreparedScenario, result: RunResult): RunResult {
  const [leader, second] = result.ranking;
  return second === undefined ? result : { ...result, why: whyOf(prepared, result, second, leader) };
}

/** What the report brackets: every step, or a log as one, since its pieces are ours and nobody's steps. */
function stepsOf({ profile, log }: GivenScenario): StepResult[] {
  if (log !== undefined) return [{ from: 0, to: profileDuration(profile), hold: profile[0].hold, label: profile[0].label ?? log.file }];
  let from = 0;
  return profile.map((step) => {
    const begun = from;
    from += step.duration;
    return { from: begun, to: from, hold: step.hold, ...(step.label === undefined ? {} : { label: step.label }) };
  });
}

/** A result carries its scenario, but no million rows [characters]. */
const LONGEST_LOG = 300_000;
const SHOWN_LOG = 1000;
const beginningOf = ({ path, text }: { readonly path: string; readonly text: string }) => ({
  path,
  text: `${text.slice(0, text.lastIndexOf('\n', SHOWN_LOG) + 1)}# and so on`,
  shortened: true as const,
});

/** Candidates that share a line share its problem; it is told once. */
function once(problems: readonly ScenarioProblem[]): ScenarioProblem[] {
  const seen = new Set<string>();
  return problems.filter(({ place, expected }) => {
    const key = `${place.file}:${place.line}:${place.column}:${place.path}:${expected}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** FNV-1a over the texts' UTF-16 units, 32 bits, as eight hexadecimal digits. */
function hashOf(files: readonly { readonly path: string; readonly text: string }[]): string {
  let hash = 0x811c9dc5;
  for (const { path, text } of files) {
    for (const part of [path, '\n', text, '\n']) {
      for (let k = 0; k < part.length; k++) hash = Math.imul(hash ^ part.charCodeAt(k), 0x01000193);
    }
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}

/** What `check` tells of a scenario that is right. */
export interface ScenarioCheck {
  readonly audit: AuditResult;
  readonly costly: CostlyResult;
  /** Data that were not given. */
  readonly assumptions: readonly Assumption[];
}

/** Audit, costly numbers and assumptions; see studies/audit, studies/costly-numbers. */
export function checkScenario({ scenario, candidates }: PreparedScenario): ScenarioCheck {
  const runs = candidates.map((candidate) => runCandidate(candidate, scenario.profile, { method: 'dormand-prince', relative: 1e-4 }));
  return {
    audit: audit(candidates, runs),
    costly: costlyNumbers(candidates, scenario.profile, scenario.objective),
    assumptions: assumptionsOf(candidates),
  };
}

/** Draws behind the bands of a point. */
const POINT_SAMPLES = 64;

/** Steady points of all candidates, with how sure they are; see studies/point. */
export function pointsOfScenario({ candidates, scenario }: PreparedScenario, ask: PointAsk): PointResult[] {
  const plan = planDoubt(candidates, scenario.profile, scenario.objective, { samples: POINT_SAMPLES, seed: 1 });
  return candidates.map((candidate) => pointWithBands(candidate, ask, plan));
}
export type { DoubtJob, DoubtPlan, PointAsk, PointResult, RunInput };
export { jobsOf };

/** The run with what no temperature of it shows: that its full throttle, held, would have no equilibrium. */
function withRunaway(input: RunInput, run: CandidateResult): CandidateResult {
  const away = runsAway(realise(input.data), STANDARD_CHARGE);
  if (away === undefined) return run;
  const finding: Finding = { candidate: run.name, kind: 'thermal-runaway', value: away.current, bound: away.bound };
  return { ...run, findings: [...run.findings, finding] };
}

/** The result with each candidate's ratings and part throttle, at half charge, “warm” meaning the run's mean. */
export const withRatings = ({ candidates }: PreparedScenario, result: RunResult): RunResult => ({
  ...result,
  candidates: result.candidates.map((run) => {
    const { data } = candidates.find(({ name }) => name === run.name)!;
    return {
      ...run,
      ...rate(realise(data), {
        charge: STANDARD_CHARGE,
        cycle: STANDARD_CYCLE,
        warm: meanWarmth(run.trace),
        hardest: hardestOf(run.moment),
      }),
    };
  }),
});

const hardestOf = ({ label, channels }: CandidateResult['moment']) => ({ label, vehicleSpeed: channels.vehicleSpeed });

/** How a rating is asked for from outside: charge and cycle, where they are not the standard ones. */
export interface RatingAsk {
  readonly charge?: number;
  readonly cycle?: number;
}

/** Ratings of all candidates, warm meaning the profile's mean; see studies/rate. Throws RangeError on a charge or cycle that is none. */
export const ratingsOfScenario = ({ candidates, scenario }: PreparedScenario, ask: RatingAsk): RatedCandidate[] =>
  candidates.map(({ name, data }) => {
    const system = realise(data);
    const simulation = simulate(system, scenario.profile);
    const hardest = hardestOf(hardestMoment(simulation, system, scenario.profile).moment);
    const { charge = STANDARD_CHARGE, cycle = STANDARD_CYCLE } = ask;
    return { name, limits: system.limits, ...rate(system, { charge, cycle, warm: meanWarmth(simulation.recorded!.trace), hardest }) };
  });
export interface RatedCandidate {
  readonly name: string;
  readonly limits: Limits;
  readonly rating: RatingResult;
  readonly partThrottle: PartThrottleResult;
}

/** The smallest cooling for each candidate that keeps its temperature limits with chance `goal`; see studies/cool. Throws RangeError on a goal outside 0 to 1. */
export const coolingOfScenario = ({ candidates, scenario }: PreparedScenario, goal?: number): CoolResult[] =>
  candidates.map((candidate) => cool(candidate, scenario.profile, scenario.objective, goal));

/** From a reading back to the hidden peak, for each candidate; see studies/reading. Throws RangeError on a reading that tells nothing. */
export const readingsOfScenario = ({ candidates, scenario }: PreparedScenario, ask: ReadingAsk): ReadingResult[] =>
  candidates.map(({ name, data }) => reading(name, data, scenario.profile, ask));
export type { ReadingAsk };

/** Long or wide from one candidate, and which winding of a frame; see studies/reshape, studies/rewind. Throw RangeError for a name that is none. */
export const reshapeOf = ({ candidates, scenario }: PreparedScenario, reference: string): ShapeResult =>
  reshape(candidates, scenario.profile, scenario.objective, reference);
export const rewindOf = ({ candidates, scenario }: PreparedScenario, names?: readonly string[]): WindingResult =>
  rewind(candidates, scenario.profile, scenario.objective, names);
