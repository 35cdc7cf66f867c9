/**
 * Every question but the run itself, asked of a prepared scenario: how sure, why, ratings, cooling, readings, shapes, windings, points.
 *
 * @module
 */

import type { Limits } from './drive/drive-system.js';
import { named } from './problems/certain.js';
import { realise } from './provenance/realise.js';
import { audit } from './questions/audit/audit.js';
import { cool } from './questions/cool.js';
import { costlyNumbers } from './questions/doubt/costly-numbers.js';
import { BODY_WORDS, bodyInQuestion } from './questions/doubt/curves.js';
import { gatherDoubt } from './questions/doubt/gather.js';
import { type DoubtAsk, type DoubtPlan, planDoubt } from './questions/doubt/plan.js';
import { type DoubtJob, jobsOf, workDoubt } from './questions/doubt/sample.js';
import { judged } from './questions/judge/judged.js';
import { compareMeasured, type MeasuredPlan, planMeasured } from './questions/measured/measured.js';
import { type PointAsk, type PointResult, pointWithBands } from './questions/point.js';
import { meanWarmth, rate, STANDARD_CHARGE, STANDARD_CYCLE } from './questions/rate/rate.js';
import { type ReadingAsk, reading } from './questions/reading.js';
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
import type { PartThrottleResult } from './results/part-throttle-result.js';
import type { RatingResult } from './results/rating-result.js';
import type { ReadingResult } from './results/reading-result.js';
import type { CandidateResult, RunResult } from './results/run-result.js';
import type { ShapeResult } from './results/shape-result.js';
import type { WhyResult } from './results/why-result.js';
import type { WindingResult } from './results/winding-result.js';
import type { PreparedScenario } from './run-scenario.js';
import { measuredSentences } from './words/measured-words.js';

/** Beside the run, how sure it is: the plan, its jobs worked anywhere in any order, and the rows, joined in order, read into the result. */
export const planDoubtOf = ({ candidates, scenario }: PreparedScenario, ask: DoubtAsk): DoubtPlan =>
  planDoubt(candidates, scenario.profile, scenario.objective, ask);
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

/**
 * The comparison with what was measured, before anything is drawn: whose run it was, clocks, samples; undefined where there is no log. `name` is that of
 * the candidate, the leader unless it or the scenario says. Throws RangeError where the clocks cannot be aligned.
 */
export function planMeasuredOf({ candidates, scenario }: PreparedScenario, result: RunResult, name?: string): MeasuredPlan | undefined {
  const { measured, profile } = scenario;
  const wanted = name ?? measured?.candidate;
  const input = candidates.find((each) => each.name === (wanted ?? result.ranking[0]));
  return measured === undefined || input === undefined ? undefined : planMeasured(input, profile, measured, wanted !== undefined);
}

/** The result with the comparison, and with its bands where the doubt study watched it. */
export function withMeasured(
  result: RunResult,
  plan: MeasuredPlan,
  doubt?: { readonly plan: DoubtPlan; readonly rows: Float64Array },
): RunResult {
  const measured = compareMeasured(plan, doubt);
  const { given } = plan.input;
  const parts = given.wheel === undefined ? 'the motor, the propeller or the vehicle' : 'the car, its gear or its motor';
  return { ...result, measured: { ...measured, sentences: measuredSentences(measured, parts) } };
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

/** The result with the numbers that cost its answer most, and where each tips it; see questions/costly-numbers. */
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

/** What `check` tells of a scenario that is right. */
export interface ScenarioCheck {
  readonly audit: AuditResult;
  readonly costly: CostlyResult;
  /** Data that were not given. */
  readonly assumptions: readonly Assumption[];
}

/** Audit, costly numbers and assumptions; see questions/audit, questions/costly-numbers. */
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

/** Steady points of all candidates, with how sure they are; see questions/point. */
export function pointsOfScenario({ candidates, scenario }: PreparedScenario, ask: PointAsk): PointResult[] {
  const plan = planDoubt(candidates, scenario.profile, scenario.objective, { samples: POINT_SAMPLES, seed: 1 });
  return candidates.map((candidate) => pointWithBands(candidate, ask, plan));
}
export type { DoubtAsk, DoubtJob, DoubtPlan, MeasuredPlan, PointAsk, PointResult, ReadingAsk };
export { jobsOf };

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

/** How a rating is asked for from outside: charge and cycle, where they are not the standard ones. */
export interface RatingAsk {
  readonly charge?: number;
  readonly cycle?: number;
}

/** Ratings of all candidates, warm meaning the profile's mean; see questions/rate. Throws RangeError on a charge or cycle that is none. */
export const ratingsOfScenario = ({ candidates, scenario }: PreparedScenario, ask: RatingAsk): RatedCandidate[] =>
  candidates.map(({ name, data }) => {
    const system = realise(data);
    const simulation = simulate(system, scenario.profile);
    const hardest = hardestOf(hardestMoment(simulation, system, scenario.profile).moment);
    const { charge = STANDARD_CHARGE, cycle = STANDARD_CYCLE } = ask;
    return { name, limits: system.limits, ...rate(system, { charge, cycle, warm: meanWarmth(recordingOf(simulation).trace), hardest }) };
  });
export interface RatedCandidate {
  readonly name: string;
  readonly limits: Limits;
  readonly rating: RatingResult;
  readonly partThrottle: PartThrottleResult;
}

/** The smallest cooling for each candidate that keeps its temperature limits with chance `goal`; see questions/cool. Throws RangeError on a goal outside 0 to 1. */
export const coolingOfScenario = ({ candidates, scenario }: PreparedScenario, goal?: number): CoolResult[] =>
  candidates.map((candidate) => cool(candidate, scenario.profile, scenario.objective, goal));

/** From a reading back to the hidden peak, for each candidate; see questions/reading. Throws RangeError on a reading that tells nothing. */
export const readingsOfScenario = ({ candidates, scenario }: PreparedScenario, ask: ReadingAsk): ReadingResult[] =>
  candidates.map(({ name, data }) => reading(name, data, scenario.profile, ask));

/** Long or wide from one candidate, and which winding of a frame; see questions/reshape, questions/rewind. Throw RangeError for a name that is none. */
export const reshapeOf = ({ candidates, scenario }: PreparedScenario, reference: string): ShapeResult =>
  reshape(candidates, scenario.profile, scenario.objective, reference);
export const rewindOf = ({ candidates, scenario }: PreparedScenario, names?: readonly string[]): WindingResult =>
  rewind(candidates, scenario.profile, scenario.objective, names);
