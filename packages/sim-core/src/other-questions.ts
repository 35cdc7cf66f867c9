/**
 * Every question but the run itself, asked of a prepared scenario: how sure, why, ratings, cooling, readings, shapes, windings, points.
 * What is asked of a log stands in measured-questions.ts, of a bench in bench-questions.ts.
 *
 * @module
 */

import type { Limits } from './drive/drive-system.js';
import { named } from './problems/certain.js';
import { realise } from './provenance/realise.js';
import { audit } from './questions/audit/audit.js';
import type { RunInput } from './questions/candidate.js';
import { cool } from './questions/cool.js';
import { costlyNumbers, type NumberLooks } from './questions/doubt/costly-numbers.js';
import { BODY_WORDS, bodyInQuestion } from './questions/doubt/curves.js';
import { gatherDoubt } from './questions/doubt/gather.js';
import { type DoubtAsk, type DoubtPlan, planDoubt } from './questions/doubt/plan.js';
import { type DoubtJob, jobsOf, workDoubt } from './questions/doubt/sample.js';
import { judged } from './questions/judge/judged.js';
import { type PointAsk, type PointResult, pointWithBands } from './questions/point.js';
import { meanWarmth, rate, STANDARD_CHARGE, STANDARD_CYCLE } from './questions/rate/rate.js';
import { type ReadingAsk, reading } from './questions/readings/reading.js';
import { assumptionsOf } from './questions/run/assumptions.js';
import { hardestMoment } from './questions/run/hardest-moment.js';
import { runCandidate } from './questions/run/run.js';
import { reshape } from './questions/shape/reshape.js';
import { rewind } from './questions/shape/rewind.js';
import { recordingOf, simulate } from './questions/simulate/simulate.js';
import { why } from './questions/why/why.js';
import type { Assumption } from './results/assumption.js';
import type { AuditResult } from './results/audit-result.js';
import type { CoolResult } from './results/cool-result.js';
import type { CostlyResult } from './results/costly-result.js';
import type { Contradiction } from './results/finding.js';
import { HEADLINE_IDS } from './results/headlines.js';
import type { PartThrottleResult } from './results/part-throttle-result.js';
import type { RatingResult } from './results/rating-result.js';
import type { ReadingResult } from './results/reading-result.js';
import type { ReadingsResult } from './results/readings-result.js';
import type { CandidateResult, RunResult } from './results/run-result.js';
import type { ShapeResult } from './results/shape-result.js';
import type { WhyResult } from './results/why-result.js';
import type { WindingResult } from './results/winding-result.js';
import { type PreparedScenario, runScenario } from './run-scenario.js';

export type { DoubtAsk, DoubtJob, DoubtPlan, PointAsk, PointResult, ReadingAsk };
export { jobsOf };

/** How sure a run is. */
export interface RunDoubtAsk {
  /** Number of draws, 16 or more; 64 where it is left out [1]. */
  readonly samples?: number;
  /** Whole number from 0 to 2³² − 1 that decides the draws; 1 where it is left out [1]. */
  readonly seed?: number;
  /** A run already done, so that it is not driven again. */
  readonly result?: RunResult;
}

/** Draws that are usual where nothing is said. */
const USUAL_DRAWS: DoubtAsk = { samples: 64, seed: 1 };

/**
 * The run with how sure it is: `doubt`, bands beside the headline figures, and the verdict in chances. All draws on this thread, some tenths
 * of a second for a candidate; `planDoubtOf`, `workDoubtOf` and `withDoubt` spread them over several. Throws RangeError for fewer than 16 draws or a seed
 * out of range.
 */
export function doubtOfScenario(prepared: PreparedScenario, ask: RunDoubtAsk = {}): RunResult {
  const { samples = USUAL_DRAWS.samples, seed = USUAL_DRAWS.seed } = ask;
  const plan = planDoubtOf(prepared, { samples, seed });
  const rows = workDoubtOf(prepared, plan, { from: 0, to: plan.samples });
  return withDoubt(ask.result ?? runScenario(prepared), plan, rows);
}

/** The plan of the draws: the same plan, made anywhere, draws the same. Throws RangeError as `doubtOfScenario` does. */
export const planDoubtOf = ({ candidates, scenario }: PreparedScenario, ask: DoubtAsk): DoubtPlan =>
  planDoubt(candidates, scenario.profile, scenario.objective, ask);
