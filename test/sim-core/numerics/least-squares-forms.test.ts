/** The fit where (1)–(5) have a closed form, to the digits that arithmetic leaves. */
import { type Fit, type FitProblem, fitRobustly, followedAt } from '@shaftwork/sim-core/numerics/least-squares';
import { profileInterval } from '@shaftwork/sim-core/numerics/profile-interval';
import { inv, matrix } from 'mathjs';
import { describe, expect, it } from 'vitest';

// Huber & Ronchetti 2009, c = 1.345; E ψ² and E ψ²/(E ψ')² of a standard normal, which the last test integrates
const HUBER = 1.345;
const BETA = 0.7102;
const VARIANCE = 1.0526;

/** Readings that no unknown moves. */
const unmoved = (readings: readonly number[], channels: readonly number[] = [0], unknowns = 1): FitProblem => ({
  unknowns,
  count: readings.length,
  channels,
  residuals: (_, out) => out.set(readings),
});
/** Residuals straight in z: A·z − b. */
const straight = (design: readonly (readonly number[])[], read: readonly number[], channels: readonly number[] = [0]): FitProblem => ({
  unknowns: design[0].length,
  count: read.length,
  channels,
  residuals: (z, out) => {
    design.forEach((row, i) => {
      out[i] = row.reduce((sum, each, j) => sum + each * z[j], -read[i]);
    });
  },
});

describe('readings that no unknown moves', () => {
  const near = [0.6, -0.4, 0.9, -1, 0.2, -0.7, 0.3, 0.8, -0.5, -0.1, 0.4, -0.9];
  const squares = near.reduce((sum, r) => sum + r * r, 0);

  it('have the scale of (2) with ψ(r) = r and no share of any unknown', () => {
    const { scales, weights, rank, singular, deviates, quantile, settled } = fitRobustly(unmoved(near));
    expect(scales[0]).toBeCloseTo(Math.sqrt((4 + squares / BETA) / (4 + 12)), 12);
    expect([...weights]).toEqual(near.map(() => 1));
    expect([rank, ...singular, ...deviates, settled]).toEqual([0, 0, 0, true]);
    // ν = 4 + 12 − 0: 1.9600 + 2.3723/16 + 2.8225/256 (Abramowitz & Stegun 26.7.5); the table has 2.120
    expect(quantile).toBeCloseTo(2.119255, 5);
  });

  it('one far off counts with ψ = c·s', () => {
    const { scales, weights } = fitRobustly(unmoved([...near, 50]));
    // s² = [4 + (Σ r² + c²·s²)/β]/17
    const s = Math.sqrt((4 + squares / BETA) / (17 - HUBER ** 2 / BETA));
    expect(scales[0] / s).toBeCloseTo(1, 2);
    expect(weights[12]).toBeCloseTo((HUBER * scales[0]) / 50, 12);
    expect(weights[11]).toBe(1);
  });

  it('each channel has its own, and one without readings the stated one', () => {
    const one = fitRobustly(unmoved([...near, ...near.map((r) => 0.5 * r)], [0, 12, 12]));
    expect(one.scales).toEqual([
      expect.closeTo(Math.sqrt((4 + squares / BETA) / 16), 12),
      1,
      expect.closeTo(Math.sqrt((4 + (0.25 * squares) / BETA) / 16), 12),
    ]);
    expect(one.alike).toEqual([1, 1, 1]);
    expect(fitRobustly(unmoved(near, [0]), [0]).scales).toEqual(fitRobustly(unmoved(near, [0])).scales);
  });

  it('what is no number, or beyond ten thousand times the noise, counts as that much', () => {
    const { residuals, weights, scales } = fitRobustly(unmoved([...near, Number.NaN, -1e7]));
    expect([...residuals.subarray(12)]).toEqual([1e4, 1e4]);
    expect([...weights.subarray(12)]).toEqual([1, 1].map(() => expect.closeTo((HUBER * scales[0]) / 1e4, 12)));
  });

  // ramps and waves stay alike from lag to lag, so that each bound on the lags is met: up to n/4, from eight readings on
  it.each([
    ['a ramp of eighty', Array.from({ length: 80 }, (_, i) => (i - 39.5) / 20)],
    ['a ramp of eighty-one', Array.from({ length: 81 }, (_, i) => (i - 40) / 20)],
    ['half a wave of eight', Array.from({ length: 8 }, (_, i) => Math.sin((Math.PI * (i + 1)) / 9))],
    ['half a wave of nine', Array.from({ length: 9 }, (_, i) => Math.sin((Math.PI * (i + 1)) / 10))],
    ['half a wave of seven', Array.from({ length: 7 }, (_, i) => Math.sin((Math.PI * (i + 1)) / 8))],
    ['a wave that turns', Array.from({ length: 64 }, (_, i) => Math.cos(i / 3))],
    ['one far off amid a wave', Array.from({ length: 64 }, (_, i) => (i === 9 ? 30 : Math.cos(i / 5)))],
  ])('alike in a row, τ is (4) of what is weighed: %s', (_, readings) => {
    const n = readings.length;
    const fit = fitRobustly(unmoved([3, ...readings], [0, 1]));
    const r = Array.from(fit.residuals, (each, i) => each * fit.weights[i]).slice(1);
    const variance = r.reduce((sum, each) => sum + each ** 2, 0);
    let tau = 1;
    if (n >= 8)
      for (let lag = 1; lag < n / 4; lag++) {
        const rho = r.slice(lag).reduce((sum, each, k) => sum + each * r[k], 0) / variance;
        if (rho <= 2 / Math.sqrt(n)) break;
        tau += 2 * rho;
      }
    expect(fit.alike).toEqual([1, expect.closeTo(tau, 10)]);
    if (n >= 8) expect(tau).toBeGreaterThan(2);
  });
});

