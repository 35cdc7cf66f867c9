/** A bench of five rows and a made-up fit of it, for tests of what a fit tells. */
import type { Fit } from '@shaftwork/sim-core/numerics/least-squares';
import type { Kept } from '@shaftwork/sim-core/questions/identify/bench-rows';
import type { FittedBench } from '@shaftwork/sim-core/questions/identify/identify-motor';
import { motorModel } from '@shaftwork/sim-core/questions/identify/motor-model';
import { derivedNumbers } from '@shaftwork/sim-core/questions/identify/motor-numbers';
import { MADE, SETUP } from '../../../identify/coverage.js';
import { madeBench } from '../../../identify/made-bench.js';

const P1 = { name: 'P1', torque: 1.6e-8, thrust: 1.2e-6 };
const P2 = { name: 'P2', torque: 2.6e-8, thrust: 1.6e-6 };
export const ROWS = madeBench(
  MADE,
  [
    { supply: 7.4, duty: 1, propeller: undefined },
    { supply: 12.6, duty: 1, propeller: undefined },
    { supply: 7.4, duty: 1, propeller: P1 },
    { supply: 12.6, duty: 1, propeller: P1 },
    { supply: 12.6, duty: 1, propeller: P2 },
  ],
  1,
);
/** Begun at the truth. */
export const STARTS = {
  torqueConstant: MADE.kt,
  resistance: MADE.resistance,
  lossTorque: MADE.constantLoss,
  topSpeed: MADE.constantLoss / MADE.speedLoss,
  torque: [P1.torque, P2.torque],
  thrust: [P1.thrust, P2.thrust],
};
export const PATH = { resistance: 0.01, deviation: 0.2 };
/** What is left of k, R, both losses, torques and thrusts of both propellers, L/R, κ, I_0 and four gains; how they hang together. */
export const LEFT = [0.01, 0.1, 0.3, 0.2, 0.05, 0.5, 0.04, 0.01, 0.9, 0.95, 0.5, 1, 1, 1, 1];
export const ALIKE: readonly (readonly [number, number, number])[] = [
  [0, 1, -0.7],
  [4, 6, 0.9],
  [2, 3, -0.5],
  [9, 10, 0.61],
];
export const covarianceOf = (left: readonly number[], alike = ALIKE): number[][] =>
  left.map((a, i) =>
    left.map((b, j) => a * b * (i === j ? 1 : (alike.find(([k, l]) => (k === i && l === j) || (k === j && l === i))?.[2] ?? 0))),
  );
export const fitWith = (more: Partial<Fit> = {}): Fit => ({
  deviates: LEFT.map(() => 0),
  covariance: covarianceOf(LEFT),
  singular: [3],
  directions: [],
  rank: 1,
  residuals: Float64Array.from({ length: 13 }, (_, k) => Math.cos(k)),
  weights: Float64Array.from({ length: 13 }, (_, k) => (k === 2 || k === 11 ? 0.4 : k === 6 ? 0.5 : 1)),
  scales: [1, 1.5, 1, 1, 2],
  alike: [1, 1, 1, 1, 1],
  quantile: 2.2,
  settled: true,
  ...more,
});
export function bench(more: Partial<Fit> = {}, kept: Partial<Kept> = {}): FittedBench {
  const model = motorModel(ROWS, SETUP, STARTS);
  const fit = fitWith(more);
  const derived = derivedNumbers(ROWS, model, fit, PATH);
  return { kept: { rows: ROWS, idle: 0, moving: 0, together: 1, ...kept }, rows: ROWS, starts: STARTS, model, fit, derived };
}
