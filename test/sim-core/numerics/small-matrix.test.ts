/** Against mathjs, a general-purpose library. */
import { exponentialWorkspace, matrixExponential, multiply, solveLinear } from '@shaftwork/sim-core/numerics/small-matrix';
import fc from 'fast-check';
import { expm, lusolve, matrix } from 'mathjs';
import { describe, expect, it } from 'vitest';

const rows = (n: number, a: Float64Array): number[][] => Array.from({ length: n }, (_, i) => [...a.subarray(i * n, i * n + n)]);

describe('small matrices', () => {
  it('has the exponential mathjs has, from tiny to stiff', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 16, maxLength: 16 }),
        fc.double({ min: 0.001, max: 20, noNaN: true }),
        (entries, scale) => {
          const a = Float64Array.from(entries);
          // a decaying network: what makes it stiff is a large negative diagonal
          for (let i = 0; i < 4; i++) a[i * 5] -= 4;
          const out = new Float64Array(16);
          matrixExponential(a, scale, out, exponentialWorkspace(4));
          const theirs = (
            expm(matrix(rows(4, a).map((row) => row.map((x) => x * scale)))) as unknown as { toArray(): number[][] }
          ).toArray();
          for (let i = 0; i < 4; i++) for (let j = 0; j < 4; j++) expect(Math.abs(out[i * 4 + j] - theirs[i][j])).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('of what is not finite has nothing that is, and ends', () => {
    for (const wrong of [Number.POSITIVE_INFINITY, Number.NaN]) {
      const out = new Float64Array(4);
      matrixExponential(Float64Array.from([0, wrong, 1, 0]), 1, out, exponentialWorkspace(2));
      expect(out.some(Number.isFinite)).toBe(false);
    }
  });

  it.each([1e-9, 0.01, 0.2, 0.3, 3, 40])('turns by %d, to 1e-11', (angle) => {
    const out = new Float64Array(4);
    matrixExponential(Float64Array.from([0, -1, 1, 0]), angle, out, exponentialWorkspace(2));
    [Math.cos(angle), -Math.sin(angle), Math.sin(angle), Math.cos(angle)].forEach((x, k) => {
      expect(Math.abs(out[k] - x)).toBeLessThan(1e-11 * Math.max(1, angle));
    });
  });

  it('grows and decays, apart and together: e^(A·t) of a triangle', () => {
    // [[a, c], [0, b]]: e^a, e^b and c·(e^a − e^b)/(a − b) beside them
    for (const [a, b, c] of [
      [-3, 1, 7],
      [0.5, -40, 2],
      [0, -1e-3, 1],
    ]) {
      const out = new Float64Array(4);
      matrixExponential(Float64Array.from([a, c, 0, b]), 1, out, exponentialWorkspace(2));
      const exact = [Math.exp(a), (c * (Math.exp(a) - Math.exp(b))) / (a - b), 0, Math.exp(b)];
      exact.forEach((x, k) => {
        expect(Math.abs(out[k] - x)).toBeLessThan(1e-10 * Math.max(...exact.map(Math.abs)));
      });
    }
  });

  it('solves whichever row has to come first', () => {
    // all orders of the rows of one system: the same unknowns
    const system = [
      [0, 2, 1, 3],
      [4, 0, 0, 1],
      [0, 0, 5, -2],
      [1, 1, 1, 1],
    ];
    const x = [3, -1, 2, 0.5];
    for (const order of [
      [0, 1, 2, 3],
      [3, 2, 1, 0],
      [1, 0, 3, 2],
      [2, 3, 0, 1],
      [0, 2, 1, 3],
    ]) {
      const a = Float64Array.from(order.flatMap((k) => system[k]));
      const b = Float64Array.from(order, (k) => system[k].reduce((sum, each, j) => sum + each * x[j], 0));
      expect(solveLinear(4, a, b)).toBe(true);
      x.forEach((each, k) => {
        expect(b[k]).toBeCloseTo(each, 12);
      });
    }
    expect(solveLinear(2, Float64Array.of(0, 1, 0, 2), Float64Array.of(1, 2))).toBe(false);
    expect(solveLinear(2, Float64Array.of(Number.NaN, 1, 0, 2), Float64Array.of(1, 2))).toBe(false);
  });

  it('turns a quarter', () => {
    const out = new Float64Array(4);
    matrixExponential(Float64Array.from([0, -1, 1, 0]), Math.PI / 2, out, exponentialWorkspace(2));
    [0, -1, 1, 0].forEach((x, k) => {
      expect(out[k]).toBeCloseTo(x, 10);
    });
  });

  it('solves what mathjs solves and says where it cannot', () => {
    const a = Float64Array.from([0, 2, 1, 1, 1, 0, 3, 0, 5]);
    const b = Float64Array.from([4, 3, 20]);
    const theirs = (lusolve(rows(3, a), [...b]) as number[][]).flat();
    expect(solveLinear(3, a.slice(), b)).toBe(true);
    theirs.forEach((x, k) => {
      expect(b[k]).toBeCloseTo(x, 12);
    });
    expect(solveLinear(2, Float64Array.from([1, 2, 2, 4]), Float64Array.from([1, 1]))).toBe(false);
  });

  it('multiplies in order', () => {
    const c = new Float64Array(4);
    multiply(2, Float64Array.from([1, 2, 3, 4]), Float64Array.from([0, 1, 1, 0]), c);
    expect([...c]).toEqual([2, 1, 4, 3]);
  });
});
