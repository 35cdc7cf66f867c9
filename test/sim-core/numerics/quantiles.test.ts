import { mean, quantileOfSorted, sortedSample, standardDeviation } from '@shaftwork/sim-core/numerics/quantiles';
import { describe, expect, it } from 'vitest';
import { quantile } from '../../quantile.js';

describe('quantile', () => {
  // by hand from definition 7 of Hyndman & Fan (1996): place (n − 1)p
  it('agrees with hand values', () => {
    const values = [7, 1, 3, 10, 2]; // sorted 1 2 3 7 10
    expect([0, 0.1, 0.25, 0.5, 0.9, 1].map((p) => quantile(values, p))).toEqual([1, 1.4, 2, 3, 8.8, 10]);
    expect(quantile([1, 2, 3, 4], 0.25)).toBe(1.75);
    expect(quantile([4], 0.3)).toBe(4);
    expect(values).toEqual([7, 1, 3, 10, 2]);
  });

  it('keeps infinities where they belong', () => {
    const endless = sortedSample([1, Number.POSITIVE_INFINITY, 2, Number.POSITIVE_INFINITY]);
    expect(quantileOfSorted(endless, 0.2)).toBeCloseTo(1.6, 14);
    expect(quantileOfSorted(endless, 1 / 3)).toBe(2);
    expect(quantileOfSorted(endless, 0.9)).toBe(Number.POSITIVE_INFINITY);
  });

  it('refuses empty samples, NaN and shares outside 0 … 1', () => {
    expect(() => quantile([], 0.5)).toThrow(/sample of 0/);
    expect(() => quantile([1, Number.NaN], 0.5)).toThrow(/Value 2/);
    expect(() => quantileOfSorted([1, 2], 1.1)).toThrow(/share between 0 and 1/);
    expect(() => quantileOfSorted([1, 2], Number.NaN)).toThrow(RangeError);
  });
});

describe('mean and standardDeviation', () => {
  it('agree with hand values', () => {
    const values = [2, 4, 4, 4, 5, 5, 7, 9]; // sum 40, squares of deviations 32
    expect(mean(values)).toBe(5);
    expect(standardDeviation(values)).toBeCloseTo(Math.sqrt(32 / 7), 14);
  });

  it('lose nothing where values are large and alike', () => {
    // NIST Statistical Reference Datasets, NumAcc4 (from memory): certified mean 10 000 000.2, standard deviation 0.1
    const values = [10000000.2];
    for (let i = 0; i < 500; i++) values.push(10000000.1, 10000000.3);
    expect(mean(values)).toBeCloseTo(10000000.2, 8);
    expect(standardDeviation(values)).toBeCloseTo(0.1, 8);
  });

  it('refuse samples that are too small', () => {
    expect(() => mean([])).toThrow(RangeError);
    expect(() => standardDeviation([3])).toThrow(/2 or more/);
    expect(() => standardDeviation([3, Number.NaN])).toThrow(RangeError);
  });
});
