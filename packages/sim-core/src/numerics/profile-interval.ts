/**
 * The 95 % interval of one unknown by its profile: how far it can go while all others follow as well as they can.
 *
 *   (1) F(z) = Σ r²/(noise²·v·τ) + Σ z²         (2) ends where min over the others of F − F_least = q²
 *
 * *Holds for* a fit that settled; weights and scales stay as the fit left them. *Source* D. M. Bates & D. G. Watts, Nonlinear Regression Analysis
 * and Its Applications, 1988, ch. 6 (from memory).
 * @module
 */
import { type Fit, type FitProblem, followedAt } from './least-squares.js';

const TRIES = 6;
const NEAR = 0.02;

/** Lower and upper end of z_j; where (2) is not met within the tries, the last one tried. */
export function profileInterval(problem: FitProblem, fit: Fit, j: number): readonly [low: number, high: number] {
  const best = fit.deviates[j];
  const sigma = Math.sqrt(fit.covariance[j][j]);
  const least = followedAt(problem, fit, j, best);
  const end = (side: 1 | -1): number => {
    // x — how far in standard deviations; √(F − F_least) is nearly straight in it
    let x = fit.quantile;
    for (let k = 0; k < TRIES; k++) {
      const rise = Math.sqrt(Math.max(1e-12, followedAt(problem, fit, j, best + side * x * sigma) - least));
      if (Math.abs(rise / fit.quantile - 1) < NEAR) break;
      x *= Math.min(2, Math.max(0.5, fit.quantile / rise));
    }
    return best + side * x * sigma;
  };
  return [end(-1), end(1)];
}
