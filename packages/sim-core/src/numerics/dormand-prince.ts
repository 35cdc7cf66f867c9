/**
 * Explicit Runge–Kutta method of order 5(4) with dense output, step control and a test for stiffness, on typed arrays without
 * allocation per step.
 *
 *   (1) y₁ = y₀ + h Σ bᵢ kᵢ,  kᵢ = f(t₀ + cᵢh, y₀ + h Σ aᵢⱼ kⱼ),  k₇ = f(t₁, y₁) is the next step's k₁
 *   (2) err = √( (1/n) Σ (h Σ eᵢ kᵢ / (absolute + relative·max(|y₀|, |y₁|)))² ), accepted where err ≤ 1
 *   (3) h_new = h · min(10, max(0.2, 0.9 · err^−0.17 · err_before^0.04))
 *   (4) y(t₀ + θh) = y₀ + θ(Δ + (1 − θ)(b + θ(c + (1 − θ)d))), of order 4
 *   (5) mean h·|λ| of the fastest part of the system, every so many steps; above 2 stability, not accuracy, sets the step
 *
 * *Holds for*: smooth right-hand sides between the ends of a call; restart at every break. Time runs forward.
 * *Leaves out*: stiff systems, which it integrates at the price of small steps, reports as stiff and, if asked to, leaves to an implicit method.
 * *Source*: J.R. Dormand & P.J. Prince, "A family of embedded Runge–Kutta formulae", J. Comp. Appl. Math. 6, 1980, table 2;
 * E. Hairer, S.P. Nørsett & G. Wanner, Solving Ordinary Differential Equations I, 2nd ed., Springer 1993: II.4 eq. (4.11)–(4.14) and
 * starting step, II.6 dense output; step control as in Solving ODEs II, 2nd ed., IV.2. (5) looks at the Jacobian in
 * place of the quotient given there, which a step control at rest just within the border of stability, or thrown about it, does not show.
 *
 * @module
 */

import type { EventWatch } from './event-watch.js';
import { IntegrationFailure } from './integration-failure.js';
import { allowedErrors, differences, fastestRate } from './jacobian.js';
import { MOST_STEPS, type OdeSystem, type StepAnswer, type StepStatistics, type StepView, type Tolerances } from './ode-system.js';

const [C2, C3, C4, C5] = [1 / 5, 3 / 10, 4 / 5, 8 / 9];
const A21 = 1 / 5;
const [A31, A32] = [3 / 40, 9 / 40];
const [A41, A42, A43] = [44 / 45, -56 / 15, 32 / 9];
const [A51, A52, A53, A54] = [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729];
const [A61, A62, A63, A64, A65] = [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656];
const [B1, B3, B4, B5, B6] = [35 / 384, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84];
const [E1, E3, E4, E5, E6, E7] = [71 / 57600, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];
const [D1, D3, D4, D5, D6, D7] = [
  -12715105075 / 11282082432,
  87487479700 / 32700410799,
  -10690763975 / 1880347072,
  701980252875 / 199316789632,
  -1453857185 / 822651844,
  69997945 / 29380423,
];

const SAFETY = 0.9;
const LOG_SAFETY = Math.log(SAFETY);
const ERROR_EXPONENT = 0.17;
const MEMORY_EXPONENT = 0.04;
/** logarithm of the least error that is remembered, 1e-4 */
const LEAST_LOG_ERROR = Math.log(1e-4);
const LEAST_GROWTH = 0.2;
const MOST_GROWTH = 10;
/** h·|λ| that accuracy alone rarely asks for; the border of stability of (1) along the negative real axis is 3.3 */
const STABILITY_BORDER = 2;
/** Steps after which (5) is looked at, and between looks: nine evaluations in a hundred and fifty. */
const LOOK_EVERY = 25;
/** Steps that must be left for another method to be worth its start. */
const WORTH_LEAVING = 30;

/** Work arrays of one integration at a time; make one per dimension and reuse it from call to call. */
export interface DormandPrinceWorkspace {
  readonly dimension: number;
  readonly k1: Float64Array;
  readonly k2: Float64Array;
  readonly k3: Float64Array;
  readonly k4: Float64Array;
  readonly k5: Float64Array;
  readonly k6: Float64Array;
  readonly k7: Float64Array;
  /** state of the stage last tried; of the sixth stage once a step is complete */
  readonly stage: Float64Array;
  /** the coefficients Δ, b, c, d of (4), state by state */
  readonly dense: Float64Array;
  densePrepared: boolean;
  /** the driver's watch over the events of the system last integrated */
  watched?: OdeSystem;
  watch?: EventWatch;
  readonly view: StepView & { from: number; to: number };
}