/** One share of the draws, worked anywhere and in any order; the rows of all shares, joined in order, are what `withDoubt` reads. */
export const workDoubtOf = ({ candidates }: PreparedScenario, plan: DoubtPlan, job: DoubtJob): Float64Array =>
  workDoubt(plan, candidates, job);

/** The result with how sure it is, read from the rows of all the plan's draws. Throws RangeError where rows are missing. */
export function withDoubt(result: RunResult, plan: DoubtPlan, rows: Float64Array): RunResult {
  const { doubt, bands } = gatherDoubt(plan, rows, result.candidates, result.ranking);
  const candidates = result.candidates.map((candidate) => {
    const own = bands.get(candidate.name) ?? {};
    const banded = HEADLINE_IDS.flatMap((id) => {
      const [figure, band] = [candidate.headline[id], own[id]];
      return figure === undefined || band === undefined ? [] : [[id, { ...figure, band }] as const];
    });
    return { ...candidate, headline: { ...candidate.headline, ...Object.fromEntries(banded) } };
  });
  return judged({ ...result, candidates, doubt });
}

/** Which two are compared. */
export interface WhyAsk {
  /** Name of the candidate that is taken for granted; the runner-up where it is left out. */
  readonly from?: string;
  /** Name of the candidate that is explained; the leader where it is left out. */
  readonly to?: string;
  /** Whether the time that each lasts is explained too, which takes a second set of runs; not where it is left out. */
  readonly lasting?: boolean;
  /** A run already done, so that it is not driven again. */
  readonly result?: RunResult;
}

/**
 * Why one candidate differs from another: the difference shared out among the parts that differ; the body whose temperature is split is the
 * one that the verdict speaks of. Throws RangeError for an unknown name, and where there is only one candidate.
 */
export function whyOfScenario(prepared: PreparedScenario, ask: WhyAsk = {}): WhyResult {
  const { candidates, scenario } = prepared;
  const result = ask.result ?? runScenario(prepared);
  const { to = result.ranking[0], from = result.ranking.find((name) => name !== to) } = ask;
  if (from === undefined) throw new RangeError('There is one candidate only, and nothing to compare it with.');
  const [a, b] = [from, to].map((name) => candidateOf(candidates, name));
  const body = bodyInQuestion(
    result.candidates.filter(({ name }) => name === from || name === to),
    scenario.objective,
  );
  return why(a, b, scenario.profile, { body, bodyWords: BODY_WORDS[body], ...(ask.lasting === undefined ? {} : { lasting: ask.lasting }) });
}

function candidateOf(candidates: readonly RunInput[], name: string): RunInput {
  const candidate = candidates.find((each) => each.name === name);
  if (candidate === undefined) throw new RangeError(`There is no candidate named ${name}.`);
  return candidate;
}

/** The result with the numbers that cost its answer most, and where each tips it; see questions/costly-numbers. `looks` gathers what a log is explained by: that of a MeasuredPlan. */
export function withCostly({ candidates, scenario }: PreparedScenario, result: RunResult, looks?: NumberLooks): RunResult {
  const costlyAt = (relative?: number): CostlyResult =>
    costlyNumbers(candidates, scenario.profile, scenario.objective, relative, relative === undefined ? looks : undefined);
  const quick = costlyAt();
  // candidates so close that the quick integration ranks them otherwise are looked at as closely as the run was
  return judged({ ...result, costly: quick.ranking[0] === result.ranking[0] ? quick : costlyAt(1e-6) });
}

/** The leader explained against the runner-up; the result as it is where there is only one candidate. */
export function withWhy(prepared: PreparedScenario, result: RunResult): RunResult {
  const [leader, second] = result.ranking;
  return second === undefined ? result : { ...result, why: whyOfScenario(prepared, { from: second, to: leader, result }) };
}

/** What is told of a scenario that is right, before it is run for good. */
export interface ScenarioCheck {
  /** What is odd about the sheets. */
  readonly audit: AuditResult;
  /** The numbers that cost the answer most. */
  readonly costly: CostlyResult;
  /** Data that were not given. */
  readonly assumptions: readonly Assumption[];
  /** What was read, and what it contradicts. */
  readonly readings?: ReadingsResult;
  readonly findings?: readonly Contradiction[];
}

/** What is odd, which numbers cost the answer most, what was assumed; some tenths of a second for a candidate. */
export function checkScenario({ scenario, candidates, written, lesson }: PreparedScenario): ScenarioCheck {
  const runs = candidates.map((candidate) => runCandidate(candidate, scenario.profile, { method: 'dormand-prince', relative: 1e-4 }));
  return {
    audit: audit(written, runs),
    costly: costlyNumbers(candidates, scenario.profile, scenario.objective),
    assumptions: assumptionsOf(candidates),
    ...(lesson === undefined ? {} : { readings: lesson.result, findings: lesson.findings }),
  };
}

