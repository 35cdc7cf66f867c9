import { firstOrderShare, fitInputs, additiveFit as fitOf } from '@shaftwork/sim-core/numerics/additive-fit';
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { quasiRandomPoint, scrambledSobolSequence } from '@shaftwork/sim-core/numerics/quasi-random';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { describe, expect, it } from 'vitest';

const additiveFit = (u: Float64Array[], y: ArrayLike<number>) => fitOf(fitInputs(u), y);

/** Columns of n scrambled quasi-random points. */
function columns(dimension: number, n: number, seed: number): Float64Array[] {
  const sequence = scrambledSobolSequence(dimension, seed);
  const point = new Float64Array(dimension);
  const out = Array.from({ length: dimension }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    quasiRandomPoint(sequence, i, point);
    for (let j = 0; j < dimension; j++) out[j][i] = point[j];
  }
  return out;
}
const outputs = (u: Float64Array[], f: (x: readonly number[]) => number): Float64Array =>
  Float64Array.from({ length: u[0].length }, (_, i) => f(u.map((column) => column[i])));

describe('first-order shares', () => {
  // T. Ishigami & T. Homma, "An importance quantification technique in uncertainty analysis for computer models", ISUMA 1990;
  // indices for a = 7, b = 0.1 as in Saltelli et al., Global Sensitivity Analysis: The Primer, 2008: 0.3139, 0.4424, 0
  const ishigami = (u: readonly number[]): number => {
    const [x1, x2, x3] = u.map((each) => Math.PI * (2 * each - 1));
    return Math.sin(x1) + 7 * Math.sin(x2) ** 2 + 0.1 * x3 ** 4 * Math.sin(x1);
  };
  it.each([
    // a share's standard error here is about √(4·0.44·0.25/n): three of them
    [4096, 0.03],
    [1024, 0.06],
  ])('finds those of the Ishigami function from %i points', (n, tolerance) => {
    const u = columns(3, n, 7);
    const fit = additiveFit(u, outputs(u, ishigami));
    const found = [0, 1, 2].map((j) => firstOrderShare(fit, [j], n).share);
    expect(Math.abs(found[0] - 0.3139)).toBeLessThan(tolerance);
    expect(Math.abs(found[1] - 0.4424)).toBeLessThan(tolerance);
    expect(found[2]).toBeLessThan(tolerance / 2);
    // 7²/8 + 0.1π⁴/5 + 0.1²π⁸/18 + 1/2, the closed form of the variance
    expect(fit.variance).toBeCloseTo(49 / 8 + (0.1 * Math.PI ** 4) / 5 + (0.01 * Math.PI ** 8) / 18 + 0.5, 0);
  });

  it('gives a linear sum its shares, few samples and many useless inputs notwithstanding', () => {
    const weights = [4, 3, 2, 1];
    const n = 128;
    const u = columns(80, n, 3);
    const y = outputs(u, (x) => weights.reduce((sum, weight, j) => sum + weight * inverseNormal(x[5 * j]), 0));
    const fit = additiveFit(u, y);
    weights.forEach((weight, j) => {
      expect(firstOrderShare(fit, [5 * j], n).share).toBeCloseTo(weight ** 2 / 30, 1);
    });
    expect(firstOrderShare(fit, [1], n).share).toBe(0);
    expect([...fit.effects.keys()].sort((a, b) => a - b)).toEqual([0, 5, 10, 15]);
  });

  it('takes inputs that move together as one group', () => {
    const n = 512;
    const u = columns(2, n, 5);
    // the third input is the first again: apart they mean nothing, together 9/10 of the variance
    const y = outputs(u, ([a, b]) => 3 * inverseNormal(a) + inverseNormal(b));
    const fit = additiveFit([...u, u[0]], y);
    expect(firstOrderShare(fit, [0, 2], n).share).toBeCloseTo(0.9, 1);
  });

  it('tells its own error: the scatter over seeds of independent samples is within a factor of two of it', () => {
    const n = 256;
    const shares: number[] = [];
    let told = 0;
    const seeds = 40;
    for (let seed = 0; seed < seeds; seed++) {
      const random = seededRandom(seed);
      const u = Array.from({ length: 20 }, () => Float64Array.from({ length: n }, random.fraction));
      const y = outputs(u, (x) => inverseNormal(x[0]) + inverseNormal(x[1]) * inverseNormal(x[2]) + 0.5 * x[3] ** 3);
      const { share, error } = firstOrderShare(additiveFit(u, y), [0], n);
      shares.push(share);
      told += error / seeds;
    }
    const mean = shares.reduce((sum, each) => sum + each / seeds, 0);
    const scatter = Math.sqrt(shares.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (seeds - 1));
    expect(told / scatter).toBeGreaterThan(0.5);
    expect(told / scatter).toBeLessThan(2);
  });

  it('finds nothing in noise, and refuses too few samples and what is no number', () => {
    const u = columns(10, 256, 1);
    const noise = columns(1, 256, 99)[0];
    expect(additiveFit(u, noise).effects.size).toBeLessThanOrEqual(1);
    expect(() => additiveFit(u, [1, 2])).toThrow(RangeError);
    expect(() => fitInputs([[0.1, 0.2]])).toThrow(RangeError);
    expect(() =>
      additiveFit(
        u,
        outputs(u, () => Number.NaN),
      ),
    ).toThrow(RangeError);
  });
});
