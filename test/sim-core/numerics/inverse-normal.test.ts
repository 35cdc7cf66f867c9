import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { describe, expect, it } from 'vitest';

/** Φ(z) by Simpson's rule on the density: an independent inverse. */
function normalBetween(from: number, to: number): number {
  const n = 2000;
  const h = (to - from) / n;
  const density = (z: number) => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  let sum = density(from) + density(to);
  for (let i = 1; i < n; i++) sum += density(from + i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
}

describe('inverseNormal', () => {
  it.each([
    // Wichura 1988, the paper's own check values for PPND16
    [0.25, -0.6744897501960817],
    [0.001, -3.090232306167814],
    [1e-20, -9.262340089798409], // printed …408: the same double
    // Abramowitz & Stegun, table 26.5 and common tables
    [0.975, 1.959963984540054],
    [0.9, 1.2815515655446004],
    [0.05, -1.6448536269514722],
    // E, F: SciPy 1.17, norm.ppf
    [1e-300, -37.0470962993612],
  ])('of %f is %f', (p, z) => {
    expect(Math.abs(inverseNormal(p) / z - 1)).toBeLessThan(2e-15);
  });

  it('inverts the integral of the density, is odd about one half, and continuous at its seams', () => {
    expect(inverseNormal(0.5)).toBe(0);
    for (let p = 0.01; p < 0.5; p += 0.0137) {
      expect(0.5 - normalBetween(inverseNormal(p), 0)).toBeCloseTo(p, 12);
      expect(inverseNormal(p) + inverseNormal(1 - p)).toBeCloseTo(0, 13);
    }
    for (const seam of [0.075, Math.exp(-25)]) {
      const step = seam * 1e-9;
      const rise = inverseNormal(seam + step) - inverseNormal(seam - step);
      expect(rise).toBeGreaterThan(0);
      expect(rise).toBeLessThan(1e-8);
    }
  });

  it('refuses probabilities that have no quantile', () => {
    for (const p of [0, 1, -0.1, 1.1, Number.NaN]) expect(() => inverseNormal(p)).toThrow(/between 0 and 1/);
  });
});
