/** Conditioning where its slopes, its directions and the number of answers that it asks for are known beforehand. */
import { type Conditioning, condition, rootOf } from '@shaftwork/sim-core/numerics/normal-conditioning';
import { describe, expect, it } from 'vitest';

const asking = (problem: Conditioning) => {
  const asked: number[][] = [];
  const found = condition({
    ...problem,
    answers: (z) => {
      asked.push([...z]);
      return problem.answers(z);
    },
  });
  return { found, asked };
};
/** h = A·z. */
const straight = (design: readonly (readonly number[])[], read: readonly number[], deviations: readonly number[]): Conditioning => ({
  dimension: design[0].length,
  answers: (z) => design.map((row) => row.reduce((sum, each, j) => sum + each * z[j], 0)),
  read,
  deviations,
});

describe('a straight model', () => {
  const design = [
    [1, -0.9, 0],
    [1, 0.2, 0],
    [1, 1.4, 0],
    [2, 0.5, 0],
  ];
  const problem = straight(design, [0.3, 0.4, 1.9, 1.1], [0.2, 0.3, 0.25, 0.5]);

  it('asks once at nought, once beside it for each unknown, twice later for those that are read, once a move and twice a direction', () => {
    const { asked, found } = asking(problem);
    // 1 + 3, two moves, 2·2, one move, 2·2
    expect(asked).toHaveLength(15);
    expect(asked.slice(0, 4)).toEqual([
      [0, 0, 0],
      [0.5, 0, 0],
      [0, 0.5, 0],
      [0, 0, 0.5],
    ]);
    found.directions.forEach(({ along, variance }, k) => {
      [1, -1].forEach((side, s) => {
        asked[11 + 2 * k + s].forEach((each, j) => {
          expect(each).toBeCloseTo(found.mean[j] + side * Math.sqrt(variance) * along[j], 9);
        });
      });
    });
  });

  it('has its own slopes over the deviations, directions at right angles of length 1, and 1/(1 + λ)', () => {
    const { sensitivity, directions, settled, before, after, mean } = condition(problem);
    sensitivity.forEach((row, i) => {
      row.forEach((each, j) => {
        expect(each).toBeCloseTo(design[i][j] / problem.deviations[i], 9);
      });
    });
    expect(directions).toHaveLength(2);
    const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, each, j) => sum + each * b[j], 0);
    directions.forEach(({ along, variance }, k) => {
      directions.forEach((other, m) => {
        expect(dot(along, other.along)).toBeCloseTo(k === m ? 1 : 0, 9);
      });
      const read = sensitivity.map((row) => dot(row, along));
      expect(variance).toBeCloseTo(1 / (1 + read.reduce((sum, each) => sum + each * each, 0)), 9);
    });
    expect(settled).toBe(true);
    expect(before).toEqual([0, 0, 0, 0]);
    after.forEach((each, i) => {
      expect(each).toBeCloseTo(design[i][0] * mean[0] + design[i][1] * mean[1], 12);
    });
  });

  it('holds each reading against what was known before: (y − h(0))/√(σ² + Σ a²)', () => {
    condition(problem).surprise.forEach(({ alone }, i) => {
      const spread = Math.hypot(problem.deviations[i], ...design[i]);
      expect(alone).toBeCloseTo(problem.read[i] / spread, 9);
    });
  });

  it('has a symmetric root, whose square is the covariance', () => {
    const found = condition(problem);
    for (const count of [1, 2, 3]) {
      const root = rootOf(found, count).map(({ deviation, shares, mean }, j) => {
        expect(mean).toBe(found.mean[j]);
        return Array.from(shares, (each) => each * deviation);
      });
      root.forEach((row, a) => {
        row.forEach((each, b) => {
          expect(each).toBeCloseTo(root[b][a], 12);
          const covariance = found.directions.reduce(
            (sum, { along, variance }) => sum - (1 - variance) * along[a] * along[b],
            a === b ? 1 : 0,
          );
          expect(row.reduce((sum, x, i) => sum + x * root[b][i], 0)).toBeCloseTo(covariance, 12);
        });
      });
    }
  });

  // by hand: Σ (a/σ)² of a column against 1e-4, all readings together
  it.each([
    [[0.009], 0],
    [[0.011], 0.011],
    [[0.008, 0.008], 0.008],
    [[0.006, 0.006], 0],
    [[-0.008, 0.008], -0.008],
  ])('leaves an unknown alone whose slopes are a trifle: %j', (column, slope) => {
    const { sensitivity, mean } = condition(
      straight(
        column.map((each) => [1, each]),
        column.map(() => 2),
        column.map(() => 1),
      ),
    );
    expect(sensitivity[0][1]).toBeCloseTo(slope, 12);
    expect(mean[1] === 0).toBe(slope === 0);
  });

  it('that says the same of everything teaches nothing: each reading is off by what it is off', () => {
    const found = condition({ dimension: 2, answers: () => [3, 5], read: [4, 2], deviations: [0.5, 2] });
    expect(found).toMatchObject({ settled: true, directions: [], before: [3, 5], after: [3, 5] });
    expect([...found.mean]).toEqual([0, 0]);
    expect(found.effectiveDraws).toBeUndefined();
    expect(found.surprise.map(({ amongAll, alone }) => [amongAll, alone])).toEqual([
      [2, 2],
      [-1.5, -1.5],
    ]);
  });
});

