/**
 * Conditioning on readings: the closed form of C.M. Bishop, Pattern Recognition and Machine Learning, 2006, eqs. 3.50 and 3.51 (Bayesian linear
 * regression), coverage over simulated truths, and what must not matter.
 */

import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { type Conditioned, type Conditioning, condition, rootOf } from '@shaftwork/sim-core/numerics/normal-conditioning';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { add, identity, inv, type Matrix, matrix, multiply, transpose } from 'mathjs';
import { describe, expect, it } from 'vitest';

/** Rows of Φ: a straight line, w0 + w1·x, and one unknown that nothing reads. */
const X = [-0.9, -0.3, 0.2, 0.55, 1.4];
const LINE = X.map((x) => [1, x, 0]);
const T = [0.31, -0.12, 0.44, 0.8, 1.9];
const NOISE = [0.2, 0.1, 0.3, 0.2, 0.25];

const line: Conditioning = {
  dimension: 3,
  answers: (z) => LINE.map((row) => row.reduce((sum, each, j) => sum + each * z[j], 0)),
  read: T,
  deviations: NOISE,
};

/** The covariance that a root stands for. */
const covarianceOf = (found: Conditioned, count: number): number[][] => {
  const root = rootOf(found, count);
  return root.map((a) => root.map((b) => a.deviation * b.deviation * a.shares.reduce((sum, each, k) => sum + each * b.shares[k], 0)));
};

describe('a linear model with normal errors', () => {
  const weights = NOISE.map((s) => 1 / s ** 2);
  const phiT = transpose(matrix(LINE));
  const weighted = matrix(LINE.map((row, i) => row.map((each) => each * weights[i])));
  // (3.51) S_N⁻¹ = S_0⁻¹ + β·ΦᵀΦ with a β for each reading, (3.50) m_N = S_N·β·Φᵀt
  const covariance = inv(add(identity(3), multiply(phiT, weighted)) as Matrix);
  const mean = multiply(covariance, multiply(transpose(weighted), matrix(T)));

  it('has the mean and the covariance of the closed form', () => {
    const found = condition(line);
    expect(found.settled).toBe(true);
    for (let j = 0; j < 3; j++) {
      expect(found.mean[j]).toBeCloseTo(mean.get([j]), 7);
      for (let k = 0; k < 3; k++) expect(covarianceOf(found, 3)[j][k]).toBeCloseTo(covariance.get([j, k]), 7);
    }
    expect(found.effectiveDraws).toBeUndefined();
  });

  it('of some of the unknowns has their block of the covariance', () => {
    const found = condition(line);
    for (let j = 0; j < 2; j++) for (let k = 0; k < 2; k++) expect(covarianceOf(found, 2)[j][k]).toBeCloseTo(covariance.get([j, k]), 7);
    expect(covarianceOf(found, 1)[0][0]).toBeCloseTo(covariance.get([0, 0]), 7);
  });

  it('holds each reading against the others as leaving it out does', () => {
    const found = condition(line);
    T.forEach((t, i) => {
      const others = <A>(all: readonly A[]): A[] => all.filter((_, k) => k !== i);
      const without = condition({ ...line, answers: (z) => others(line.answers(z)), read: others(T), deviations: others(NOISE) });
      const cov = covarianceOf(without, 3);
      const predicted = LINE[i].reduce((sum, each, j) => sum + each * without.mean[j], 0);
      const variance = LINE[i].reduce((sum, a, j) => sum + LINE[i].reduce((inner, b, k) => inner + a * b * cov[j][k], 0), NOISE[i] ** 2);
      expect(found.surprise[i].amongAll).toBeCloseTo((t - predicted) / Math.sqrt(variance), 6);
    });
  });

  it('takes a reading twice as once with its error over √2', () => {
    const twice = condition({
      dimension: 3,
      answers: (z) => [line.answers(z)[1], line.answers(z)[1]],
      read: [T[1], T[1]],
      deviations: [0.1, 0.1],
    });
    const once = condition({ dimension: 3, answers: (z) => [line.answers(z)[1]], read: [T[1]], deviations: [0.1 / Math.SQRT2] });
    for (let j = 0; j < 3; j++) {
      expect(twice.mean[j]).toBeCloseTo(once.mean[j], 9);
      for (let k = 0; k < 3; k++) expect(covarianceOf(twice, 3)[j][k]).toBeCloseTo(covarianceOf(once, 3)[j][k], 9);
    }
  });

  it('does not mind the order, and learns nothing from a reading that may be anything', () => {
    const found = condition(line);
    const turned = condition({
      ...line,
      answers: (z) => [...line.answers(z)].reverse(),
      read: [...T].reverse(),
      deviations: [...NOISE].reverse(),
    });
    for (let j = 0; j < 3; j++) expect(turned.mean[j]).toBeCloseTo(found.mean[j], 9);
    const wide = condition({ ...line, deviations: NOISE.map(() => 1e6) });
    expect([...wide.mean]).toEqual([0, 0, 0]);
    expect(covarianceOf(wide, 3)).toEqual([
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]);
  });
});

