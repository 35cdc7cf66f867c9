/** Closed forms, order of convergence, and the other stepper. */
import { type ExponentialStep, exponentialRosenbrock } from '@shaftwork/sim-core/numerics/exponential-rosenbrock';
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import { describe, expect, it } from 'vitest';

const even = (n: number, x: number) => new Float64Array(n).fill(x);

/** A system of one state from its rate. */
const single =
  (law: (x: number) => number) =>
  (x: Float64Array, rate: Float64Array): void => {
    rate[0] = law(x[0]);
  };

describe('exponential Rosenbrock', () => {
  it('takes a linear stiff system in one step, to the closed form', () => {
    const method = exponentialRosenbrock(
      2,
      (x, rate) => {
        rate[0] = -50 * (x[0] - x[1]);
        rate[1] = 0.01 * (3 - x[1]);
      },
      even(2, 1e-3),
      even(2, 1e-3),
    );
    const x = Float64Array.from([0, 1]);
    let steps = 0;
    const dense = new Float64Array(2);
    const time = method.advance(x, 200, (step) => {
      steps++;
      step.at(40, dense);
      return true;
    });
    expect(time).toBe(200);
    expect(steps).toBe(1);
    const slow = (t: number) => 3 - 2 * Math.exp(-0.01 * t);
    expect(x[1]).toBeCloseTo(slow(200), 7);
    expect(dense[1]).toBeCloseTo(slow(40), 7);
    // the fast state follows the slow one with a lag of 1/50 s: slow − slope/50 to first order in 0.01/50
    expect(dense[0]).toBeCloseTo(slow(40) - (0.01 * (3 - slow(40))) / 50 / (1 - 0.01 / 50), 6);
  });

  it('agrees with Dormand and Prince on copper that feeds back and radiation, within its tolerance', () => {
    const rates = (x: Float64Array, rate: Float64Array): void => {
      rate[0] = (40 * (1 + 0.004 * (x[0] - 293)) - 0.8 * (x[0] - x[1])) / 15;
      rate[1] = (0.8 * (x[0] - x[1]) - 0.2 * (x[1] - 293) - 1e-10 * (x[1] ** 4 - 293 ** 4)) / 90;
    };
    const x = even(2, 293);
    let steps = 0;
    exponentialRosenbrock(2, rates, even(2, 0.01), even(2, 0.02)).advance(x, 900, () => {
      steps++;
      return true;
    });
    const y = even(2, 293);
    integrate(
      { dimension: 2, derivative: (_, s, ds) => rates(s, ds), eventCount: 0 },
      'dormand-prince',
      { relative: 1e-10, absolute: even(2, 1e-8) },
      0,
      y,
      900,
    );
    expect(Math.abs(x[0] - y[0])).toBeLessThan(0.05);
    expect(Math.abs(x[1] - y[1])).toBeLessThan(0.05);
    expect(steps).toBeLessThan(30);
  });

  it('converges with the third power of the step', () => {
    // x' = −x², x = 1/(1 + t)
    const error = (steps: number): number => {
      const method = exponentialRosenbrock(
        1,
        single((x) => -x * x),
        even(1, 1e-7),
        even(1, 1e3),
      );
      const x = even(1, 1);
      // a tolerance nobody exceeds but below which the third-order part is added
      for (let k = 0; k < steps; k++) method.advance(x, 1 / steps);
      return Math.abs(x[0] - 0.5);
    };
    const fine = exponentialRosenbrock(
      1,
      single((x) => -x * x),
      even(1, 1e-7),
      even(1, 1e-5),
    );
    const x = even(1, 1);
    fine.advance(x, 1);
    expect(Math.abs(x[0] - 0.5)).toBeLessThan(1e-5);
    // second-order part alone: halving the step quarters the error
    expect(error(8) / error(16)).toBeGreaterThan(3.5);
  });

  it('stops where it is told and gives the propagator of a linear system', () => {
    const method = exponentialRosenbrock(
      1,
      single((x) => -0.1 * x),
      even(1, 1e-3),
      even(1, 1e-3),
    );
    const propagator = even(1, 1);
    const x = even(1, 5);
    method.advance(x, 7, undefined, propagator);
    expect(propagator[0]).toBeCloseTo(Math.exp(-0.7), 8);
    expect(method.advance(x, 7, (step: ExponentialStep) => step.to < 1)).toBe(7);
  });

  it('shortens a last step that was refused only just', () => {
    // a decay that bends enough for the whole span to be refused by a little, whatever the span
    for (const span of [0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.2, 1.4]) {
      const method = exponentialRosenbrock(
        1,
        single((x) => -x * x),
        even(1, 1e-7),
        even(1, 1e-3),
      );
      const x = even(1, 1);
      expect(method.advance(x, span)).toBe(span);
      expect(Math.abs(x[0] - 1 / (1 + span))).toBeLessThan(3e-3);
    }
  });

  it('says NaN where the laws end', () => {
    const method = exponentialRosenbrock(
      1,
      single((x) => (x > 2 ? Number.NaN : 1)),
      even(1, 1e-3),
      even(1, 1e-3),
    );
    expect(method.advance(even(1, 0), 10)).toBeNaN();
  });

  it.each([0.994, 0.999, 1.001])('crosses a jump of the laws that its difference quotients reach over, from %s', (from) => {
    // 1 a second up to 1, 1001 a second from there on: a forward quotient over a hundredth says 100,000 a second for the one
    const method = exponentialRosenbrock(
      1,
      single((x) => (x < 1 ? 1 : 1001)),
      even(1, 0.01),
      even(1, 0.03),
    );
    const x = even(1, from);
    expect(method.advance(x, 100)).toBe(100);
    const jump = Math.max(0, 1 - from);
    // as exact as the step that crosses it is short
    expect(Math.abs(x[0] - (from + jump + 1001 * (100 - jump)))).toBeLessThan(1);
  });
});