describe('where the model has no answer on one side', () => {
  const edge = (has: (z: number) => boolean): Conditioning => ({
    dimension: 2,
    answers: ([a, b]) => [has(a) ? 2 * a + b : Number.NaN, a - 3 * b],
    read: [0.02, 0.01],
    deviations: [1, 1],
  });
  it.each([
    ['above', (z: number) => z < 0.3],
    ['below', (z: number) => z > -0.3],
  ])('the other serves: none %s', (_, has) => {
    const { sensitivity } = condition(edge(has));
    expect(sensitivity.map((row) => [...row])).toEqual([
      [expect.closeTo(2, 9), expect.closeTo(1, 9)],
      [expect.closeTo(1, 9), expect.closeTo(-3, 9)],
    ]);
  });

  it('and none on the other, nothing is learnt of it', () => {
    const { sensitivity } = condition(edge((z) => Math.abs(z) < 0.3));
    expect(sensitivity.map((row) => [...row])).toEqual([
      [0, expect.closeTo(1, 9)],
      [expect.closeTo(1, 9), expect.closeTo(-3, 9)],
    ]);
  });

  it('at nought it is refused', () => {
    expect(() => condition({ ...edge(() => false), read: [1, 1] })).toThrow(new RangeError('The model has no answer for a reading.'));
  });
});

describe('a model that bends little within what is left open', () => {
  it('has at the end the slopes of both sides there, and stands where the pulls are even', () => {
    // h = z + 0.1·z²: slopes 1 + 0.2·z, by central differences exactly
    const { mean, sensitivity, after, settled, effectiveDraws } = condition({
      dimension: 1,
      answers: ([z]) => [z + 0.1 * z * z],
      read: [2],
      deviations: [0.5],
    });
    expect(settled).toBe(true);
    expect(effectiveDraws).toBeUndefined();
    expect(after[0]).toBeCloseTo(mean[0] + 0.1 * mean[0] ** 2, 12);
    expect(sensitivity[0][0] / ((1 + 0.2 * mean[0]) / 0.5)).toBeCloseTo(1, 2);
    // z = (1 + 0.2·z)·(2 − h)/σ²
    expect(Math.abs(mean[0] - ((1 + 0.2 * mean[0]) * (2 - after[0])) / 0.25) / (1 + sensitivity[0][0] ** 2)).toBeLessThan(0.01);
  });

  it.each([
    ['a rise', (z: number) => Math.exp(2 * z), Math.exp(4), 0.5, 2],
    ['a fall', (z: number) => Math.exp(-2 * z), Math.exp(4), 0.5, -2],
    ['one that flattens', (z: number) => Math.atan(3 * z), Math.atan(3), 0.01, 1],
  ])('is followed however far the straight line overshoots: %s', (_, law, read, deviation, there) => {
    const { mean, settled } = condition({ dimension: 1, answers: ([z]) => [law(z)], read: [read], deviations: [deviation] });
    expect(settled).toBe(true);
    expect(mean[0]).toBeCloseTo(there, 2);
  });

  it('is weighed where one of two readings bends along one of two directions', () => {
    const bends = (first: number, second: number) =>
      condition({
        dimension: 2,
        answers: ([a, b]) => [2 * (a + first * a * a), 0.5 * (b + second * b * b)],
        read: [0, 0],
        deviations: [2, 0.5],
      }).effectiveDraws;
    expect(bends(0.3, 0.3)).toBeUndefined();
    // of draws 1.3 times too wide √(2r² − 1)/r² count along each direction: 0.83 of 256 along two
    for (const draws of [bends(0.65, 0), bends(0, 0.65)]) expect(Math.abs((draws ?? 0) - 213)).toBeLessThan(30);
  });

  it.each([
    // bend of h over one deviation of what is left, in deviations of the reading: against 0.3, by hand
    [0.28, undefined],
    [0.32, expect.any(Number)],
    [-0.28, undefined],
    [-0.32, expect.any(Number)],
  ])('is weighed with draws from a bend of 0.3 on, whatever the unit: %d', (bend, draws) => {
    // read where it is already: z = 0, slope 1, deviation 1, so that a half is left open: h = z + 2·bend·z²
    for (const unit of [0.01, 1, 100])
      expect(
        condition({ dimension: 1, answers: ([z]) => [unit * (z + 2 * bend * z * z)], read: [0], deviations: [unit] }).effectiveDraws,
      ).toEqual(draws);
  });
});

