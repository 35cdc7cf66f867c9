/**
 * Gragg–Bulirsch–Stoer extrapolation of variable order with dense output: the package odex, with its silences turned into failures.
 *
 * *Holds for*: smooth right-hand sides; mildly stiff ones too, at the price of small steps. Time runs forward.
 * *Leaves out*: a test for stiffness.
 * *Source*: E. Hairer, S.P. Nørsett & G. Wanner, Solving Ordinary Differential Equations I, 2nd ed., Springer 1993, II.9 and the code ODEX.
 *
 * @module
 */

import { type DenseOutput, Outcome, Solver } from 'odex';
import { IntegrationFailure } from './integration-failure.js';
import { MOST_STEPS, type OdeSystem, type StepAnswer, type StepStatistics, type StepView, type Tolerances } from './ode-system.js';

/** evaluations one step may cost: nine columns of at most 34 each; beyond that the package is going in circles */
const MOST_EVALUATIONS_PER_STEP = 400;
/** accepted steps after which a cap on the step, set because a trial state had no derivatives, is lifted */
const CAPPED_STEPS = 4;
const NOT_FINITE = Symbol('a trial state without derivatives');

/** Integrates with odex; `state` holds y(from) and ends as the state at the end of the last accepted step. Throws IntegrationFailure. */
export function extrapolation(
  system: OdeSystem,
  tolerances: Tolerances,
  from: number,
  state: Float64Array,
  to: number,
  accept: (step: StepView) => StepAnswer,
): StepStatistics {
  const n = system.dimension;
  const mostSteps = tolerances.mostSteps ?? MOST_STEPS;
  const shortest = 4 * Number.EPSILON * Math.max(Math.abs(from), Math.abs(to));
  const trial = new Float64Array(n);
  const slope = new Float64Array(n);
  let dense: DenseOutput;
  const view = {
    from,
    to: from,
    start: new Float64Array(n),
    end: Float64Array.from(state),
    at(t: number, into: Float64Array) {
      for (let i = 0; i < n; i++) into[i] = dense(i, t);
    },
  };
  const statistics: StepStatistics = { steps: 0, rejected: 0, evaluations: 0, nextStep: tolerances.firstStep ?? 0, stiff: false };

  let failedAt = from;
  const derivative = (t: number, y: readonly number[]): Float64Array => {
    for (let i = 0; i < n; i++) trial[i] = y[i];
    system.derivative(t, trial, slope);
    // the package accepts a step with NaN in it, so that it must never see one
    for (let i = 0; i < n; i++) {
      if (!Number.isFinite(slope[i] + trial[i])) {
        failedAt = t;
        throw NOT_FINITE;
      }
    }
    if (++statistics.evaluations > MOST_EVALUATIONS_PER_STEP * mostSteps) throw new IntegrationFailure('too-many-steps', view.to);
    return slope;
  };

  let first = tolerances.firstStep || 1e-3 * (to - from);
  let capped = 0; // accepted steps left before the cap is lifted; 0: no cap
  let stopped = false;
  let refused = false;
  const observer = (count: number, before: number, t: number, y: readonly number[], interpolation: DenseOutput): boolean => {
    if (count === 1) return true; // the start itself
    if (!(t - before > shortest)) throw new IntegrationFailure('step-too-small', before);
    view.from = before;
    view.to = Math.abs(t - to) <= shortest ? to : t; // the package's last step may miss the end by a rounding
    view.start.set(view.end);
    for (let i = 0; i < n; i++) view.end[i] = y[i];
    dense = interpolation;
    const answer = accept(view);
    refused = typeof answer === 'object';
    if (typeof answer === 'object') {
      // as if it had not been
      statistics.rejected++;
      view.to = before;
      view.end.set(view.start);
      first = answer.retake;
      capped = CAPPED_STEPS;
      return false;
    }
    statistics.steps++;
    // the last step of a call may be cut short by its end: carry the longer of the last two
    statistics.nextStep = t < to ? t - before : Math.max(statistics.nextStep, t - before);
    first = statistics.nextStep;
    stopped = !answer;
    return !stopped && (capped === 0 || --capped > 0);
  };

  const solver = new Solver(n);
  solver.denseOutput = true;
  solver.relativeTolerance = tolerances.relative;
  solver.absoluteTolerance = Array.from(tolerances.absolute);
  const largest = tolerances.largestStep ?? to - from;
  while (!stopped && view.to < to) {
    const begin = view.to;
    // the package raises a first step below 1e-4 to that, but keeps to its largest step
    solver.initialStepSize = first;
    solver.maxStepSize = capped > 0 ? Math.min(first, largest) : largest;
    solver.maxSteps = mostSteps - statistics.steps - statistics.rejected;
    if (solver.maxSteps <= 0) throw new IntegrationFailure('too-many-steps', begin);
    try {
      const solution = solver.solve(derivative, begin, Array.from(view.end), to, observer);
      statistics.rejected += solution.nReject;
      if (solution.outcome === Outcome.MaxStepsExceeded) throw new IntegrationFailure('too-many-steps', view.to);
      if (solution.outcome === Outcome.Converged && !refused) break;
    } catch (thrown) {
      if (thrown !== NOT_FINITE) throw thrown;
      // begin again from the last good state with at most half of the step that led out
      statistics.rejected++;
      first = 0.5 * (failedAt - view.to);
      if (!(first > shortest)) throw new IntegrationFailure('derivative-not-finite', view.to);
      capped = CAPPED_STEPS;
    }
  }
  state.set(view.end);
  return statistics;
}