/** Draws behind the bands of a point. */
const POINT_SAMPLES = 64;

/**
 * The steady point of each candidate with one thing held, the pack and all temperatures as the scenario starts, and how sure it is. Out of reach is
 * `reached: false` with the nearest that full throttle gives.
 */
export function pointsOfScenario({ candidates, scenario }: PreparedScenario, ask: PointAsk): PointResult[] {
  const plan = planDoubt(candidates, scenario.profile, scenario.objective, { samples: POINT_SAMPLES, seed: 1 });
  return candidates.map((candidate) => pointWithBands(candidate, ask, plan));
}
/** The result with each candidate's ratings and part throttle, at half charge, “warm” meaning the run's mean. */
export const withRatings = ({ candidates }: PreparedScenario, result: RunResult): RunResult => ({
  ...result,
  candidates: result.candidates.map((run) => {
    const { data } = named(candidates, run.name);
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

/** How ratings are asked for. */
export interface RatingAsk {
  /** State of charge at which the pack is held, above 0 to 1 [1]; a half where it is left out. */
  readonly charge?: number;
  /** Length of a cycle of intermittent duty [s]; ten minutes where it is left out. */
  readonly cycle?: number;
}

/**
 * What each candidate may do for ever, for seconds and in bursts on the scenario's own load, “warm” meaning the profile's mean; some tenths of
 * a second for a candidate. Throws RangeError for a charge or a cycle out of range.
 */
export const ratingsOfScenario = ({ candidates, scenario }: PreparedScenario, ask: RatingAsk = {}): RatedCandidate[] =>
  candidates.map(({ name, data }) => {
    const system = realise(data);
    const simulation = simulate(system, scenario.profile);
    const hardest = hardestOf(hardestMoment(simulation, system, scenario.profile).moment);
    const { charge = STANDARD_CHARGE, cycle = STANDARD_CYCLE } = ask;
    return { name, limits: system.limits, ...rate(system, { charge, cycle, warm: meanWarmth(recordingOf(simulation).trace), hardest }) };
  });

/** One candidate's ratings. */
export interface RatedCandidate {
  readonly name: string;
  /** What must not be passed, the numbers as nominal. */
  readonly limits: Limits;
  readonly rating: RatingResult;
  readonly partThrottle: PartThrottleResult;
}

/** How cooling is asked for. */
export interface CoolingAsk {
  /** Chance with which the temperature limits are to be kept, between 0 and 1 [1]; the usual one of questions/cool where it is left out. */
  readonly goal?: number;
}

/** The smallest cooling for each candidate that keeps its temperature limits with a chance. Seconds for a candidate. Throws RangeError for a goal outside 0 to 1. */
export const coolingOfScenario = ({ candidates, scenario }: PreparedScenario, { goal }: CoolingAsk = {}): CoolResult[] =>
  candidates.map((candidate) => cool(candidate, candidates, scenario.profile, scenario.objective, goal));

/** From a thermometer's reading after the stop back to the hidden peak, for each candidate. Throws RangeError for a reading that tells nothing. */
export const readingsOfScenario = ({ candidates, written, taken, scenario }: PreparedScenario, ask: ReadingAsk): ReadingResult[] =>
  candidates.map(({ name }) => reading(written, taken, name, scenario.profile, ask));

/** Which candidate a family of shapes starts from. */
export interface ShapeAsk {
  /** Its name. */
  readonly reference: string;
}

/** Longer or wider: the family of motors of one volume about a candidate, driven over the profile. Throws RangeError for an unknown name. */
export const shapesOfScenario = ({ candidates, scenario }: PreparedScenario, { reference }: ShapeAsk): ShapeResult =>
  reshape(candidates, scenario.profile, scenario.objective, reference);

/** Whose windings are tried. */
export interface WindingAsk {
  /** Names of candidates; all of them where it is left out. */
  readonly names?: readonly string[];
}

/** Which winding of a frame suits: each candidate with more and with fewer turns, driven over the profile. Throws RangeError for an unknown name. */
export const windingsOfScenario = ({ candidates, scenario }: PreparedScenario, { names }: WindingAsk = {}): WindingResult =>
  rewind(candidates, scenario.profile, scenario.objective, names);
