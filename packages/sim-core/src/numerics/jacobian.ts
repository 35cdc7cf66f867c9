/**
 * How the rates of a system change with its states, by forward differences, and how fast its fastest part moves.
 *
 *   (1) Jᵢⱼ ≈ (fᵢ(t, y + δⱼ) − fᵢ(t, y))/δⱼ,  δⱼ a tenth of the error allowed of state j
 *   (2) largest |λ| of J ≤ ‖(D⁻¹·J·D)^8‖^(1/8), D the errors allowed, so that states of different units are counted alike
 *
 * *Holds for*: smooth laws; the difference lies far above what solved laws leave of noise and far below what they bend in. (2) is an upper bound,
 * for a matrix that is far from normal by up to the eighth root of that distance.
 * *Source* R.A. Horn & C.R. Johnson, Matrix Analysis, 2nd ed., corollary 5.6.14 (the root of a power's norm goes to the spectral radius).
 *
 * @module
 */

import type { OdeSystem, Tolerances } from './ode-system.js';
import { multiply } from './small-matrix.js';

const NUDGE = 0.1;

/** Error allowed of each state at y, into `into`. */
export function allowedErrors({ relative, absolute }: Tolerances, y: Float64Array, into: Float64Array): void {
  for (let i = 0; i < y.length; i++) into[i] = absolute[i] + relative * Math.abs(y[i]);
}

/** (1) into `jacobian`, n × n, row by row; `slope` is f(t, y), `y` is nudged and put back, `spare` written over. Costs n evaluations. */
export function differences(
  system: OdeSystem,
  t: number,
  y: Float64Array,
  slope: Float64Array,
  allowed: Float64Array,
  jacobian: Float64Array,
  spare: Float64Array,
): void {
  const n = y.length;
  for (let j = 0; j < n; j++) {
    const kept = y[j];
    y[j] = kept + NUDGE * allowed[j];
    const nudge = y[j] - kept;
    system.derivative(t, y, spare);
    for (let i = 0; i < n; i++) jacobian[i * n + j] = (spare[i] - slope[i]) / nudge;
    y[j] = kept;
  }
}

/** (2) [1/s]; `jacobian` is written over, `square` is spare. NaN where an entry is not a number. */
export function fastestRate(n: number, jacobian: Float64Array, allowed: Float64Array, square: Float64Array): number {
  let [power, next] = [jacobian, square];
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) power[i * n + j] *= allowed[j] / allowed[i];
  for (let doubling = 0; doubling < 3; doubling++) {
    multiply(n, power, power, next);
    [power, next] = [next, power];
  }
  let most = 0;
  for (let i = 0; i < n; i++) {
    let row = 0;
    for (let j = 0; j < n; j++) row += Math.abs(power[i * n + j]);
    // what is no number stays so
    if (!(row <= most) && !Number.isNaN(most)) most = row;
  }
  return most ** (1 / 8);
}
