/** The fit against what defines it: its equations hold at the end, whatever way led there; a straight model has its closed form. */

import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { fitRobustly, followedAt, jacobianOf } from '@shaftwork/sim-core/numerics/least-squares';
import { profileInterval } from '@shaftwork/sim-core/numerics/profile-interval';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { inv, matrix } from 'mathjs';
import { describe, expect, it } from 'vitest';

const HUBER = 1.345;
const VARIANCE = 1.0526;
const random = seededRandom(9, 2);
const normal = (): number => inverseNormal(random.fraction());
const count = 60;
const xs = Array.from({ length: count }, (_, i) => (i % 20) / 10 - 1);
const truth = [0.8, -0.5];
const noise = xs.map(() => 2 * normal());
noise[7] = 40;
const design = xs.map((x) => [5, 8 * x]);
const read = xs.map((_, i) => design[i][0] * truth[0] + design[i][1] * truth[1] + noise[i]);
const line = {
  unknowns: 2,
  count,
  channels: [0, 20],
  residuals: (z: ArrayLike<number>, out: Float64Array) => {
    for (let i = 0; i < count; i++) out[i] = design[i][0] * z[0] + design[i][1] * z[1] - read[i];
  },
};

describe('a straight model of two channels with one reading far off', () => {
  const fitted = () => {
    const fit = fitRobustly(line);
    return { fit, spread: (i: number): number => fit.scales[i < 20 ? 0 : 1], alike: (i: number): number => fit.alike[i < 20 ? 0 : 1] };
  };

  it('settles near the truth and gives the far reading its share of 1.345·s/|r|, all others theirs', () => {
    const { fit, spread } = fitted();
    expect(fit.settled).toBe(true);
    fit.deviates.forEach((z, j) => {
      expect(Math.abs(z - truth[j])).toBeLessThan(4 * Math.sqrt(fit.covariance[j][j]));
    });
    fit.residuals.forEach((r, i) => {
      expect(r).toBeCloseTo(design[i][0] * fit.deviates[0] + design[i][1] * fit.deviates[1] - read[i], 9);
      expect(fit.weights[i]).toBeCloseTo(Math.min(1, (HUBER * spread(i)) / Math.abs(r)), 9);
    });
    expect(fit.weights[7]).toBeLessThan(0.2);
  });

  it('stands where the weighted pull of the data and of what was known are even', () => {
    const { fit, spread, alike } = fitted();
    [0, 1].forEach((j) => {
      const pull = fit.residuals.reduce((sum, r, i) => sum + (design[i][j] * r * fit.weights[i]) / (spread(i) ** 2 * alike(i)), 0);
      const firmness = 1 / Math.sqrt(fit.covariance[j][j]);
      expect(Math.abs(pull + fit.deviates[j]) / firmness).toBeLessThan(0.03);
    });
  });

  it('has for covariance the inverse of what data and prior tell together', () => {
    const { fit, spread, alike } = fitted();
    const precision = xs.map((_, i) => 1 / (spread(i) ** 2 * VARIANCE * alike(i)));
    const told = [0, 1].map((a) =>
      [0, 1].map((b) => design.reduce((sum, row, i) => sum + row[a] * row[b] * precision[i], a === b ? 1 : 0)),
    );
    const covariance = inv(matrix(told)).toArray() as number[][];
    covariance.forEach((row, a) => {
      row.forEach((each, b) => {
        expect(fit.covariance[a][b] / each).toBeCloseTo(1, 5);
      });
    });
    // singular values: eigenvalues of the data's part
    expect(fit.singular[0] ** 2 + fit.singular[1] ** 2).toBeCloseTo(told[0][0] + told[1][1] - 2, 5);
    expect(fit.rank).toBe(2);
  });

  it('scales each channel by Huber’s second proposal, four readings’ worth of the stated noise beside', () => {
    const { fit } = fitted();
    [
      [0, 20],
      [20, 60],
    ].forEach(([from, to], c) => {
      const s = fit.scales[c];
      let squares = 0;
      let used = 0;
      for (let i = from; i < to; i++) {
        squares += Math.min(HUBER, Math.abs(fit.residuals[i]) / s) ** 2;
        const row = design[i];
        const variance = row.reduce((sum, x, a) => sum + row.reduce((inner, y, b) => inner + x * fit.covariance[a][b] * y, 0), 0);
        used += (variance * fit.weights[i]) / (s * s * fit.alike[c]);
      }
      expect(Math.sqrt((4 + (squares * s * s) / 0.7102) / (4 + to - from - used)) / s).toBeCloseTo(1, 1);
      expect(s).toBeGreaterThan(1.2);
    });
  });

  it('tells Student’s quantile: 2.00 for sixty readings, 2.23 for ten (Abramowitz & Stegun, table 26.10)', () => {
    const { fit } = fitted();
    expect(fit.quantile).toBeGreaterThan(1.97);
    expect(fit.quantile).toBeLessThan(2.06);
    const few = fitRobustly({ unknowns: 1, count: 7, channels: [0], residuals: (z, out) => out.fill(10 * z[0]) });
    expect(few.quantile).toBeCloseTo(2.228, 2);
  });

  it('profile of a straight law: q standard deviations either way, where the fit’s own measure has risen by q²', () => {
    const { fit } = fitted();
    const sigma = Math.sqrt(fit.covariance[0][0]);
    const [low, high] = profileInterval(line, fit, 0);
    const measure = (z: number): number => followedAt(line, fit, 0, z) - followedAt(line, fit, 0, fit.deviates[0]);
    for (const end of [low, high]) expect(Math.sqrt(measure(end)) / fit.quantile).toBeCloseTo(1, 1);
    expect(high - fit.deviates[0]).toBeGreaterThan(0.9 * fit.quantile * sigma);
    expect((fit.deviates[0] - low) / (high - fit.deviates[0])).toBeGreaterThan(0.8);
    expect((fit.deviates[0] - low) / (high - fit.deviates[0])).toBeLessThan(1.25);
  });
});

