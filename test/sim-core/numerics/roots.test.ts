import { brent, expandBracket, safeguardedNewton } from '@shaftwork/sim-core/numerics/roots';
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

  it('finds the place of a jump, and bisects where residuals are infinite', () => {
    expect(brent((x) => (x < 0.7 ? -1 : 1), 0, 1, 1e-12)).toBeCloseTo(0.7, 11);
    expect(brent((x) => (x < 0.7 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY), 0, 1, 1e-12)).toBeCloseTo(0.7, 11);
  });

  it('refuses what it cannot answer, in a sentence', () => {
    expect(() => brent((x) => x * x + 1, -1, 1, 1e-9)).toThrow(/No root is bracketed between -1 and 1/);
    expect(() => brent((x) => (x > 0.2 && x < 0.9 ? Number.NaN : x - 0.5), 0, 1, 1e-9)).toThrow(/is not a number at 0.5/);
    expect(() => brent((x) => x, -1, Number.POSITIVE_INFINITY, 1e-9)).toThrow(/finite ends/);
    expect(() => brent((x) => x, -1, 1, -1)).toThrow(RangeError);
  });
});

describe('safeguardedNewton', () => {
  const cubic = (x: number, out: { value: number; slope: number }) => {
    out.value = x ** 3 - 2 * x - 5;
    out.slope = 3 * x * x - 2;
  };

  it('converges quadratically from a good start without touching the ends', () => {
    const places: number[] = [];
    const record = { value: 0, slope: 0 };
    const watched = (x: number, out: typeof record) => {
      expect(out).toBe(record);
      places.push(x);
      cubic(x, out);
    };
    expect(safeguardedNewton(watched, 0, 10, 2.2, 1e-13, record)).toBeCloseTo(2.0945514815423265, 13);
    expect(places.length).toBeLessThan(7);
    expect(places).not.toContain(0);
    expect(places).not.toContain(10);
  });

  it('falls back on its bracket where Newton runs away or cycles', () => {
    // Newton on atan diverges from |x| > 1.39
    const arctangent = (x: number, out: { value: number; slope: number }) => {
      out.value = Math.atan(x - 0.5);
      out.slope = 1 / (1 + (x - 0.5) ** 2);
    };
    expect(safeguardedNewton(arctangent, -30, 40, 35, 1e-13)).toBeCloseTo(0.5, 12);
    // x³ − 2x + 2 from 0 cycles between 0 and 1
    const cycling = (x: number, out: { value: number; slope: number }) => {
      out.value = x ** 3 - 2 * x + 2;
      out.slope = 3 * x * x - 2;
    };
    expect(safeguardedNewton(cycling, -3, 2, 0, 1e-13)).toBeCloseTo(-1.7692923542386314, 12);
    // slope zero at the start
    expect(safeguardedNewton(cubic, 0, 5, Math.sqrt(2 / 3), 1e-13)).toBeCloseTo(2.0945514815423265, 12);
  });

  it('tests convergence before its guard: a root on the end, met by a step that points outside, is a root', () => {
    const noisy = (x: number, out: { value: number; slope: number }) => {
      out.value = x + 1e-15; // the root lies a rounding outside the interval
      out.slope = 1;
    };
    expect(safeguardedNewton(noisy, 0, 1, 0.4, 1e-12)).toBe(0);
  });

  it('refuses what it cannot answer', () => {
    const square = (x: number, out: { value: number; slope: number }) => {
      out.value = x * x + 1;
      out.slope = 2 * x;
    };
    expect(() => safeguardedNewton(square, -1, 2, 0.5, 1e-9)).toThrow(/No root is bracketed/);
    expect(() => safeguardedNewton(cubic, 0, 1, 2, 1e-9)).toThrow(/lies outside/);
    const missing = (_: number, out: { value: number }) => {
      out.value = Number.NaN;
    };
    expect(() => safeguardedNewton(missing, 0, 1, 0.5, 1e-9)).toThrow(/not a number at 0.5/);
  });
});

describe('expandBracket', () => {
  it('widens towards the smaller residual until the sign changes', () => {
    const { lo, hi } = expandBracket((x) => x - 40, 0, 1, -1000, 1000);
    expect(lo).toBeLessThanOrEqual(40);
    expect(hi).toBeGreaterThanOrEqual(40);
    expect(lo).toBe(0);
    const left = expandBracket((x) => x + 40, 0, 1, -1000, 1000);
    expect(left.lo).toBeLessThanOrEqual(-40);
  });

  it('reaches a root on its limit, and refuses beyond', () => {
    expect(expandBracket((x) => x - 100, 0, 1, 0, 100).hi).toBe(100);
    expect(() => expandBracket((x) => x - 100, 0, 1, -50, 99)).toThrow(/No root is bracketed between -50 and 99/);
    expect(() => expandBracket(() => 1, 0, 1, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY)).toThrow(/No root/);
    expect(() => expandBracket((x) => x, 1, 0, -1, 2)).toThrow(RangeError);
  });
});
