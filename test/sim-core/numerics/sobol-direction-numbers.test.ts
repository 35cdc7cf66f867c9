import { SOBOL_ROWS } from '@shaftwork/sim-core/numerics/sobol-direction-numbers';
import { describe, expect, it } from 'vitest';

const primeFactors = (n: number): number[] => {
  const factors: number[] = [];
  let rest = n;
  for (let p = 2; p * p <= rest; p++) if (rest % p === 0) for (factors.push(p); rest % p === 0; ) rest /= p;
  return rest > 1 ? [...factors, rest] : factors;
};

/** x^power modulo a polynomial over two elements, both as bit patterns */
function powerOfX(power: number, polynomial: number, degree: number): number {
  const multiply = (a: number, b: number): number => {
    let product = 0;
    for (let shifted = a, rest = b; rest > 0; rest >>= 1) {
      if (rest & 1) product ^= shifted;
      shifted <<= 1;
      if (shifted >> degree) shifted ^= polynomial;
    }
    return product;
  };
  let result = 1;
  for (let base = degree === 1 ? 1 : 2, rest = power; rest > 0; rest >>= 1) {
    if (rest & 1) result = multiply(result, base);
    base = multiply(base, base);
  }
  return result;
}

describe('the table of direction numbers', () => {
  it('begins as the published one (Joe & Kuo 2008, rows for dimensions 2 to 8)', () => {
    expect(SOBOL_ROWS.slice(0, 7)).toEqual([
      { degree: 1, coefficients: 0, initial: [1] },
      { degree: 2, coefficients: 1, initial: [1, 3] },
      { degree: 3, coefficients: 1, initial: [1, 3, 1] },
      { degree: 3, coefficients: 2, initial: [1, 1, 1] },
      { degree: 4, coefficients: 1, initial: [1, 1, 3, 3] },
      { degree: 4, coefficients: 4, initial: [1, 3, 5, 13] },
      { degree: 5, coefficients: 2, initial: [1, 1, 5, 5, 17] },
    ]);
  });

  it('holds 255 different primitive polynomials by rising degree, with odd m_k below 2^k', () => {
    expect(SOBOL_ROWS).toHaveLength(255);
    const seen = new Set<number>();
    let lastDegree = 1;
    for (const { degree, coefficients, initial } of SOBOL_ROWS) {
      const polynomial = (1 << degree) | (coefficients << 1) | 1;
      expect(degree).toBeGreaterThanOrEqual(lastDegree);
      lastDegree = degree;
      expect(seen.has(polynomial)).toBe(false);
      seen.add(polynomial);
      // primitive: x has order 2^degree − 1 and no proper divisor of it
      const order = 2 ** degree - 1;
      expect(powerOfX(order, polynomial, degree)).toBe(1);
      for (const prime of primeFactors(order)) if (order > 1) expect(powerOfX(order / prime, polynomial, degree)).not.toBe(1);
      expect(initial).toHaveLength(degree);
      for (const [i, m] of initial.entries()) {
        expect(m % 2).toBe(1);
        expect(m).toBeLessThan(2 ** (i + 1));
      }
    }
  });

  it('misses no primitive polynomial up to degree 10: φ(2^s − 1)/s of each', () => {
    const counts = new Map<number, number>();
    for (const { degree } of SOBOL_ROWS) counts.set(degree, (counts.get(degree) ?? 0) + 1);
    for (let s = 2; s <= 10; s++) {
      const order = 2 ** s - 1;
      const totient = primeFactors(order).reduce((phi, p) => (phi / p) * (p - 1), order);
      expect(counts.get(s)).toBe(totient / s);
    }
  });
});
