import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import type { OdeSystem, StepView } from '@shaftwork/sim-core/numerics/ode-system';
import { addStepIntegrals, GAUSS_LEGENDRE_3, GAUSS_LEGENDRE_5, quadratureWorkspace } from '@shaftwork/sim-core/numerics/quadrature';
import { describe, expect, it } from 'vitest';

/** A step on which the one state is t itself. */
const ramp = (from: number, to: number): StepView => ({
  from,
  to,
  start: Float64Array.of(from),
  end: Float64Array.of(to),
  at: (t, into) => {
    into[0] = t;
  },
});

function powerIntegral(rule: typeof GAUSS_LEGENDRE_3, power: number): number {
  const sums = new Float64Array(1);
  const quantity = (_: number, y: Float64Array, out: Float64Array) => {
    out[0] = y[0]! ** power;
  };
  addStepIntegrals(ramp(0.5, 2), rule, quantity, sums, quadratureWorkspace(1, 1));
  return sums[0]!;
}
const exactly = (power: number) => (2 ** (power + 1) - 0.5 ** (power + 1)) / (power + 1);

describe('Gauss–Legendre rules', () => {
  // Abramowitz & Stegun 1964, table 25.4, n = 3 and n = 5, abscissas and weights on (−1, 1)
  it('hold the tabulated nodes and weights', () => {
    const published: [typeof GAUSS_LEGENDRE_3, number[], number[]][] = [
      [GAUSS_LEGENDRE_3, [-0.774596669241483, 0, 0.774596669241483], [0.555555555555556, 0.888888888888889, 0.555555555555556]],
      [
        GAUSS_LEGENDRE_5,
        [-0.906179845938664, -0.538469310105683, 0, 0.538469310105683, 0.906179845938664],
        [0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366, 0.236926885056189],
      ],
    ];
    for (const [rule, abscissas, weights] of published) {
      expect(rule.nodes).toHaveLength(abscissas.length);
      for (const [i, node] of rule.nodes.entries()) expect(2 * node - 1).toBeCloseTo(abscissas[i]!, 14);
      for (const [i, weight] of rule.weights.entries()) expect(2 * weight).toBeCloseTo(weights[i]!, 14);
    }
  });

  it.each([
    [GAUSS_LEGENDRE_3, 5],
    [GAUSS_LEGENDRE_5, 9],
  ])('integrate polynomials of degree 2n − 1 exactly and no more: case %#', (rule, degree) => {
    for (let power = 0; power <= degree; power++) expect(Math.abs(powerIntegral(rule, power) / exactly(power) - 1)).toBeLessThan(1e-14);
    expect(Math.abs(powerIntegral(rule, degree + 1) / exactly(degree + 1) - 1)).toBeGreaterThan(1e-7);
  });
});

describe('addStepIntegrals', () => {
  it('accounts for the energy of a discharging capacitor: what leaves is what the resistor takes', () => {
    // C = 2, R = 3: v = 10·exp(−t/6); ∫ v²/R dt = ½C(v₀² − v²)
    const discharge: OdeSystem = {
      dimension: 1,
      eventCount: 0,
      derivative: (_, y, dy) => {
        dy[0] = -y[0]! / 6;
      },
    };
    const sums = new Float64Array(2);
    const work = quadratureWorkspace(1, 2);
    const y = Float64Array.of(10);
    integrate(discharge, 'dormand-prince', { relative: 1e-8, absolute: Float64Array.of(1e-8) }, 0, y, 15, (step) =>
      addStepIntegrals(
        step,
        GAUSS_LEGENDRE_5,
        (_, state, out) => {
          out[0] = state[0]! ** 2 / 3;
          out[1] = 1;
        },
        sums,
        work,
      ),
    );
    expect(sums[0]).toBeCloseTo(100 * -Math.expm1(-5), 5);
    expect(sums[0]! / (100 - y[0]! ** 2)).toBeCloseTo(1, 7);
    expect(sums[1]).toBeCloseTo(15, 12);
  });

  it('refuses a quantity that is not a number', () => {
    const missing = (_: number, __: Float64Array, out: Float64Array) => {
      out[0] = Number.NaN;
    };
    expect(() => addStepIntegrals(ramp(0, 1), GAUSS_LEGENDRE_3, missing, new Float64Array(1), quadratureWorkspace(1, 1))).toThrow(
      /Integral 1/,
    );
  });
});