describe('a straight law read without noise', () => {
  // two unknowns, three channels; the second unknown is told less of than was known before
  const design = [
    [3, 0],
    [3, 0],
    [0, 0.5],
    [-2, 0],
    [0, 0.3],
  ];

  it('has the singular values and the covariance of its own numbers', () => {
    const fit = fitRobustly(straight(design, [0, 0, 0, 0, 0], [0, 2, 3]));
    const [a, b, c] = fit.scales.map((s) => 1 / (s * s * VARIANCE));
    const told = [18 * a + 4 * c, 0.25 * b + 0.09 * c];
    expect(fit.singular).toEqual(told.map((each) => expect.closeTo(Math.sqrt(each), 6)));
    expect(fit.covariance).toEqual([
      [expect.closeTo(1 / (1 + told[0]), 8), expect.closeTo(0, 12)],
      [expect.closeTo(0, 12), expect.closeTo(1 / (1 + told[1]), 8)],
    ]);
    expect(told[1]).toBeLessThan(1);
    expect(fit.rank).toBe(1);
    expect(fit.directions.map((row) => row.map(Math.abs))).toEqual([
      [expect.closeTo(1, 9), expect.closeTo(0, 9)],
      [expect.closeTo(0, 9), expect.closeTo(1, 9)],
    ]);
    // ν = 4 + 5 − 1
    expect(fit.quantile).toBeCloseTo(1.959963984540054 + 2.3722712 / 8 + 2.8225 / 64, 12);
  });

  it('has for scale 4/(4 + n − h), h what the readings of the channel tell of the unknown', () => {
    // n readings of slope a: h = n·a²/s²/(1 + n·a²/s²)
    const fit = fitRobustly(straight([[3], [3], [3], [3]], [0, 0, 0, 0]));
    const s2 = fit.scales[0] ** 2;
    const told = 36 / s2;
    expect(s2 / (4 / (8 - told / (1 + told)))).toBeCloseTo(1, 2);
  });

  it.each([1, -1])('goes no further than twelve deviations: %d', (side) => {
    // read exactly at 12.3, four channels too short to be alike in a row
    const read = Array.from({ length: 24 }, () => 12.3 * side);
    const far = fitRobustly(
      straight(
        read.map(() => [1]),
        read,
        [0, 6, 12, 18],
      ),
      [11.5 * side],
    );
    expect(far.deviates).toEqual([12 * side]);
  });
});

