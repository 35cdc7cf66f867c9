/**
 * Integrates a system of ordinary differential equations from one time to another or to its first event: one driver over two methods
 * that check one another, extrapolation of variable order (odex) and Dormand & Prince's method of order 5. Both are explicit. Where a call
 * takes many steps the second takes over from the first, and where stability alone sets its steps Rosenbrock's method from the second.
 *
 * @module
 */

import { type DormandPrinceWorkspace, dormandPrince } from './dormand-prince.js';
import { type EventFound, eventWatch } from './event-watch.js';
import { extrapolation } from './extrapolation.js';
import type { OdeSystem, StepAnswer, StepStatistics, StepView, Tolerances } from './ode-system.js';
import { rosenbrock } from './rosenbrock.js';

/** The method that integrates. */
export type IntegrationMethod = 'odex' | 'dormand-prince' | 'rosenbrock';

export interface IntegrationOutcome extends Readonly<StepStatistics> {
  /** time reached [s] */
  readonly time: number;
  readonly reason: 'end' | 'event';
  /** number of the first event, where one ended the integration */
  readonly event?: number;
  /** the same event and any others that fell through zero with it; empty where none did */
  readonly crossed: readonly number[];
}

const NONE: readonly number[] = [];
/** Steps of one call after which an extrapolation of high order is not at home: it finds kinks, or a stiff system. */
const MANY = 150;
/** Length of a step that is taken again, as a share of what was refused [1]. */
const RETAKEN = 0.5;

function requireSound(system: OdeSystem, tolerances: Tolerances, t0: number, y0: Float64Array, t1: number): void {
  const { relative, absolute, firstStep, largestStep, mostSteps } = tolerances;
  if (!(Number.isFinite(t0) && Number.isFinite(t1) && t1 >= t0)) {
    throw new RangeError(`An integration runs forward between finite times, not from ${t0} s to ${t1} s.`);
  }
  if (y0.length !== system.dimension || absolute.length !== system.dimension) {
    throw new RangeError(`A system of ${system.dimension} states was given ${y0.length} initial values and ${absolute.length} tolerances.`);
  }
  if (!(relative >= 0) || !absolute.every((each) => each > 0)) {
    throw new RangeError('The relative tolerance must not be negative and every absolute tolerance must be positive.');
  }
  for (const limit of [largestStep, mostSteps]) {
    if (limit !== undefined && !(limit > 0)) throw new RangeError(`A limit on steps must be positive, not ${limit}.`);
  }
  if (firstStep !== undefined && !(firstStep >= 0)) throw new RangeError(`A first step must not be negative, but is ${firstStep}.`);
  if (system.eventCount > 0 && system.margins === undefined) throw new RangeError('A system with events must tell their margins.');
}

const sum = (a: StepStatistics, b: StepStatistics): StepStatistics => ({
  steps: a.steps + b.steps,
  rejected: a.rejected + b.rejected,
  evaluations: a.evaluations + b.evaluations,
  nextStep: b.nextStep,
  stiff: b.stiff,
});

/**
 * Integrates from t0 to t1, or to the first event, and leaves the state reached in y0. Shows each accepted step, the last one cut at the
 * event, to onStep; one that it answers with false is taken again, shorter. A workspace spares the Dormand–Prince method its allocations; one integration at a time may use it.
 * Throws IntegrationFailure where it cannot go on, RangeError where tolerances or times make no sense.
 */
export function integrate(
  system: OdeSystem,
  method: IntegrationMethod,
  tolerances: Tolerances,
  t0: number,
  y0: Float64Array,
  t1: number,
  onStep?: (step: StepView) => unknown,
  workspace?: DormandPrinceWorkspace,
): IntegrationOutcome {
  requireSound(system, tolerances, t0, y0, t1);
  if (t1 === t0) {
    return {
      time: t0,
      reason: 'end',
      crossed: [],
      steps: 0,
      rejected: 0,
      evaluations: 0,
      nextStep: tolerances.firstStep ?? 0,
      stiff: false,
    };
  }
  const watch = (workspace?.watched === system ? workspace.watch : undefined) ?? eventWatch(system);
  if (workspace !== undefined) {
    workspace.watched = system;
    workspace.watch = watch;
  }
  watch.begin(t0, y0);
  let found: EventFound | undefined;
  let reached = t0;
  let left = method === 'odex' ? MANY : Number.POSITIVE_INFINITY;
  const accept = (step: StepView): StepAnswer => {
    const fell = watch.find(step);
    const taken =
      fell === undefined
        ? step
        : { from: step.from, to: fell.time, start: step.start, end: fell.state, at: (t: number, into: Float64Array) => step.at(t, into) };
    if (onStep?.(taken) === false) {
      watch.forget(step);
      return { retake: RETAKEN * (taken.to - taken.from) };
    }
    reached = step.to;
    found = fell;
    return found === undefined && --left > 0;
  };
  let statistics =
    method === 'odex'
      ? extrapolation(system, tolerances, t0, y0, t1, accept)
      : method === 'rosenbrock'
        ? rosenbrock(system, tolerances, t0, y0, t1, accept)
        : dormandPrince(system, { ...tolerances, leaveStiff: true }, t0, y0, t1, accept, workspace);
  for (const next of [dormandPrince, rosenbrock]) {
    // one takes over from the other before the end and without an event
    if (found !== undefined || reached >= t1 || (next === rosenbrock && !statistics.stiff)) continue;
    left = Number.POSITIVE_INFINITY;
    const from = { ...tolerances, leaveStiff: true, firstStep: statistics.nextStep };
    statistics = sum(statistics, next(system, from, reached, y0, t1, accept, workspace));
  }
  // written by the closure above, which control-flow analysis does not see
  const stop = found as EventFound | undefined;
  if (stop === undefined) return { ...statistics, time: t1, reason: 'end', crossed: NONE };
  y0.set(stop.state);
  return { ...statistics, time: stop.time, reason: 'event', event: stop.crossed[0], crossed: stop.crossed };
}
