import { allowedErrors, differences, fastestRate } from '@shaftwork/sim-core/numerics/jacobian';
import { expect, it } from 'vitest';

const tolerances = { relative: 1e-3, absolute: Float64Array.of(1e-2, 1e-4) };

it('an error is allowed by its own size and by the state’s', () => {
  const into = new Float64Array(2);
  allowedErrors(tolerances, Float64Array.of(-50, 3), into);
  expect(into[0]).toBeCloseTo(0.06, 15);
  expect(into[1]).toBeCloseTo(0.0031, 15);
});

it('differences of a linear law are its matrix, and the state is put back', () => {
  const matrix = [-3, 2, 0.5, -40];
  const system = {
    dimension: 2,
    eventCount: 0,
    derivative: (t: number, y: Float64Array, dy: Float64Array) => {
      dy[0] = matrix[0] * y[0] + matrix[1] * y[1] + t;
      dy[1] = matrix[2] * y[0] + matrix[3] * y[1] - t;
    },
  };
  const y = Float64Array.of(2, -1);
  const slope = new Float64Array(2);
  system.derivative(7, y, slope);
  const jacobian = new Float64Array(4);
  differences(system, 7, y, slope, Float64Array.of(0.01, 0.002), jacobian, new Float64Array(2));
  matrix.forEach((each, k) => {
    expect(jacobian[k]).toBeCloseTo(each, 8);
  });
  expect([...y]).toEqual([2, -1]);
});

it('a law that bends is told by the difference over a tenth of the error allowed', () => {
  const square = { dimension: 1, eventCount: 0, derivative: (_: number, y: Float64Array, dy: Float64Array) => dy.set([y[0] ** 2]) };
  const jacobian = new Float64Array(1);
  differences(square, 0, Float64Array.of(3), Float64Array.of(9), Float64Array.of(0.5), jacobian, new Float64Array(1));
  // ((3 + δ)² − 9)/δ = 6 + δ
  expect(jacobian[0]).toBeCloseTo(6.05, 10);
});

it('the fastest rate is that of a diagonal, a bound for others, in whatever units the states are', () => {
  const rate = (entries: number[], allowed: number[]): number =>
    fastestRate(2, Float64Array.from(entries), Float64Array.from(allowed), new Float64Array(4));
  expect(rate([-3, 0, 0, -50], [1, 1])).toBeCloseTo(50, 9);
  expect(rate([-3, 0, 0, -50], [1e-6, 400])).toBeCloseTo(50, 9);
  // eigenvalues −1 and −4; the second state a thousand times as large in another unit
  const plain = rate([-2, 1, 2, -3], [1, 1]);
  expect(plain).toBeGreaterThanOrEqual(4);
  expect(plain).toBeLessThan(4 * 2 ** (1 / 8));
  expect(rate([-2, 1e-3, 2e3, -3], [1, 1e3])).toBeCloseTo(plain, 9);
  expect(rate([Number.NaN, 0, 0, -50], [1, 1])).toBeNaN();
});
