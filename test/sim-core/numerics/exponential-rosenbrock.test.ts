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
    const error = (steps: number, tolerance: number): number => {
      const method = exponentialRosenbrock(
        1,
        single((x) => -x * x),
        even(1, 1e-7),
        even(1, tolerance),
      );
      const x = even(1, 1);
      for (let k = 0; k < steps / 2; k++) method.advance(x, 1 / steps);
      return Math.abs(x[0] - 1 / 1.5);
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
    expect(error(8, 1e3) / error(16, 1e3)).toBeGreaterThan(3.5);
    expect(error(8, 1e3) / error(16, 1e3)).toBeLessThan(5);
    // with the third-order part, of which each step has enough to be looked at and none too much
    expect(error(8, 1.6e-4) / error(16, 1.6e-4)).toBeGreaterThan(7);
    expect(error(8, 1.6e-4) / error(16, 1.6e-4)).toBeLessThan(9.5);
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

  // a pair that is not symmetric, so that rows and columns, and the states' own tolerances, cannot be taken for one another
  const pair = (x: Float64Array, rate: Float64Array): void => {
    rate[0] = -2 * x[0] + 3 * x[1];
    rate[1] = -0.5 * x[1];
  };
  /** x₀(t) = (x₀ − 2·x₁)·e^(−2t) + 2·x₁·e^(−t/2), x₁(t) = x₁·e^(−t/2) */
  const pairAt = (t: number, [a, b]: readonly number[]): number[] => [
    (a - 2 * b) * Math.exp(-2 * t) + 2 * b * Math.exp(-0.5 * t),
    b * Math.exp(-0.5 * t),
  ];

  it('carries a propagator on by that of each step, whatever each state’s tolerance', () => {
    for (const tolerance of [Float64Array.of(1e-3, 1), Float64Array.of(1, 1e-3)]) {
      const method = exponentialRosenbrock(2, pair, even(2, 1e-3), tolerance);
      // columns: where (1, 0) and (0, 1) go; begun from a matrix of its own
      const propagator = Float64Array.of(1, 4, 0, 1);
      const x = Float64Array.of(5, 7);
      for (let k = 0; k < 2; k++) method.advance(x, 0.4, undefined, propagator);
      const [a, b] = [pairAt(0.8, [1, 0]), pairAt(0.8, [4, 1])];
      [a[0], b[0], a[1], b[1]].forEach((each, k) => {
        expect(propagator[k]).toBeCloseTo(each, 8);
      });
      pairAt(0.8, [5, 7]).forEach((each, k) => {
        expect(x[k]).toBeCloseTo(each, 8);
      });
    }
  });

  it('where the law bends too: the product of the steps’ own is near to how the end moves with the start', () => {
    // x = 1/(1/x₀ + t): ∂x/∂x₀ at 1 s is ¼; beside it a state that is driven, in tolerances a thousand times apart
    const method = exponentialRosenbrock(
      2,
      (x, rate) => {
        rate[0] = -x[0] * x[0];
        rate[1] = 50 * x[0] * x[0] - 0.1 * x[1];
      },
      Float64Array.of(1e-7, 1e-5),
      Float64Array.of(1e-6, 1e-3),
    );
    const endOf = (a: number, b: number, propagator?: Float64Array): Float64Array => {
      const x = Float64Array.of(a, b);
      method.advance(x, 1, undefined, propagator);
      return x;
    };
    const propagator = Float64Array.of(1, 0, 0, 1);
    const end = endOf(1, 2, propagator);
    expect(end[0]).toBeCloseTo(0.5, 5);
    const [up, down] = [endOf(1.001, 2), endOf(0.999, 2)];
    [0, 1].forEach((i) => {
      expect(propagator[2 * i] / ((up[i] - down[i]) / 0.002)).toBeCloseTo(1, 1);
    });
    expect(propagator[0]).toBeCloseTo(0.25, 2);
    expect(propagator[1]).toBeCloseTo(0, 12);
    expect(propagator[3]).toBeCloseTo(Math.exp(-0.1), 9);
  });

  it('writes rates and slopes where it is asked to, and leaves the state', () => {
    const method = exponentialRosenbrock(2, pair, Float64Array.of(1e-3, 1e-2), even(2, 1e-3));
    const [x, rate] = [Float64Array.of(5, 7), even(2, 0)];
    method.linearise(x, rate);
    expect([...rate]).toEqual([11, -3.5]);
    [-2, 3, 0, -0.5].forEach((each, k) => {
      expect(method.jacobian[k]).toBeCloseTo(each, 9);
    });
    expect([...x]).toEqual([5, 7]);
  });

  it('has a dense output that meets both ends and misses by the third power between', () => {
    const missOf = (h: number): number => {
      const method = exponentialRosenbrock(
        1,
        single((x) => -x * x),
        even(1, 1e-7),
        even(1, 1e-3),
      );
      let miss = Number.NaN;
      const [x, seen] = [even(1, 1), even(1, 0)];
      method.advance(x, h, (step) => {
        step.at(step.from, seen);
        expect(seen[0]).toBe(1);
        step.at(step.to, seen);
        expect(seen[0]).toBeCloseTo(step.end[0], 12);
        step.at(0.5 * h, seen);
        miss = Math.abs(seen[0] - 1 / (1 + 0.5 * h));
        return true;
      });
      return miss;
    };
    expect(missOf(0.125)).toBeLessThan(1e-4);
    expect(missOf(0.125) / missOf(0.0625)).toBeGreaterThan(7);
  });

  it('comes near to where the laws end in ever shorter steps', () => {
    // x′ = −√x from 1: (1 − t/2)²; below nought there is no rate
    const method = exponentialRosenbrock(
      1,
      single((x) => -Math.sqrt(x)),
      even(1, 1e-7),
      even(1, 1e-4),
    );
    const x = even(1, 1);
    expect(method.advance(x, 1.9)).toBe(1.9);
    expect(x[0]).toBeCloseTo(0.0025, 3);
    expect(method.advance(even(1, 1), 0)).toBe(0);
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
