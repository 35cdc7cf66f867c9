/** How steps follow the tolerance: by the root that a method's order gives, hardly any in vain, the first about as long as the others, a hard place passed and left behind. */
import { dormandPrince } from '@shaftwork/sim-core/numerics/dormand-prince';
import type { OdeSystem, StepView, Tolerances } from '@shaftwork/sim-core/numerics/ode-system';
import { rosenbrock } from '@shaftwork/sim-core/numerics/rosenbrock';
import { describe, expect, it } from 'vitest';

const oscillator: OdeSystem = {
  dimension: 2,
  eventCount: 0,
  derivative: (_, y, dy) => {
    dy[0] = y[1];
    dy[1] = -y[0];
  },
};
const allowed = (tolerance: number): Tolerances => ({ relative: 0, absolute: Float64Array.of(tolerance, tolerance) });

describe.each([
  ['dormand-prince', dormandPrince, 5],
  ['rosenbrock', rosenbrock, 4],
] as const)('%s', (_, method, order) => {
  const run = (system: OdeSystem, tolerances: Tolerances, to: number, start = [1, 0]) => {
    const lengths: number[] = [];
    const y = Float64Array.from(start);
    const accept = (step: StepView): boolean => lengths.push(step.to - step.from) > 0;
    return { ...method(system, tolerances, 0, y, to, accept), lengths, y };
  };

  it('takes ten times the steps for 10^order times the accuracy', () => {
    const [coarse, fine] = [1e-4, 1e-4 / 10 ** order].map((tolerance) => run(oscillator, allowed(tolerance), 40));
    expect(fine.steps / coarse.steps).toBeGreaterThan(8);
    expect(fine.steps / coarse.steps).toBeLessThan(12);
    for (const each of [coarse, fine]) {
      expect(each.rejected).toBeLessThan(0.1 * each.steps + 1);
      expect(each.lengths).toHaveLength(each.steps);
      expect(each.lengths.reduce((sum, length) => sum + length, 0)).toBeCloseTo(40, 9);
      expect(each.evaluations).toBeGreaterThan(order * each.steps);
    }
  });

  it('begins about as it goes on', () => {
    const { lengths, rejected } = run(oscillator, allowed(1e-7), 40);
    const usual = lengths[Math.floor(lengths.length / 2)];
    // an implicit method takes over from another, whose step it is told: by itself it feels its way
    if (method === dormandPrince) expect(lengths[0] / usual).toBeGreaterThan(0.05);
    expect(lengths[0] / usual).toBeLessThan(1.5);
    expect(rejected).toBeLessThan(3);
    // a first step that is told is the first step, unless it is too long
    expect(run(oscillator, { ...allowed(1e-7), firstStep: 1e-3 }, 40).lengths[0]).toBeCloseTo(1e-3, 15);
    expect(run(oscillator, { ...allowed(1e-7), firstStep: 5 }, 40).rejected).toBeGreaterThan(0);
  });

  it('takes no step beyond the longest that is told, and none much beyond the end', () => {
    const { lengths, y } = run(oscillator, { ...allowed(1e-2), largestStep: 0.3 }, 4.01);
    for (const length of lengths) expect(length).toBeLessThanOrEqual(0.3 * 1.01 + 1e-12);
    expect(Math.abs(y[0] - Math.cos(4.01))).toBeLessThan(0.05);
  });

  it('shortens where a pulse passes and lengthens after it, by no more than tenfold from step to step', () => {
    // dy/dt a bell of width 0.01 at t = 5: its area is what y gains
    const pulse: OdeSystem = {
      dimension: 1,
      eventCount: 0,
      derivative: (t, _y, dy) => {
        dy[0] = Math.exp(-(((t - 5) / 0.01) ** 2)) / (0.01 * Math.sqrt(Math.PI));
      },
    };
    const { lengths, rejected, y } = run(pulse, { relative: 0, absolute: Float64Array.of(1e-6), largestStep: 0.02 }, 10, [0]);
    expect(y[0]).toBeCloseTo(1, 4);
    expect(Math.min(...lengths)).toBeLessThan(0.01);
    expect(lengths.at(-2)).toBeCloseTo(0.02, 9);
    expect(rejected).toBeGreaterThan(0);
    lengths.slice(1, -1).forEach((length, k) => {
      expect(length / lengths[k]).toBeLessThan(10.1);
      expect(length / lengths[k]).toBeGreaterThan(0.02);
    });
  });

  it('a share of the state is allowed where a relative tolerance says so', () => {
    const growth: OdeSystem = { dimension: 1, eventCount: 0, derivative: (_t, y, dy) => dy.set([y[0]]) };
    const relative = run(growth, { relative: 1e-6, absolute: Float64Array.of(1e-12) }, 10, [1]);
    const strict = run(growth, { relative: 0, absolute: Float64Array.of(1e-6) }, 10, [1]);
    expect(Math.abs(relative.y[0] / Math.exp(10) - 1)).toBeLessThan(1e-4);
    expect(strict.steps).toBeGreaterThan(1.5 * relative.steps);
    // where growth is even, so are steps against a relative tolerance
    const middle = Math.floor(relative.lengths.length / 2);
    const [early, late] = [relative.lengths[middle], relative.lengths[relative.lengths.length - 3]];
    expect(late / early).toBeGreaterThan(0.7);
    expect(late / early).toBeLessThan(1.4);
  });
});
