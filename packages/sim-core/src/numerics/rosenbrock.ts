/**
 * Rosenbrock's linearly implicit method of order 4(3) with dense output, for stiff systems: each step solves six linear equations with one matrix.
 *
 *   (1) (1/(hγ)·I − J)·uᵢ = f(t + αᵢh, y + Σ aᵢⱼuⱼ) + Σ (cᵢⱼ/h)·uⱼ + h·γᵢ·∂f/∂t,  J = ∂f/∂y at (t, y)
 *   (2) y⁺ = y + Σ a₅ⱼuⱼ + u₅ + u₆,  error told = u₆
 *   (3) dense output of order 3: y(t + θh) = (1 − θ)·y + θ·(y⁺ + (1 − θ)·(Σ d₂ⱼuⱼ + θ·Σ d₃ⱼuⱼ))
 *   (4) ‖e‖² = mean of (eᵢ/(absolute + relative·max(|y|, |y⁺|)))²,  next step h·min(5, max(0.2, 0.9·‖e‖^(−1/4)))
 *
 * *Holds for*: stiff and plain systems of a few states; L-stable. J and ∂f/∂t by forward differences. Restart at every break. Time runs forward.
 * *Leaves out*: sparse matrices; a Jacobian kept from step to step.
 * *Source*: E. Hairer & G. Wanner, Solving Ordinary Differential Equations II, 2nd ed., Springer 1996, IV.7 and the code RODAS, first set of
 * coefficients (from memory; the orders of step and dense output are measured by a test).
 *
 * @module
 */

import { IntegrationFailure } from './integration-failure.js';
import { allowedErrors, differences } from './jacobian.js';
import { MOST_STEPS, type OdeSystem, type StepAnswer, type StepStatistics, type StepView, type Tolerances } from './ode-system.js';
import { solveLinear } from './small-matrix.js';

