import { besselI0, besselI1, besselK0, besselK1 } from '@shaftwork/sim-core/heat/modified-bessel';
import { describe, expect, it } from 'vitest';

/** I_n(x) = (1/π)·∫₀^π e^(x·cos θ)·cos nθ dθ, trapezoidal rule on a full period (converges faster than any power). */
const integralI = (n: number, x: number): number => {
  const steps = 200 + Math.ceil(4 * x);
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += Math.exp(x * Math.cos((2 * Math.PI * i) / steps)) * Math.cos((2 * Math.PI * n * i) / steps);
  return sum / steps;
};
/** K_n(x) = ∫₀^∞ e^(−x·cosh t)·cosh nt dt. */
const integralK = (n: number, x: number): number => {
  const step = 0.005;
  let sum = Math.exp(-x) / 2;
  for (let t = step; t < 20; t += step) sum += Math.exp(-x * Math.cosh(t)) * Math.cosh(n * t);
  return sum * step;
};

const points = [1e-3, 0.1, 0.5, 1, 1.9, 2, 2.1, 3, 3.74, 3.75, 3.76, 5, 10, 30, 100];

describe('modified Bessel functions against their integrals (5.6e-7)', () => {
  it.each(points)('x = %d', (x) => {
    expect(Math.abs(besselI0(x) / integralI(0, x) - 1)).toBeLessThan(5.6e-7);
    expect(Math.abs(besselI1(x) / integralI(1, x) - 1)).toBeLessThan(5.6e-7);
    expect(Math.abs(besselK0(x) / integralK(0, x) - 1)).toBeLessThan(5.6e-7);
    expect(Math.abs(besselK1(x) / integralK(1, x) - 1)).toBeLessThan(5.6e-7);
  });

  it('I₀(0) = 1, I₁(0) = 0; arguments outside are refused', () => {
    expect(besselI0(0)).toBe(1);
    expect(besselI1(0)).toBe(0);
    for (const x of [-1, 701, Number.NaN])
      for (const law of [besselI0, besselI1, besselK0, besselK1]) expect(() => law(x)).toThrow(RangeError);
    for (const law of [besselK0, besselK1]) expect(() => law(0)).toThrow(RangeError);
  });
});
