import { brent } from '@shaftwork/sim-core/numerics/roots';
import { describe, expect, it } from 'vitest';

/** Procedure zero of Brent (1973, section 4.6), its names and steps as published (from memory); tol there is 2·ε·|b| + t. */
function zero(f: (x: number) => number, from: number, to: number, tolerance: number): number {
  const t = 0.5 * tolerance;
  let [a, b] = [from, to];
  let [fa, fb] = [f(a), f(b)];
  let [c, fc] = [a, fa];
  let e = b - a;
  let d = e;
  for (;;) {
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const tol = 2 * Number.EPSILON * Math.abs(b) + t;
    const m = 0.5 * (c - b);
    if (!(Math.abs(m) > tol && fb !== 0)) return b;
    if (Math.abs(e) < tol || Math.abs(fa) <= Math.abs(fb)) {
      d = m;
      e = m;
    } else {
      let s = fb / fa;
      let [p, q] = [2 * m * s, 1 - s];
      if (a !== c) {
        q = fa / fc;
        const r = fb / fc;
        p = s * (2 * m * q * (q - r) - (b - a) * (r - 1));
        q = (q - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      s = e;
      e = d;
      if (2 * p < 3 * m * q - Math.abs(tol * q) && p < Math.abs(0.5 * s * q)) d = p / q;
      else {
        d = m;
        e = m;
      }
    }
    a = b;
    fa = fb;
    b += Math.abs(d) > tol ? d : m > 0 ? tol : -tol;
    fb = f(b);
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      e = b - a;
      d = e;
    }
  }
}

describe('brent', () => {
  // functions of the kind Brent (1973, chapter 4) tries: simple, flat and steep roots
  it.each([
    ['cosine', Math.cos, 1, 2, Math.PI / 2],
    ['cubic of Wallis (1685): x³ − 2x − 5', (x: number) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265],
    ['reversed ends', (x: number) => Math.exp(x) - 2, 5, -5, Math.LN2],
    ['steep', (x: number) => Math.expm1(50 * (x - 0.3)), -1, 1, 0.3],
    ['root at the first end, rising', (x: number) => x - 1, 1, 4, 1],
    ['root at the first end, falling', (x: number) => 1 - x, 1, 4, 1],
    ['root at the second end, rising', (x: number) => x - 4, 1, 4, 4],
    ['root at the second end, falling', (x: number) => 4 - x, 1, 4, 4],
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

  const asked = (search: (f: (x: number) => number, lo: number, hi: number, tolerance: number) => number) => {
    return (f: (x: number) => number, lo: number, hi: number, tolerance: number) => {
      const points: number[] = [];
      const root = search(
        (x) => {
          points.push(x);
          return f(x);
        },
        lo,
        hi,
        tolerance,
      );
      return { root, points };
    };
  };
  it.each([
    ['a line', (x: number) => 3 * x - 1, 0, 1],
    ['a cosine', Math.cos, 0.1, 3],
    ['a cubic', (x: number) => x ** 3 - 2 * x - 5, -4, 7],
    ['an exponential', (x: number) => Math.exp(x) - 2, 5, -5],
    ['its mirror', (x: number) => 2 - Math.exp(x), -5, 8],
    ['steep', (x: number) => Math.expm1(50 * (x - 0.3)), -1, 1],
    ['steep the other way', (x: number) => Math.expm1(-50 * (x - 0.3)), -1, 1],
    ['a hyperbola', (x: number) => 1 / x - 4, 0.1, 3],
    ['flat', (x: number) => (x - 0.2) ** 9, -1, 1],
    ['flat, far off', (x: number) => (x - 300) ** 3, -1000, 2000],
    ['a jump', (x: number) => (x < 0.7 ? -1 : 3), 0, 1],
    ['a kink', (x: number) => (x < 0.6 ? 0.01 : 30) * (x - 0.6) - 0.001, 0, 5],
    ['waves', (x: number) => Math.sin(9 * x) + 0.3 * x - 1, -8, 9],
    ['what begins with even misses', (x: number) => x ** 3 - 0.2 * x ** 2 + 0.2, -1, 1],
  ])('asks where the published procedure asks: %s', (_, f, lo, hi) => {
    for (const tolerance of [1e-13, 1e-6, 1e-3, 0.2]) {
      const ours = asked(brent)(f, lo, hi, tolerance);
      expect(ours).toEqual(asked(zero)(f, lo, hi, tolerance));
    }
  });

  it('gives up in words where even halving takes over 2000 rounds: a jump at nought, seen from 1e308', () => {
    const jump = (x: number): number => (x > 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY);
    expect(() => brent(jump, -1, 1e308, 0)).toThrow('The root search between -1 and 1e+308 did not settle in 2000 iterations.');
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
