import { brent } from '@shaftwork/sim-core/numerics/roots';
import { describe, expect, it } from 'vitest';

describe('brent', () => {
  // functions of the kind Brent (1973, chapter 4) tries: simple, flat and steep roots
  it.each([
    ['cosine', Math.cos, 1, 2, Math.PI / 2],
    ['cubic of Wallis (1685): x³ − 2x − 5', (x: number) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265],
    ['reversed ends', (x: number) => Math.exp(x) - 2, 5, -5, Math.LN2],
    ['steep', (x: number) => Math.expm1(50 * (x - 0.3)), -1, 1, 0.3],
    ['root at an end', (x: number) => x - 1, 1, 4, 1],
  ])('finds the root: %s', (_, f, lo, hi, root) => {
    expect(Math.abs(brent(f, lo, hi, 1e-13) - root)).toBeLessThan(2e-13);
  });

  it('needs few evaluations on a smooth function, and survives a ninth-order root', () => {
    let count = 0;
    const counted = (x: number) => {
      count++;
      return Math.cos(x) - x;
    };
    brent(counted, 0, 1, 1e-12);
    expect(count).toBeLessThan(11);
    expect(Math.abs(brent((x) => (x - 0.2) ** 9, -1, 1, 1e-6) - 0.2)).toBeLessThan(1e-6);
  });

  // evaluations, both ends counted: interpolation makes few of them
  it.each([
    ['a line', (x: number) => 3 * x - 1, 0, 1, 4],
    ['cosine', Math.cos, 1, 2, 8],
    ['cubic', (x: number) => x ** 3 - 2 * x - 5, 2, 3, 9],
    ['exponential', (x: number) => Math.exp(x) - 2, -5, 5, 13],
    ['steep', (x: number) => Math.expm1(50 * (x - 0.3)), -1, 1, 20],
    ['its mirror', (x: number) => Math.expm1(-50 * (x - 0.3)), -1, 1, 20],
    ['a hyperbola', (x: number) => 1 / x - 4, 0.1, 3, 13],
  ])('needs few evaluations: %s', (_, f, lo, hi, most) => {
    let count = 0;
    brent(
      (x) => {
        count++;
        return f(x);
      },
      lo,
      hi,
      1e-12,
    );
    expect(count).toBeLessThanOrEqual(most);
  });

  it('finds the place of a jump, and bisects where residuals are infinite', () => {
    expect(brent((x) => (x < 0.7 ? -1 : 1), 0, 1, 1e-12)).toBeCloseTo(0.7, 11);
    expect(brent((x) => (x < 0.7 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY), 0, 1, 1e-12)).toBeCloseTo(0.7, 11);
  });

  it('refuses what it cannot answer, in a sentence', () => {
    expect(() => brent((x) => x * x + 1, -1, 1, 1e-9)).toThrow(/No root is bracketed between -1 and 1/);
    expect(() => brent((x) => (x > 0.2 && x < 0.9 ? Number.NaN : x - 0.5), 0, 1, 1e-9)).toThrow(/is not a number at 0.5/);
    expect(() => brent((x) => x, -1, Number.POSITIVE_INFINITY, 1e-9)).toThrow(/finite ends/);
    expect(() => brent((x) => x, -1, 1, -1)).toThrow(/zero or positive, not -1/);
    expect(Math.abs(brent((x) => x - 0.25, -1, 1, 0) - 0.25)).toBeLessThan(1e-15);
  });
});