describe('weighed draws', () => {
  /** Mean and covariance of two unknowns by quadrature on a grid. */
  const byQuadrature = ({ answers, read, deviations }: Conditioning): { mean: number[]; covariance: number[][] } => {
    let mass = 0;
    const [first, second] = [
      [0, 0],
      [0, 0, 0],
    ];
    for (let a = -5; a <= 5; a += 0.05)
      for (let b = -5; b <= 5; b += 0.05) {
        const h = answers(Float64Array.of(a, b));
        const p = Math.exp(-0.5 * (a * a + b * b + read.reduce((sum, y, i) => sum + ((y - h[i]) / deviations[i]) ** 2, 0)));
        if (!(p > 0)) continue;
        mass += p;
        first[0] += p * a;
        first[1] += p * b;
        second[0] += p * a * a;
        second[1] += p * a * b;
        second[2] += p * b * b;
      }
    const mean = first.map((each) => each / mass);
    const at = (k: number, i: number, j: number): number => second[k] / mass - mean[i] * mean[j];
    return {
      mean,
      covariance: [
        [at(0, 0, 0), at(1, 0, 1)],
        [at(1, 0, 1), at(2, 1, 1)],
      ],
    };
  };

  it.each<[string, Conditioning['answers'], number[], number[], number]>([
    ['one reading of both', ([a, b]) => [Math.exp(1.5 * a + 0.8 * b)], [2], [1.5], 0.1],
    ['one reading of their difference', ([a, b]) => [Math.exp(1.2 * a - 0.9 * b)], [3], [2], 0.1],
    ['two readings', ([a, b]) => [Math.exp(a) + b, b * b + 0.5 * a], [2, 0.8], [1.2, 0.8], 0.1],
    ['no answer beyond an edge', ([a, b]) => [1.5 * a + 0.8 * b > 1.2 ? Number.NaN : Math.exp(1.5 * a + 0.8 * b)], [2], [1.5], 0.25],
  ])('have the mean and the covariance of quadrature, as near as their number lets them: %s', (_, answers, read, deviations, off) => {
    const problem: Conditioning = { dimension: 2, answers, read, deviations };
    const found = condition(problem);
    const draws = found.effectiveDraws ?? 0;
    expect(draws).toBeGreaterThan(60);
    expect(draws).toBeLessThanOrEqual(256);
    const exact = byQuadrature(problem);
    for (const i of [0, 1]) {
      expect(Math.abs(found.mean[i] - exact.mean[i])).toBeLessThan(2 * Math.sqrt(exact.covariance[i][i] / draws));
      for (const j of [0, 1]) {
        const covariance = found.directions.reduce(
          (sum, { along, variance }) => sum - (1 - variance) * along[i] * along[j],
          i === j ? 1 : 0,
        );
        const scale = Math.sqrt(exact.covariance[i][i] * exact.covariance[j][j]);
        expect(Math.abs(covariance - exact.covariance[i][j]) / scale).toBeLessThan(off);
      }
    }
    for (const { along } of found.directions) expect(Math.hypot(...along)).toBeCloseTo(1, 9);
  });

  it('whose mean has no answer for one reading of two leave what the straight line says', () => {
    const bent = (hole: number) =>
      condition({
        dimension: 1,
        answers: ([z]) => [Math.abs(z - hole) < 1e-6 ? Number.NaN : Math.exp(2 * z), z],
        read: [1, 0],
        deviations: [1.5, 2],
      });
    const whole = bent(Number.POSITIVE_INFINITY);
    expect(whole.effectiveDraws).toBeGreaterThan(0);
    const found = bent(whole.mean[0]);
    expect(found.effectiveDraws).toBe(0);
    expect(found.after.every(Number.isFinite)).toBe(true);
  });
});