describe('what is told of little', () => {
  it('without readings nothing is learnt', () => {
    const fit = fitRobustly({ unknowns: 2, count: 0, channels: [], residuals: () => {} });
    expect(fit.deviates).toEqual([0, 0]);
    expect(fit.covariance).toEqual([
      [1, 0],
      [0, 1],
    ]); // prettier-ignore
    expect(fit.rank).toBe(0);
  });

  it('a direction that the readings do not see keeps its prior', () => {
    const fit = fitRobustly({ ...line, unknowns: 3 });
    expect(fit.covariance[2][2]).toBeCloseTo(1, 9);
    expect(fit.deviates[2]).toBeCloseTo(0, 9);
    expect(fit.rank).toBe(2);
    expect(Math.abs(fit.directions[2][2])).toBeCloseTo(1, 6);
  });

  it('readings alike in a row count as fewer: τ = 1 + 2·Σρ', () => {
    const waves = Array.from({ length: 80 }, (_, i) => 3 * Math.sin(i / 6));
    const fit = fitRobustly({
      unknowns: 1,
      count: 80,
      channels: [0],
      residuals: (z, out) => out.set(waves.map((w) => 4 * z[0] + w)),
    });
    const r = Array.from(fit.residuals, (each, i) => each * fit.weights[i]);
    const variance = r.reduce((sum, each) => sum + each ** 2, 0);
    let likeness = 1;
    for (let lag = 1; lag < 20; lag++) {
      const rho = r.slice(lag).reduce((sum, each, k) => sum + each * r[k], 0) / variance;
      if (!(rho > 2 / Math.sqrt(80))) break;
      likeness += 2 * rho;
    }
    expect(likeness).toBeGreaterThan(4);
    expect(fit.alike[0] / likeness).toBeCloseTo(1, 1);
    const short = fitRobustly({
      unknowns: 1,
      count: 7,
      channels: [0],
      residuals: (z, out) => out.set(waves.slice(0, 7).map((w) => 4 * z[0] + w)),
    });
    expect(short.alike).toEqual([1]);
  });

  it('a model that is off by its noise is never believed beyond it', () => {
    const exact = {
      unknowns: 1,
      count: 30,
      channels: [0],
      residuals: (z: ArrayLike<number>, out: Float64Array) => void out.fill(3 * (z[0] - 0.2)),
    };
    expect(fitRobustly(exact).scales[0]).toBeLessThan(0.5);
    expect(fitRobustly({ ...exact, leastScale: 1 }).scales[0]).toBe(1);
  });
});

it('slopes by central differences are those of a law that bends, and none where there is no number', () => {
  const law = {
    unknowns: 2,
    count: 2,
    residuals: (z: ArrayLike<number>, out: Float64Array) => void out.set([z[0] ** 3 + z[1], Number.NaN]),
  };
  const [first, second] = jacobianOf(law, [2, 5]);
  expect(first[0]).toBeCloseTo(12, 6);
  expect(first[1]).toBeCloseTo(1, 9);
  expect(second).toEqual([0, 0]);
});