export function dormandPrinceWorkspace(dimension: number): DormandPrinceWorkspace {
  const array = () => new Float64Array(dimension);
  const [k1, k7] = [array(), array()];
  const view = {
    from: 0,
    to: 0,
    start: array(),
    end: array(),
    startSlope: k1,
    endSlope: k7,
    at: (t: number, into: Float64Array) => interpolate(workspace, t, into),
  };
  const workspace: DormandPrinceWorkspace = {
    dimension,
    k1,
    k2: array(),
    k3: array(),
    k4: array(),
    k5: array(),
    k6: array(),
    k7,
    stage: array(),
    dense: new Float64Array(4 * dimension),
    densePrepared: false,
    view,
  };
  return workspace;
}

/** (4): the coefficients, made once per step and only when asked for. */
function prepareDense(workspace: DormandPrinceWorkspace): void {
  const { k1, k3, k4, k5, k6, k7, dense, view, dimension } = workspace;
  const { start, end } = view;
  const h = view.to - view.from;
  for (let i = 0, j = 0; i < dimension; i++, j += 4) {
    const difference = end[i] - start[i];
    const bend = h * k1[i] - difference;
    dense[j] = difference;
    dense[j + 1] = bend;
    dense[j + 2] = difference - h * k7[i] - bend;
    dense[j + 3] = h * (D1 * k1[i] + D3 * k3[i] + D4 * k4[i] + D5 * k5[i] + D6 * k6[i] + D7 * k7[i]);
  }
  workspace.densePrepared = true;
}

/** (4) */
function interpolate(workspace: DormandPrinceWorkspace, t: number, into: Float64Array): void {
  if (!workspace.densePrepared) prepareDense(workspace);
  const { dense, view, dimension } = workspace;
  const { start, from, to } = view;
  const theta = (t - from) / (to - from);
  const rest = 1 - theta;
  for (let i = 0, j = 0; i < dimension; i++, j += 4) {
    into[i] = start[i] + theta * (dense[j] + rest * (dense[j + 1] + theta * (dense[j + 2] + rest * dense[j + 3])));
  }
}

/** The starting step of Hairer, Nørsett & Wanner, II.4: an Euler step that changes f little. k1 holds f(t, y); k2 and stage are overwritten. */
function startingStep(system: OdeSystem, tolerances: Tolerances, t: number, y: Float64Array, span: number, work: DormandPrinceWorkspace) {
  const { k1, k2, stage, dimension } = work;
  const { relative, absolute } = tolerances;
  let size = 0;
  let slope = 0;
  for (let i = 0; i < dimension; i++) {
    const scale = absolute[i] + relative * Math.abs(y[i]);
    size += (y[i] / scale) ** 2;
    slope += (k1[i] / scale) ** 2;
  }
  const euler = Math.min(span, size <= 1e-10 || slope <= 1e-10 ? 1e-6 * span : 0.01 * Math.sqrt(size / slope));
  for (let i = 0; i < dimension; i++) stage[i] = y[i] + euler * k1[i];
  system.derivative(t + euler, stage, k2);
  let change = 0;
  for (let i = 0; i < dimension; i++) change += ((k2[i] - k1[i]) / (absolute[i] + relative * Math.abs(y[i]))) ** 2;
  const curvature = Math.max(Math.sqrt(change) / euler, Math.sqrt(slope));
  const step = curvature <= 1e-15 ? Math.max(1e-6 * span, 1e-3 * euler) : (0.01 / curvature) ** 0.2;
  const first = Math.min(100 * euler, step, span);
  // an Euler step into a region without derivatives says nothing about the scale: begin with it, trial steps are halved anyway
  return first > 0 ? first : euler;
}