describe('a model that bends', () => {
  /** A motor at 11.1 V against a propeller: ln of current and speed over Kv, resistance and load, log-normal all. */
  const spread = [0.05, 0.2, 0.15];
  const motor = (z: Float64Array): number[] => {
    const [kt, r, q] = [0.0104 * Math.exp(-spread[0] * z[0]), 0.09 * Math.exp(spread[1] * z[1]), 1.9e-7 * Math.exp(spread[2] * z[2])];
    // kt·i = q·ω², 11.1 = kt·ω + r·i
    const a = (r * q) / kt;
    const speed = (-kt + Math.sqrt(kt * kt + 4 * a * 11.1)) / (2 * a);
    return [Math.log((q * speed * speed) / kt), Math.log(speed)];
  };
  const normal = (random: { fraction(): number }): number => inverseNormal(random.fraction());

  it('has the truth in its 90 % intervals 85 to 95 times in a hundred', () => {
    const SEEDS = 400;
    const hits = [0, 0, 0];
    const shrinks = [0, 0, 0];
    for (let seed = 0; seed < SEEDS; seed++) {
      const random = seededRandom(seed, 7);
      const truth = Float64Array.from({ length: 3 }, () => normal(random));
      const deviations = [0.02, 0.005];
      const read = motor(truth).map((each, i) => each + deviations[i] * normal(random));
      const root = rootOf(condition({ dimension: 3, answers: motor, read, deviations }), 3);
      root.forEach(({ mean, deviation }, j) => {
        if (Math.abs(truth[j] - mean) <= 1.6448536 * deviation) hits[j]++;
        shrinks[j] += deviation / SEEDS;
      });
    }
    for (const hit of hits) {
      expect(hit / SEEDS).toBeGreaterThan(0.85);
      expect(hit / SEEDS).toBeLessThan(0.95);
    }
    // and it learns: the load is known much better than before
    expect(shrinks[2]).toBeLessThan(0.6);
  });

  it('weighs draws where a straight line would not do, and meets quadrature there', () => {
    // y = exp(2·z) read as 1 ± 1: one unknown, its posterior by quadrature
    const deviation = 1;
    const found = condition({ dimension: 1, answers: (z) => [Math.exp(2 * z[0])], read: [1], deviations: [deviation] });
    expect(found.effectiveDraws).toBeGreaterThan(100);
    let [mass, first, second] = [0, 0, 0];
    for (let z = -6; z <= 6; z += 1e-3) {
      const p = Math.exp(-0.5 * z * z - 0.5 * ((1 - Math.exp(2 * z)) / deviation) ** 2);
      mass += p;
      first += p * z;
      second += p * z * z;
    }
    const mean = first / mass;
    const [root] = rootOf(found, 1);
    // as good as the draws: their deviation over the root of their number, four times
    const scatter = Math.sqrt(second / mass - mean * mean);
    expect(Math.abs(root.mean - mean)).toBeLessThan((4 * scatter) / Math.sqrt(found.effectiveDraws ?? 1));
    expect(root.deviation / scatter).toBeGreaterThan(0.8);
    expect(root.deviation / scatter).toBeLessThan(1.2);
  });

  it('keeps its feet where the model has no answer, and tells what is off', () => {
    const found = condition({
      dimension: 2,
      answers: (z) => [z[0] > 1.5 ? Number.NaN : 10 + z[0] + z[1], 10 + z[0]],
      read: [11, 19],
      deviations: [0.1, 0.1],
    });
    expect(found.mean.every(Number.isFinite)).toBe(true);
    expect(Math.abs(found.surprise[1].alone)).toBeGreaterThan(3);
  });

  it('stays with what it has where no draw has an answer', () => {
    const found = condition({
      dimension: 20,
      // twenty unknowns, each within a narrow band: one draw in 10^13 has an answer
      answers: (z) => [z.every((each) => each > -0.001 && each < 0.6) ? z.reduce((sum, each) => sum + each, 0) : Number.NaN],
      read: [0.5],
      deviations: [50],
    });
    expect(found.mean.every(Number.isFinite)).toBe(true);
    expect(found.effectiveDraws).toBe(0);
  });

  it('stays with what it has where the mean of the draws has no answer', () => {
    const bent = (hole: number) =>
      condition({
        dimension: 1,
        answers: ([z]) => [Math.abs(z - hole) < 1e-6 ? Number.NaN : Math.exp(2 * z)],
        read: [1],
        deviations: [1.5],
      });
    const whole = bent(Number.POSITIVE_INFINITY);
    expect(whole.effectiveDraws).toBeGreaterThan(0);
    const found = bent(whole.mean[0]);
    expect(found.after.every(Number.isFinite)).toBe(true);
    expect(found.effectiveDraws).toBe(0);
  });

  it('has no spread, and no number that is none, where one draw has all the weight', () => {
    // two readings far finer than the draws lie close together, of a model that bends
    const found = condition({
      dimension: 3,
      answers: ([a, b, c]) => [Math.exp(2 * a) + b, Math.exp(2 * b) + c, Math.exp(2 * c) - a],
      read: [30, 0.02, 40],
      deviations: [1e-4, 1e-4, 1e-4],
    });
    expect(found.mean.every(Number.isFinite)).toBe(true);
    for (const { variance } of found.directions) expect(variance).toBeGreaterThanOrEqual(0);
  });
});

describe('a model that cannot be followed', () => {
  it('is given up where nothing nearer is found, and is not called settled', () => {
    let asked = 0;
    // two steps of a stair: between them no answer, and no slope that leads to one
    const stair = condition({
      dimension: 1,
      answers: ([z]) => {
        asked++;
        return [z < 0.7 ? 0.02 * z : 40];
      },
      read: [9],
      deviations: [0.1],
    });
    expect(stair.settled).toBe(false);
    // the first moves, one more round in which nothing is nearer, and the draws
    expect(asked).toBeLessThan(600);
  });
});

describe('what was to be expected before anything was read', () => {
  it('does not hang on what was read, as far off as that may be', () => {
    const bent = (read: number) => condition({ dimension: 1, answers: ([z]) => [z + 0.3 * z ** 3], read: [read], deviations: [0.2] });
    const [near, far] = [bent(0.4), bent(60)];
    expect(far.sensitivityBefore).toEqual(near.sensitivityBefore);
    expect(far.sensitivity[0][0]).toBeGreaterThan(2 * near.sensitivity[0][0]);
    expect([near.before, far.before]).toEqual([[0], [0]]);
  });
});
