/** A quantile of values in any order. */
import { quantileOfSorted, sortedSample } from '../packages/sim-core/src/numerics/quantiles.js';

export const quantile = (values: ArrayLike<number>, p: number): number => quantileOfSorted(sortedSample(values), p);