describe('F with one unknown held', () => {
  const design = [
    [5, 1, 0],
    [4, -2, 1],
    [3, 0, 2],
    [6, 2, -1],
    [-1, 3, 1],
    [2, 2, 2],
    [0, 1, 4],
    [1, -3, 0],
    [2, 0, -3],
    ...Array.from({ length: 12 }, () => [0.3, 0.1, 0.2]),
  ];
  // the last twelve are alike in a row
  const read = [4, 2.5, 4, 3.5, -0.5, 3, 3.5, 2, 30, ...Array.from({ length: 12 }, (_, i) => 0.2 * (i - 5))];
  const problem = straight(design, read, [0, 4, 9]);
  /** F with the others at their best: AᵀPA·z = AᵀP·b with z_j given, P as the fit left it. */
  const leastOf = (fit: Fit, j: number, value: number): number => {
    const precision = read.map((_, i) => {
      const c = i < 4 ? 0 : i < 9 ? 1 : 2;
      return fit.weights[i] / (fit.scales[c] ** 2 * VARIANCE * fit.alike[c]);
    });
    const kept = [0, 1, 2].filter((a) => a !== j);
    const pull = (a: number, of: (i: number) => number): number => read.reduce((sum, _, i) => sum + precision[i] * design[i][a] * of(i), 0);
    const normal = kept.map((a) => kept.map((b) => pull(a, (i) => design[i][b]) + (a === b ? 1 : 0)));
    const right = kept.map((a) => pull(a, (i) => read[i] - design[i][j] * value));
    const others = (inv(matrix(normal)).toArray() as number[][]).map((row) => row.reduce((sum, each, k) => sum + each * right[k], 0));
    const z = [0, 0, 0];
    z[j] = value;
    kept.forEach((a, k) => {
      z[a] = others[k];
    });
    return (
      read.reduce((sum, b, i) => sum + precision[i] * (design[i].reduce((s, a, k) => s + a * z[k], 0) - b) ** 2, 0) +
      z.reduce((sum, each) => sum + each * each, 0)
    );
  };

  it('each kind of reading is in it', () => {
    const fit = fitRobustly(problem);
    expect(fit.alike[2]).toBeGreaterThan(2);
    expect(Math.min(...fit.weights)).toBeLessThan(0.3);
  });

  it.each([0, 1, 2])('is that of the normal equations, as near as far: unknown %d', (j) => {
    const fit = fitRobustly(problem);
    for (const off of [-3, -0.4, 0, 0.7, 2.5]) {
      const value = fit.deviates[j] + off;
      expect(followedAt(problem, fit, j, value) / leastOf(fit, j, value)).toBeCloseTo(1, 7);
    }
  });

  it.each([0, 1, 2])('has risen by q² at both ends of the interval: unknown %d', (j) => {
    const fit = fitRobustly(problem);
    const [low, high] = profileInterval(problem, fit, j);
    const bottom = leastOf(fit, j, fit.deviates[j]);
    expect(low).toBeLessThan(fit.deviates[j]);
    expect(high).toBeGreaterThan(fit.deviates[j]);
    for (const end of [low, high]) expect(Math.abs(Math.sqrt(leastOf(fit, j, end) - bottom) / fit.quantile - 1)).toBeLessThan(0.02);
  });
});

it('what is alike in a row tells less: covariance and quantile count each as 1/τ of a reading', () => {
  const wave = Array.from({ length: 40 }, (_, i) => 0.8 * Math.cos(i / 4));
  const fit = fitRobustly(
    straight(
      wave.map(() => [2]),
      wave,
    ),
  );
  const [tau] = fit.alike;
  expect(tau).toBeGreaterThan(3);
  const told = 160 / (fit.scales[0] ** 2 * VARIANCE * tau);
  expect(fit.covariance[0][0] * (1 + told)).toBeCloseTo(1, 6);
  const nu = 4 + 40 / tau - 1;
  expect(fit.quantile).toBeCloseTo(1.959963984540054 + 2.3722712 / nu + 2.8225 / nu ** 2, 12);
});

