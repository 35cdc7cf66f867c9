/** A step that is refused is taken again, shorter, as if it had not been: by each method, with events, and for ever where it is always refused. */
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import type { OdeSystem, StepView } from '@shaftwork/sim-core/numerics/ode-system';
import { rosenbrock } from '@shaftwork/sim-core/numerics/rosenbrock';
import { describe, expect, it } from 'vitest';

const oscillator: OdeSystem = {
  dimension: 2,
  eventCount: 1,
  derivative: (_, y, dy) => {
    dy[0] = y[1];
    dy[1] = -y[0];
  },
  margins: (_, y, out) => {
    out[0] = y[0] + 0.5;
  },
};
const tolerances = { relative: 0, absolute: Float64Array.of(1e-9, 1e-9) };
const LONGEST = 0.05;
const short = ({ from, to }: StepView): boolean => to - from <= LONGEST * (1 + 1e-12);

describe.each(['odex', 'dormand-prince'] as const)('%s', (method) => {
  it('goes on from where it was, to the same end', () => {
    const steps: { from: number; to: number; y: number }[] = [];
    const y = Float64Array.of(1, 0);
    const outcome = integrate({ ...oscillator, eventCount: 0 }, method, tolerances, 0, y, 2, (step) => {
      if (!short(step)) return false;
      return steps.push({ from: step.from, to: step.to, y: step.end[0] });
    });
    expect(steps.length).toBeGreaterThanOrEqual(2 / LONGEST);
    expect(outcome.steps).toBe(steps.length);
    expect(outcome.rejected).toBeGreaterThan(0);
    for (const [k, { from, to, y }] of steps.entries()) {
      expect(from).toBe(k === 0 ? 0 : steps[k - 1].to);
      expect(Math.abs(y - Math.cos(to))).toBeLessThan(1e-7);
    }
    expect(outcome).toMatchObject({ time: 2, reason: 'end' });
    expect(Math.abs(y[0] - Math.cos(2))).toBeLessThan(1e-7);
  });

  it('finds an event anew that lay in a refused step, once', () => {
    // cos t falls through −½ at 2π/3
    const y = Float64Array.of(1, 0);
    let refused = 0;
    const outcome = integrate(oscillator, method, tolerances, 0, y, 3, (step) => {
      if (step.to > 2.09 && !short(step)) {
        refused++;
        return false;
      }
      return true;
    });
    expect(refused).toBeGreaterThan(0);
    expect(outcome).toMatchObject({ reason: 'event', event: 0 });
    expect(outcome.time).toBeCloseTo((2 * Math.PI) / 3, 7);
    expect(y[0]).toBeCloseTo(-0.5, 7);
  });

  it('fails where no length will do', () => {
    const always = () => integrate(oscillator, method, tolerances, 1, Float64Array.of(1, 0), 2, () => false);
    expect(always).toThrow(expect.objectContaining({ kind: 'step-too-small', time: 1 }));
  });
});

it('the implicit method does the same', () => {
  const y = Float64Array.of(1, 0);
  let reached = 0;
  const { steps, rejected } = rosenbrock(oscillator, tolerances, 0, y, 2, (step) => {
    if (step.to - step.from > 0.0101) return { retake: 0.01 };
    expect(step.from).toBe(reached);
    reached = step.to;
    return true;
  });
  expect(reached).toBe(2);
  expect(steps).toBeGreaterThanOrEqual(200);
  expect(rejected).toBeGreaterThan(0);
  expect(Math.abs(y[0] - Math.cos(2))).toBeLessThan(1e-6);
  expect(() => rosenbrock(oscillator, tolerances, 0, Float64Array.of(1, 0), 2, ({ from, to }) => ({ retake: 0.5 * (to - from) }))).toThrow(
    expect.objectContaining({ kind: 'step-too-small', time: 0 }),
  );
});