const GAMMA = 0.25;
/** αᵢ and γᵢ of the first four stages; the last two stand at t + h, without ∂f/∂t. */
const ALPHA = [0, 0.386, 0.21, 0.63, 1, 1] as const;
const GAMMAS = [0.25, -0.1043, 0.1035, -0.03620000000000023, 0, 0] as const;
const A: readonly (readonly number[])[] = [
  [],
  [1.544],
  [0.9466785280815826, 0.2557011698983284],
  [3.314825187068521, 2.896124015972201, 0.9986419139977817],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895, 1],
];
const C: readonly (readonly number[])[] = [
  [],
  [-5.6688],
  [-2.430093356833875, -0.2063599157091915],
  [-0.1073529058151375, -9.594562251023355, -20.47028614809616],
  [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.7089089320616],
  [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
];
const D2 = [10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823, 1.025137723295662] as const;
const D3 = [-0.6762803392806898, 6.087714651680015, 16.43084320892478, 24.76722511418386, -6.594389125716872] as const;
const STAGES = 6;

const SAFETY = 0.9;
const LEAST_GROWTH = 0.2;
const MOST_GROWTH = 5;
/** Difference for ∂f/∂t, as a share of the step [1]. */
const EARLY = 1e-4;

/** Integrates with the method above; `state` holds y(from) and ends as the state at the end of the last accepted step. Throws IntegrationFailure. */
export function rosenbrock(
  system: OdeSystem,
  tolerances: Tolerances,
  from: number,
  state: Float64Array,
  to: number,
  accept: (step: StepView) => StepAnswer,
): StepStatistics {
  const n = system.dimension;
  const { relative, absolute } = tolerances;
  const array = (): Float64Array => new Float64Array(n);
  const [start, end, slope, other, trial, ahead, allowed] = [array(), array(), array(), array(), array(), array(), array()];
  const stages = Array.from({ length: STAGES }, array);
  const jacobian = new Float64Array(n * n);
  const matrix = new Float64Array(n * n);
  const shortest = 4 * Number.EPSILON * Math.max(Math.abs(from), Math.abs(to));
  const largest = Math.min(to - from, tolerances.largestStep ?? to - from);
  const mostSteps = tolerances.mostSteps ?? MOST_STEPS;
  const statistics: StepStatistics = { steps: 0, rejected: 0, evaluations: 0, nextStep: 0, stiff: true };
  const rate = (t: number, y: Float64Array, into: Float64Array): void => {
    system.derivative(t, y, into);
    statistics.evaluations++;
  };
  const finite = (values: Float64Array): boolean => values.every(Number.isFinite);
  const view = {
    from,
    to: from,
    start,
    end,
    at(t: number, into: Float64Array): void {
      const share = (t - view.from) / (view.to - view.from);
      const rest = 1 - share;
      for (let i = 0; i < n; i++) {
        let [second, third] = [0, 0];
        for (let j = 0; j < STAGES - 1; j++) {
          second += D2[j] * stages[j][i];
          third += D3[j] * stages[j][i];
        }
        into[i] = rest * start[i] + share * (end[i] + rest * (second + share * third));
      }
    },
  };

  let t = from;
  let wanted = Math.min(largest, tolerances.firstStep || 1e-6 * (to - from));
  let justRejected = false;
  start.set(state);
  rate(t, start, slope);
  if (!finite(slope)) throw new IntegrationFailure('derivative-not-finite', t);
  let known = false;
  while (t < to) {
    if (statistics.steps + statistics.rejected >= mostSteps) throw new IntegrationFailure('too-many-steps', t);
    const last = t + 1.01 * wanted >= to;
    const h = last ? to - t : wanted;
    if (!known) {
      allowedErrors(tolerances, start, allowed);
      differences(system, t, start, slope, allowed, jacobian, other);
      statistics.evaluations += n;
      rate(t + EARLY * h, start, ahead);
      for (let i = 0; i < n; i++) ahead[i] = (ahead[i] - slope[i]) / (EARLY * h);
      known = true;
    }
    let sound = finite(jacobian) && finite(ahead);
    for (let stage = 0; sound && stage < STAGES; stage++) {
      const u = stages[stage];
      if (stage === 0) u.set(slope);
      else {
        trial.set(start);
        for (let j = 0; j < stage; j++) for (let i = 0; i < n; i++) trial[i] += A[stage][j] * stages[j][i];
        rate(stage > 3 && last ? to : t + ALPHA[stage] * h, trial, u);
      }
      for (let i = 0; i < n; i++) {
        let sum = h * GAMMAS[stage] * ahead[i];
        for (let j = 0; j < stage; j++) sum += (C[stage][j] / h) * stages[j][i];
        u[i] += sum;
      }
      for (let k = 0; k < matrix.length; k++) matrix[k] = -jacobian[k];
      for (let i = 0; i < n; i++) matrix[i * n + i] += 1 / (h * GAMMA);
      sound = solveLinear(n, matrix, u) && finite(u);
    }
    let squares = Number.NaN;
    if (sound) {
      squares = 0;
      for (let i = 0; i < n; i++) {
        end[i] = trial[i] + stages[STAGES - 1][i];
        squares += (stages[STAGES - 1][i] / (absolute[i] + relative * Math.max(Math.abs(start[i]), Math.abs(end[i])))) ** 2;
      }
      rate(last ? to : t + h, end, other);
      if (!finite(other)) squares = Number.NaN;
    }
    const error = Math.sqrt(squares / n);
    if (error <= 1) {
      statistics.steps++;
      view.from = t;
      view.to = last ? to : t + h;
      const growth = Math.min(MOST_GROWTH, Math.max(LEAST_GROWTH, SAFETY * error ** -0.25));
      const proposed = justRejected ? Math.min(h, h * growth) : h * growth;
      wanted = Math.min(largest, last && h < wanted ? Math.max(wanted, proposed) : proposed);
      justRejected = false;
      const answer = accept(view);
      if (typeof answer === 'object') {
        statistics.steps--;
        statistics.rejected++;
        wanted = answer.retake;
        justRejected = true;
        if (wanted < shortest) throw new IntegrationFailure('step-too-small', t);
        continue;
      }
      t = view.to;
      start.set(end);
      slope.set(other);
      known = false;
      if (!answer) break;
    } else {
      statistics.rejected++;
      wanted = Number.isNaN(error) ? 0.25 * h : h * Math.max(LEAST_GROWTH, SAFETY * error ** -0.25);
      justRejected = true;
      if (wanted < shortest) throw new IntegrationFailure(Number.isNaN(error) ? 'derivative-not-finite' : 'step-too-small', t);
    }
  }
  state.set(start);
  statistics.nextStep = wanted;
  return statistics;
}
