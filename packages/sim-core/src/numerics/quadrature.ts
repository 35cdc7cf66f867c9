/**
 * Integrals over a step of an integrator, of quantities that follow from the state, by Gauss–Legendre quadrature on the dense output.
 *
 *   (1) ∫ q dt over a step of length h from t₀ ≈ h Σ wᵢ q(t₀ + xᵢh), exact for polynomials of degree 2n − 1
 *
 * *Holds for*: quantities that are smooth within a step; 5 points integrate the fourth-order dense output's products of two states and of
 * their rates exactly, 3 points are enough where the tolerance of the integration is coarse.
 * *Source*: M. Abramowitz & I.A. Stegun, Handbook of Mathematical Functions, 1964, table 25.4, mapped from (−1, 1) to (0, 1); closed forms.
 *
 * @module
 */

import type { StepView } from './ode-system.js';

export interface QuadratureRule {
  /** xᵢ — on 0 … 1 */
  readonly nodes: readonly number[];
  /** wᵢ — sum 1 */
  readonly weights: readonly number[];
}

/** Turns the nodes ≥ 0 of a rule on (−1, 1), greatest first, and their weights into the symmetric rule on (0, 1). */
function symmetricRule(positive: readonly number[], weights: readonly number[]): QuadratureRule {
  const mirrored = positive.filter((x) => x > 0);
  const rising = positive.toReversed().filter((x) => x > 0);
  const middle = positive.includes(0) ? [0.5] : [];
  const side = weights.slice(0, mirrored.length).map((w) => w / 2);
  const middleWeight = positive.includes(0) ? [weights[weights.length - 1] / 2] : [];
  return {
    nodes: [...mirrored.map((x) => (1 - x) / 2), ...middle, ...rising.map((x) => (1 + x) / 2)],
    weights: [...side, ...middleWeight, ...side.toReversed()],
  };
}

export const GAUSS_LEGENDRE_3: QuadratureRule = symmetricRule([Math.sqrt(3 / 5), 0], [5 / 9, 8 / 9]);

export const GAUSS_LEGENDRE_5: QuadratureRule = symmetricRule(
  [Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, 0],
  [(322 - 13 * Math.sqrt(70)) / 900, (322 + 13 * Math.sqrt(70)) / 900, 128 / 225],
);

/** Work arrays for `addStepIntegrals`; make them once. */
export interface QuadratureWorkspace {
  readonly state: Float64Array;
  readonly integrands: Float64Array;
}

export function quadratureWorkspace(dimension: number, quantities: number): QuadratureWorkspace {
  return { state: new Float64Array(dimension), integrands: new Float64Array(quantities) };
}

/** (1): adds the integrals over the step of what `quantities` writes to the sums. Throws RangeError where one is not a number. */
export function addStepIntegrals(
  step: StepView,
  rule: QuadratureRule,
  quantities: (t: number, y: Float64Array, out: Float64Array) => void,
  sums: Float64Array,
  workspace: QuadratureWorkspace,
): void {
  const { state, integrands } = workspace;
  const { nodes, weights } = rule;
  const length = step.to - step.from;
  for (let point = 0; point < nodes.length; point++) {
    const t = step.from + length * nodes[point];
    step.at(t, state);
    quantities(t, state, integrands);
    const weight = length * weights[point];
    for (let i = 0; i < sums.length; i++) sums[i] = sums[i] + weight * integrands[i];
  }
  for (let i = 0; i < sums.length; i++) {
    if (Number.isNaN(sums[i])) throw new RangeError(`Integral ${i + 1} is not a number on the step from ${step.from} s to ${step.to} s.`);
  }
}
