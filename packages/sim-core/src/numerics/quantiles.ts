/**
 * Mean, standard deviation and quantiles of a sample.
 *
 *   (1) quantile p of n sorted values: with g = (n − 1)p, the value at place g, straight between neighbours ("type 7")
 *   (2) standard deviation s = √( Σ(x − mean)² / (n − 1) )
 *
 * *Source*: R.J. Hyndman & Y. Fan, "Sample quantiles in statistical packages", The American Statistician 50 (4), 1996, definition 7.
 *
 * @module
 */

function requireNumbers(values: ArrayLike<number>, least: number): void {
  if (values.length < least) throw new RangeError(`A sample of ${values.length} is too small; ${least} or more are needed.`);
  for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i])) throw new RangeError(`Value ${i + 1} of a sample is not a number.`);
}

/** A sorted copy; throws RangeError where a value is not a number. */
export function sortedSample(values: ArrayLike<number>): Float64Array {
  requireNumbers(values, 1);
  return Float64Array.from(values).sort();
}

/** (1) of values already sorted; throws RangeError for an empty sample or p outside 0 … 1. */
export function quantileOfSorted(sorted: ArrayLike<number>, p: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A quantile is asked for a share between 0 and 1, not ${p}.`);
  requireNumbers(sorted, 1);
  const place = (sorted.length - 1) * p;
  const below = Math.floor(place);
  const lower = sorted[below];
  const upper = sorted[Math.min(below + 1, sorted.length - 1)];
  // equal neighbours first: between two infinities a straight line has no value
  return lower === upper || place === below ? lower : lower + (place - below) * (upper - lower);
}

/** Throws RangeError for an empty sample or a value that is not a number. */
export function mean(values: ArrayLike<number>): number {
  requireNumbers(values, 1);
  // the mean of the deviations from the first value: no loss where the values are large and alike
  const origin = values[0];
  let sum = 0;
  for (let i = 1; i < values.length; i++) sum += values[i] - origin;
  return origin + sum / values.length;
}

/** (2); throws RangeError for fewer than two values or a value that is not a number. */
export function standardDeviation(values: ArrayLike<number>): number {
  requireNumbers(values, 2);
  const centre = mean(values);
  let squares = 0;
  let deviations = 0;
  for (let i = 0; i < values.length; i++) {
    const deviation = values[i] - centre;
    squares += deviation * deviation;
    deviations += deviation;
  }
  // the second term is zero but for the rounding of the mean
  return Math.sqrt((squares - (deviations * deviations) / values.length) / (values.length - 1));
}
