import { dormandPrince, dormandPrinceWorkspace } from '@shaftwork/sim-core/numerics/dormand-prince';
import { IntegrationFailure } from '@shaftwork/sim-core/numerics/integration-failure';
import type { OdeSystem, StepView } from '@shaftwork/sim-core/numerics/ode-system';
import { describe, expect, it } from 'vitest';

/** y' = −2ty², y(0) = 1: y = 1/(1 + t²) */
const rational: OdeSystem = {
  dimension: 1,
  eventCount: 0,
  derivative(t, y, dy) {
    dy[0] = -2 * t * y[0]! ** 2;
  },
};
const oscillator: OdeSystem = {
  dimension: 2,
  eventCount: 0,
  derivative(_, y, dy) {
    dy[0] = y[1]!;
    dy[1] = -y[0]!;
  },
};
const goOn = () => true;
const loose = (step: number) => ({ relative: 0, absolute: Float64Array.of(1e3, 1e3), firstStep: step, largestStep: step });

/** log₂ of the ratio of errors when the step is halved */
const order = (error: (step: number) => number, step: number) => Math.log2(error(step) / error(step / 2));

describe('dormandPrince', () => {
  it('has global order 5 on closed forms', () => {
    const rationalError = (step: number) => {
      const y = Float64Array.of(1);
      const tolerances = { ...loose(step), absolute: Float64Array.of(1e3) };
      expect(dormandPrince(rational, tolerances, 0, y, 2, goOn).steps).toBe(Math.round(2 / step));
      return Math.abs(y[0]! - 1 / 5);
    };
    const oscillatorError = (step: number) => {
      const y = Float64Array.of(1, 0);
      dormandPrince(oscillator, loose(step), 0, y, 4, goOn);
      return Math.hypot(y[0]! - Math.cos(4), y[1]! + Math.sin(4));
    };
    expect(Math.abs(order(oscillatorError, 1 / 8) - 5)).toBeLessThan(0.1);
    // from 5.6 at coarse steps down to 5; 1/64 is within the asymptotic range and well above rounding
    expect(Math.abs(order(rationalError, 1 / 64) - 5)).toBeLessThan(0.15);
  });

  it('has local order 6 at the end of a step and 5 in its dense output, which meets both ends in value and slope', () => {
    const inside = new Float64Array(2);
    const oneStep = (step: number, look: (view: StepView) => number) => {
      let seen = Number.NaN;
      dormandPrince(oscillator, loose(step), 0, Float64Array.of(1, 0), step, (view) => {
        seen = look(view);
        return true;
      });
      return seen;
    };
    const atEnd = (step: number) => oneStep(step, (view) => Math.hypot(view.end[0]! - Math.cos(step), view.end[1]! + Math.sin(step)));
    const at = (share: number) => (step: number) =>
      oneStep(step, (view) => {
        view.at(share * step, inside);
        return Math.hypot(inside[0]! - Math.cos(share * step), inside[1]! + Math.sin(share * step));
      });
    expect(Math.abs(order(atEnd, 0.2) - 6)).toBeLessThan(0.2);
    for (const share of [0.2, 0.5, 0.85]) expect(Math.abs(order(at(share), 0.05) - 5)).toBeLessThan(0.2);
    oneStep(0.3, (view) => {
      for (const [t, state] of [
        [0, view.start],
        [0.3, view.end],
      ] as const) {
        view.at(t, inside);
        expect(inside[0]).toBeCloseTo(state[0]!, 15);
        const d = 1e-6;
        const towards = t === 0 ? d : -d;
        view.at(t + towards, inside);
        expect((inside[0]! - state[0]!) / towards).toBeCloseTo(state[1]!, 5);
      }
      return 0;
    });
  });

  it('keeps its error in proportion to the tolerance, and its steps to the fifth root of it', () => {
    const run = (tolerance: number) => {
      const y = Float64Array.of(1, 0);
      const counts = dormandPrince(oscillator, { relative: tolerance, absolute: Float64Array.of(tolerance, tolerance) }, 0, y, 20, goOn);
      return { ...counts, error: Math.hypot(y[0]! - Math.cos(20), y[1]! + Math.sin(20)) };
    };
    const [coarse, fine] = [run(1e-5), run(1e-10)];
    expect(coarse.error).toBeLessThan(1e-4);
    expect(fine.error).toBeLessThan(1e-9);
    expect(fine.steps / coarse.steps).toBeGreaterThan(8);
    expect(fine.steps / coarse.steps).toBeLessThan(12);
    // six evaluations a step, two for the start, and one a state at each look at the Jacobian, of which the last steps need none
    const looks = (fine.evaluations - 6 * (fine.steps + fine.rejected) - 2) / 2;
    expect(Number.isInteger(looks)).toBe(true);
    expect(looks).toBeGreaterThan(fine.steps / 25 - 3);
    expect(looks).toBeLessThanOrEqual(fine.steps / 25);
  });

  it('shows steps that join without gap from start to end', () => {
    let reached = 0;
    let state = 1;
    dormandPrince(rational, { relative: 1e-6, absolute: Float64Array.of(1e-9) }, 0, Float64Array.of(1), 3, (step) => {
      expect(step.from).toBe(reached);
      expect(step.start[0]).toBe(state);
      reached = step.to;
      state = step.end[0]!;
      return true;
    });
    expect(reached).toBe(3);
  });

  it('stops after the step that is answered with false, and restarts from there as if nothing had happened', () => {
    const tolerances = { relative: 1e-9, absolute: Float64Array.of(1e-12) };
    const y = Float64Array.of(1);
    let reached = 0;
    let count = 0;
    const first = dormandPrince(rational, tolerances, 0, y, 2, (step) => {
      reached = step.to;
      return ++count < 5;
    });
    expect(first.steps).toBe(5);
    expect(y[0]).toBeCloseTo(1 / (1 + reached ** 2), 8);
    const second = dormandPrince(rational, { ...tolerances, firstStep: first.nextStep }, reached, y, 2, goOn);
    expect(y[0]).toBeCloseTo(0.2, 9);
    expect(second.evaluations).toBe(6 * (second.steps + second.rejected) + 1);
  });

  it('carries the step it wanted, not the one the end cut short', () => {
    const tolerances = { relative: 1e-4, absolute: Float64Array.of(1e-4, 1e-4) };
    const whole = dormandPrince(oscillator, tolerances, 0, Float64Array.of(1, 0), 10, goOn);
    const cut = dormandPrince(oscillator, { ...tolerances, firstStep: 0.5 }, 0, Float64Array.of(1, 0), 1e-3, goOn);
    expect(whole.nextStep).toBeGreaterThan(0.3);
    expect(cut.nextStep).toBeGreaterThanOrEqual(0.5 * 1e-3);
    expect(cut.steps).toBe(1);
    const after = dormandPrince(oscillator, { ...tolerances, largestStep: 0.01, firstStep: 5 }, 0, Float64Array.of(1, 0), 1, goOn);
    expect(after.steps).toBe(100);
    expect(after.nextStep).toBeLessThanOrEqual(0.01);
  });

  it('gives the same numbers from a used workspace', () => {
    const workspace = dormandPrinceWorkspace(2);
    const tolerances = { relative: 1e-6, absolute: Float64Array.of(1e-6, 1e-6) };
    const run = () => {
      const y = Float64Array.of(0.3, -2);
      const counts = dormandPrince(oscillator, tolerances, 1, y, 7, goOn, workspace);
      return { ...counts, y };
    };
    expect(run()).toEqual(run());
  });

  it('halves its step where a trial state has no derivatives', () => {
    // y' = −√y, y(0) = 1: y = (1 − t/2)²; trial states below zero give NaN
    const draining: OdeSystem = {
      dimension: 1,
      eventCount: 0,
      derivative(_, y, dy) {
        dy[0] = -Math.sqrt(y[0]!);
      },
    };
    const y = Float64Array.of(1);
    const counts = dormandPrince(draining, { relative: 1e-8, absolute: Float64Array.of(1e-10), firstStep: 1.9 }, 0, y, 1.9, goOn);
    expect(y[0]).toBeCloseTo(0.0025, 8);
    expect(counts.rejected).toBeGreaterThan(0);
    expect(() => dormandPrince(draining, { relative: 1e-8, absolute: Float64Array.of(1e-10) }, 0, Float64Array.of(-1), 1, goOn)).toThrow(
      IntegrationFailure,
    );
  });

  it('tells a stiff system from one that merely moves fast', () => {
    // thermal pair with time constants 1 ms and 100 s
    const stiff: OdeSystem = {
      dimension: 2,
      eventCount: 0,
      derivative(_, y, dy) {
        dy[0] = 1000 * (y[1]! - y[0]!);
        dy[1] = 0.01 * (1 - y[1]!);
      },
    };
    const tolerances = { relative: 1e-5, absolute: Float64Array.of(1e-5, 1e-5) };
    const y = Float64Array.of(0, 0);
    expect(dormandPrince(stiff, tolerances, 0, y, 1, goOn).stiff).toBe(true);
    expect(y[1]).toBeCloseTo(-Math.expm1(-0.01), 5);
    const fast: OdeSystem = {
      ...oscillator,
      derivative: (_, z, dz) => {
        dz[0] = 1000 * z[1]!;
        dz[1] = -1000 * z[0]!;
      },
    };
    expect(dormandPrince(fast, tolerances, 0, Float64Array.of(1, 0), 1, goOn).stiff).toBe(false);
  });
});
