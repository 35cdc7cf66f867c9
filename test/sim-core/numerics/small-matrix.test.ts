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
