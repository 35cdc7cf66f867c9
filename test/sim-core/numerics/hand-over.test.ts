/** Which method integrates when: extrapolation gives way after many steps, an explicit method where only stability holds its steps short, none before an event or the end. */
import { dormandPrince, dormandPrinceWorkspace } from '@shaftwork/sim-core/numerics/dormand-prince';
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import type { OdeSystem, StepView } from '@shaftwork/sim-core/numerics/ode-system';
import { expect, it } from 'vitest';

/** A rate of many turns, y = (0.1·cos ωt + ω·sin ωt)/(ω² + 0.01) + c·e^(−0.1t). */
const turning: OdeSystem = {
  dimension: 1,
  eventCount: 0,
  derivative: (t, y, dy) => {
    dy[0] = Math.cos(40 * t) - 0.1 * y[0];
  },
};
const tolerances = { relative: 1e-8, absolute: Float64Array.of(1e-8) };
/** Only the method of order 5 has slopes at hand. */
const seen = (steps: StepView[]) => (step: StepView) => void steps.push({ ...step });

it('extrapolation gives way to the method of order 5 after a hundred and fifty steps, and the end is reached', () => {
  const steps: StepView[] = [];
  const y = Float64Array.of(0);
  const outcome = integrate(turning, 'odex', tolerances, 0, y, 120, seen(steps));
  expect(steps.filter(({ startSlope }) => startSlope === undefined)).toHaveLength(150);
  expect(steps.length).toBeGreaterThan(160);
  expect(outcome.steps).toBe(steps.length);
  expect(outcome.evaluations).toBeGreaterThan(6 * steps.length);
  const square = 1600.01;
  const exact = (0.1 * Math.cos(4800) + 40 * Math.sin(4800)) / square - (0.1 / square) * Math.exp(-12);
  expect(y[0]).toBeCloseTo(exact, 5);
  steps.slice(1).forEach((step, k) => {
    expect(step.from).toBe(steps[k].to);
  });
  expect(outcome.time).toBe(120);
});

/** y₁ follows cos t a ten-thousandth of a second behind; closed form within 1e-7 of cos t + 1e-4·sin t once it has settled. */
const stiff: OdeSystem = {
  dimension: 2,
  eventCount: 0,
  derivative: (t, y, dy) => {
    dy[0] = 1e4 * (Math.cos(t) - y[0]);
    dy[1] = y[0];
  },
};
const both = { relative: 1e-6, absolute: Float64Array.of(1e-6, 1e-6) };

it('a stiff system is left to the implicit method: far fewer evaluations than without, and the same end', () => {
  const y = Float64Array.of(1, 0);
  const outcome = integrate(stiff, 'dormand-prince', both, 0, y, 6);
  expect(y[0]).toBeCloseTo(Math.cos(6) + 1e-4 * Math.sin(6), 5);
  expect(y[1]).toBeCloseTo(Math.sin(6), 3);
  const alone = Float64Array.of(1, 0);
  const explicit = dormandPrince(stiff, both, 0, alone, 0.6, () => true);
  expect(explicit.stiff).toBe(true);
  expect(outcome.evaluations).toBeLessThan(explicit.evaluations);
  expect(outcome.reason).toBe('end');
});

it('a system that is not stiff never counts as such, and one that is counts once it has been looked at', () => {
  const plain = dormandPrince(turning, tolerances, 0, Float64Array.of(0), 10, () => true);
  expect(plain.stiff).toBe(false);
  const short = dormandPrince(stiff, both, 0, Float64Array.of(1, 0), 1e-4, () => true);
  expect(short.stiff).toBe(false);
});

it('an event ends all of it, before any hand-over', () => {
  const falling: OdeSystem = { ...stiff, eventCount: 1, margins: (t, _y, out) => out.set([0.05 - t]) };
  const outcome = integrate(falling, 'dormand-prince', both, 0, Float64Array.of(1, 0), 6);
  expect(outcome).toMatchObject({ reason: 'event', event: 0, crossed: [0] });
  expect(outcome.time).toBeCloseTo(0.05, 8);
});

it('a workspace watches the system that it is used with', () => {
  const workspace = dormandPrinceWorkspace(1);
  const withEnd = (at: number): OdeSystem => ({ ...turning, eventCount: 1, margins: (t, _y, out) => out.set([at - t]) });
  for (const at of [0.5, 0.25])
    expect(integrate(withEnd(at), 'dormand-prince', tolerances, 0, Float64Array.of(0), 1, undefined, workspace).time).toBeCloseTo(at, 8);
});

it('extrapolation ends at its limit of steps, and comes back from where there is no rate, told how it did', () => {
  expect(() => integrate(turning, 'odex', { ...tolerances, mostSteps: 3 }, 0, Float64Array.of(0), 10)).toThrow(/steps/);
  // y' = −√y from 1: (1 − t/2)²; what is tried below nought has no rate
  const draining: OdeSystem = { dimension: 1, eventCount: 0, derivative: (_t, y, dy) => dy.set([-Math.sqrt(y[0])]) };
  const y = Float64Array.of(1);
  const allowed = { relative: 1e-8, absolute: Float64Array.of(1e-10), firstStep: 1.9 };
  const outcome = integrate(draining, 'odex', allowed, 0, y, 1.9);
  expect(y[0]).toBeCloseTo(0.0025, 8);
  expect(outcome.rejected).toBeGreaterThan(0);
  expect(outcome.time).toBe(1.9);
  const wall: OdeSystem = { dimension: 1, eventCount: 0, derivative: (t, _y, dy) => dy.set([t > 1 ? Number.NaN : 1]) };
  const reached: number[] = [];
  expect(() => integrate(wall, 'odex', tolerances, 0, Float64Array.of(0), 2, ({ to }) => reached.push(to))).toThrow(/finite/);
  expect(reached.at(-1)).toBeCloseTo(1, 9);
  for (const to of reached) expect(to).toBeLessThanOrEqual(1);
});
