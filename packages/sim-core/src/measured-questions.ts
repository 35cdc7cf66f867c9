/** A run laid against what was measured on it: whose run a log is of, the comparison, and what explains the difference. @module */

import { compareMeasured, type MeasuredPlan, planMeasured, type SampledDoubt } from './questions/measured/measured.js';
import type { RunResult } from './results/run-result.js';
import { type PreparedScenario, runScenario } from './run-scenario.js';
import { measuredSentences } from './words/measured-words.js';

export type { MeasuredPlan };

/**
 * The comparison with what was measured, before anything is drawn: whose run it was, clocks, samples; undefined where there is no log. `name` is that of
 * the candidate, the leader unless it or the scenario says. Throws RangeError where the clocks cannot be aligned.
 */
export function planMeasuredOf({ candidates, scenario }: PreparedScenario, result: RunResult, name?: string): MeasuredPlan | undefined {
  const { measured, profile } = scenario;
  const wanted = name ?? measured?.candidate;
  const input = candidates.find((each) => each.name === (wanted ?? result.ranking[0]));
  if (measured === undefined || input === undefined) return undefined;
  return wanted === undefined
    ? planMeasured(
        input,
        profile,
        measured,
        candidates.filter((each) => each !== input),
      )
    : planMeasured(input, profile, measured);
}

/** The result with the comparison: with bands where the doubt study watched it. */
export function withMeasured(result: RunResult, plan: MeasuredPlan, doubt?: SampledDoubt): RunResult {
  const measured = compareMeasured(plan, doubt);
  const { given } = plan.input;
  const parts = given.wheel === undefined ? 'the motor, the propeller or the vehicle' : 'the car, its gear or its motor';
  return { ...result, measured: { ...measured, sentences: measuredSentences(measured, parts) } };
}

/** Whose run a log is compared with. */
export interface MeasuredAsk {
  /** Name of the candidate; where it is left out, the one that the scenario names, or the leader. */
  readonly candidate?: string;
  /** A run already done, so that it is not driven again. */
  readonly result?: RunResult;
}

/**
 * The run laid against the log that the scenario names under `measured`: residuals and what explains them. Throws RangeError where there is
 * no log, no such candidate, or the clocks cannot be aligned.
 */
export function measuredOfScenario(prepared: PreparedScenario, ask: MeasuredAsk = {}): RunResult {
  const result = ask.result ?? runScenario(prepared);
  const plan = planMeasuredOf(prepared, result, ask.candidate);
  if (plan === undefined) throw new RangeError('There is no log to compare with, or no candidate of that name.');
  return withMeasured(result, plan);
}