it('an unknown that is held takes the others along the valley that they are in', () => {
  // z₁ stays by z₀, or a whole number of half turns away from it
  const valleys: FitProblem = {
    unknowns: 2,
    count: 3,
    channels: [0],
    leastScale: 1,
    residuals: (z, out) => out.set([30 * Math.sin(z[1] - z[0]), 2 * (z[0] - 1), 2 * (z[1] - 1)]),
  };
  const fit = fitRobustly(valleys);
  expect(fit.deviates).toEqual([expect.closeTo(0.8, 2), expect.closeTo(0.8, 2)]);
  for (const value of [-2, 3.5])
    expect(followedAt(valleys, fit, 0, value) / (2 * value ** 2 + (8 / VARIANCE) * (value - 1) ** 2)).toBeCloseTo(1, 1);
});

// down the bent valley of H. H. Rosenbrock, The Computer Journal 3, 1960
it.each([
  [3, 5, 1, true],
  [10, 5, 2, true],
  [30, 10, 2, true],
  [100, 20, 3, false],
])('is settled where the pulls are even, and only there: walls %d, floor %d, end %d', (wall, floor, far, expected) => {
  const { deviates, residuals, weights, scales, settled, covariance } = fitRobustly({
    unknowns: 2,
    count: 2,
    channels: [0],
    leastScale: 1,
    residuals: (z, out) => out.set([wall * (z[1] - z[0] ** 2), floor * (z[0] - far)]),
  });
  const [p, q] = [0, 1].map((i) => (residuals[i] * weights[i]) / scales[0] ** 2);
  const pull = [-2 * wall * deviates[0] * p + floor * q + deviates[0], wall * p + deviates[1]];
  const left = covariance.map((row, a) => Math.abs(row[0] * pull[0] + row[1] * pull[1]) / Math.sqrt(row[a]));
  expect(settled).toBe(expected);
  expect(Math.max(...left) < 0.08).toBe(expected);
});

it('says where it has not settled: a law that is nothing but waves', () => {
  const { settled } = fitRobustly({ unknowns: 1, count: 1, channels: [0], residuals: (z, out) => out.fill(3 * Math.sin(1e6 * z[0] + 1)) });
  expect(settled).toBe(false);
});

it('a reading without an answer leaves the interval to the others', () => {
  const three = straight(
    [
      [3, 0],
      [2, 1],
      [1, 4],
    ],
    [1, 0.5, 2],
  );
  const without: FitProblem = {
    ...three,
    count: 4,
    channels: [0, 3],
    residuals: (z, out) => {
      three.residuals(z, out);
      out[3] = Number.NaN;
    },
  };
  const [whole, holed] = [fitRobustly(three), fitRobustly(without)];
  const width = ([low, high]: readonly [number, number], { quantile }: { quantile: number }): number => (high - low) / quantile;
  expect(holed.deviates).toEqual(whole.deviates.map((z) => expect.closeTo(z, 2)));
  expect(width(profileInterval(without, holed, 0), holed) / width(profileInterval(three, whole, 0), whole)).toBeCloseTo(1, 2);
});

it('E ψ² and E ψ²/(E ψ′)² are those of a standard normal, by quadrature', () => {
  let [square, inside] = [0, 0];
  for (let r = -9; r < 9; r += 1e-3) {
    const p = Math.exp(-0.5 * r * r) / Math.sqrt(2 * Math.PI) / 1e3;
    square += Math.min(HUBER, Math.abs(r)) ** 2 * p;
    if (Math.abs(r) < HUBER) inside += p;
  }
  expect(square).toBeCloseTo(BETA, 4);
  expect(square / inside ** 2).toBeCloseTo(VARIANCE, 3);
});
