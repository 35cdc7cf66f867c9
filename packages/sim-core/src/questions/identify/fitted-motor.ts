/** The fit of a motor's bench, its residuals weighed by the scatter at the constants that it finds. @module */
import { type Fit, fitRobustly } from '../../numerics/least-squares.js';
import type { MotorModel } from './motor-model.js';

const MOST_ROUNDS = 5;
/** A round that moves no unknown by more than this [standard deviations] is the last. */
const STILL = 0.2;

/** The fit whose residuals stand over the scatter at its own constants. */
export function fittedMotor(model: MotorModel): Fit {
  let fit = fitRobustly(model);
  for (let round = 1; round < MOST_ROUNDS; round++) {
    model.weigh(fit.deviates);
    const next = fitRobustly(model, fit.deviates);
    const moved = Math.max(...next.deviates.map((z, j) => Math.abs(z - fit.deviates[j]) / Math.sqrt(next.covariance[j][j])));
    fit = next;
    if (moved < STILL) return fit;
  }
  return { ...fit, settled: false };
}
