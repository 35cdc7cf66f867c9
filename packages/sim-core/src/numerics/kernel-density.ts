/**
 * The density of a sample as a smooth curve.
 *
 *   (1) f(x) = 1/(n·h) Σ φ((x − xᵢ)/h)          (2) h = 0.9·min(s, interquartile range/1.34)·n^(−1/5)
 *
 * *Holds for*: samples with one hump; several humps are smoothed too much.
 * *Source*: B.W. Silverman, Density Estimation for Statistics and Data Analysis, Chapman & Hall 1986, eqs. 2.2a and 3.31.
 */
import { quantileOfSorted, sortedSample, standardDeviation } from './quantiles.js';

/** (2); the least width keeps a sample of equal values a narrow hump. Throws RangeError for fewer than two values. */
export function bandwidth(values: ArrayLike<number>, least: number): number {
  const sorted = sortedSample(values);
  const range = (quantileOfSorted(sorted, 0.75) - quantileOfSorted(sorted, 0.25)) / 1.34;
  const s = standardDeviation(values);
  return Math.max(least, 0.9 * (range > 0 ? Math.min(s, range) : s) * values.length ** -0.2);
}

/** (1) at each place of `at`. Throws RangeError for fewer than two values. */
export function kernelDensity(values: ArrayLike<number>, at: readonly number[], width: number): number[] {
  const scale = 1 / (values.length * width * Math.sqrt(2 * Math.PI));
  return at.map((x) => {
    let sum = 0;
    for (let i = 0; i < values.length; i++) {
      const z = (x - values[i]!) / width;
      if (z * z < 80) sum += Math.exp(-0.5 * z * z);
    }
    return scale * sum;
  });
}