/** Integrates with the method above; `state` holds y(from) and ends as the state at the end of the last accepted step. Throws IntegrationFailure. */
export function dormandPrince(
  system: OdeSystem,
  tolerances: Tolerances,
  from: number,
  state: Float64Array,
  to: number,
  accept: (step: StepView) => StepAnswer,
  workspace: DormandPrinceWorkspace = dormandPrinceWorkspace(system.dimension),
): StepStatistics {
  const n = system.dimension;
  const { k1, k2, k3, k4, k5, k6, k7, stage, view } = workspace;
  const { start, end } = view;
  const { relative, absolute } = tolerances;
  const largest = Math.min(to - from, tolerances.largestStep ?? to - from);
  const shortest = 4 * Number.EPSILON * Math.max(Math.abs(from), Math.abs(to));
  const mostSteps = tolerances.mostSteps ?? MOST_STEPS;

  let t = from;
  system.derivative(t, state, k1);
  let evaluations = 1;
  for (let i = 0; i < n; i++) if (!Number.isFinite(k1[i] + state[i])) throw new IntegrationFailure('derivative-not-finite', t);
  let wanted: number;
  if (!tolerances.firstStep) {
    wanted = startingStep(system, tolerances, t, state, largest, workspace);
    evaluations++;
  } else {
    wanted = Math.min(tolerances.firstStep, largest);
  }

  let steps = 0;
  let rejected = 0;
  let logBefore = LEAST_LOG_ERROR;
  let justRejected = false;
  let lookedAt = from;
  let looks: { readonly allowed: Float64Array; readonly jacobian: Float64Array; readonly square: Float64Array } | undefined;
  let stiff = false;
  let going = true;
  start.set(state);
  while (going) {
    if (steps + rejected >= mostSteps) throw new IntegrationFailure('too-many-steps', t);
    // a step within 1 % of the end, or that would leave a remnant, goes to the end exactly
    const last = t + 1.01 * wanted >= to;
    const h = last ? to - t : wanted;

    for (let i = 0; i < n; i++) stage[i] = start[i] + h * A21 * k1[i];
    system.derivative(t + C2 * h, stage, k2);
    for (let i = 0; i < n; i++) stage[i] = start[i] + h * (A31 * k1[i] + A32 * k2[i]);
    system.derivative(t + C3 * h, stage, k3);
    for (let i = 0; i < n; i++) stage[i] = start[i] + h * (A41 * k1[i] + A42 * k2[i] + A43 * k3[i]);
    system.derivative(t + C4 * h, stage, k4);
    for (let i = 0; i < n; i++) stage[i] = start[i] + h * (A51 * k1[i] + A52 * k2[i] + A53 * k3[i] + A54 * k4[i]);
    system.derivative(t + C5 * h, stage, k5);
    for (let i = 0; i < n; i++) stage[i] = start[i] + h * (A61 * k1[i] + A62 * k2[i] + A63 * k3[i] + A64 * k4[i] + A65 * k5[i]);
    const after = last ? to : t + h;
    system.derivative(after, stage, k6);
    for (let i = 0; i < n; i++) end[i] = start[i] + h * (B1 * k1[i] + B3 * k3[i] + B4 * k4[i] + B5 * k5[i] + B6 * k6[i]);
    system.derivative(after, end, k7);
    evaluations += 6;

    let squares = 0;
    for (let i = 0; i < n; i++) {
      const scale = absolute[i] + relative * Math.max(Math.abs(start[i]), Math.abs(end[i]));
      // k₂ has no weight in the error, but must be finite too: 0 · NaN and 0 · ∞ are NaN
      const e = h * (E1 * k1[i] + 0 * k2[i] + E3 * k3[i] + E4 * k4[i] + E5 * k5[i] + E6 * k6[i] + E7 * k7[i]);
      squares += (e / scale) * (e / scale);
    }
    // one logarithm and one exponential are a fifth of two general powers
    const logError = 0.5 * Math.log(squares / n);

    if (logError <= 0) {
      steps++;
      view.from = t;
      view.to = after;
      workspace.densePrepared = false;
      const factor = Math.min(
        MOST_GROWTH,
        Math.max(LEAST_GROWTH, Math.exp(LOG_SAFETY + MEMORY_EXPONENT * logBefore - ERROR_EXPONENT * logError)),
      );
      const proposed = justRejected ? Math.min(h, h * factor) : h * factor;
      // a step cut short by the end does not shorten the step carried to the next call
      wanted = Math.min(largest, last && h < wanted ? Math.max(wanted, proposed) : proposed);
      logBefore = Math.max(logError, LEAST_LOG_ERROR);
      justRejected = false;
      if (steps % LOOK_EVERY === 0 && to - after > WORTH_LEAVING * h) {
        looks ??= { allowed: new Float64Array(n), jacobian: new Float64Array(n * n), square: new Float64Array(n * n) };
        allowedErrors(tolerances, end, looks.allowed);
        stage.set(end);
        differences(system, after, stage, k7, looks.allowed, looks.jacobian, k2);
        evaluations += n;
        stiff = ((after - lookedAt) / LOOK_EVERY) * fastestRate(n, looks.jacobian, looks.allowed, looks.square) > STABILITY_BORDER;
        lookedAt = after;
      }
      const answer = accept(view);
      if (typeof answer === 'object') {
        steps--;
        rejected++;
        wanted = answer.retake;
        justRejected = true;
        if (wanted < shortest) throw new IntegrationFailure('step-too-small', t);
        continue;
      }
      going = answer && !last && !(stiff && tolerances.leaveStiff);
      t = after;
      for (let i = 0; i < n; i++) {
        start[i] = end[i];
        k1[i] = k7[i];
      }
    } else {
      rejected++;
      const finite = logError < Number.POSITIVE_INFINITY;
      wanted = finite ? h * Math.max(LEAST_GROWTH, Math.exp(LOG_SAFETY - ERROR_EXPONENT * logError)) : 0.5 * h;
      justRejected = true;
      if (wanted < shortest) throw new IntegrationFailure(finite ? 'step-too-small' : 'derivative-not-finite', t);
    }
  }
  state.set(start);
  return { steps, rejected, evaluations, nextStep: wanted, stiff };
}
