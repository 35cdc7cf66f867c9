import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import { IntegrationFailure } from '@shaftwork/sim-core/numerics/integration-failure';
import type { OdeSystem } from '@shaftwork/sim-core/numerics/ode-system';
import { rosenbrock } from '@shaftwork/sim-core/numerics/rosenbrock';
import { describe, expect, it } from 'vitest';

/** y' = −2ty², y(0) = 1: y = 1/(1 + t²) */
const rational: OdeSystem = {
  dimension: 1,
  eventCount: 0,
  derivative(t, y, dy) {
    dy[0] = -2 * t * y[0] ** 2;
  },
};
/** The same with time as a state. */
const withClock: OdeSystem = {
  dimension: 2,
  eventCount: 0,
  derivative(_, y, dy) {
    dy[0] = -2 * y[1] * y[0] ** 2;
    dy[1] = 1;
  },
};
const oscillator: OdeSystem = {
  dimension: 2,
  eventCount: 0,
  derivative(_, y, dy) {
    dy[0] = y[1];
    dy[1] = -y[0];
  },
};
const goOn = () => true;
/** Steps of one length, and a Jacobian by differences fine enough for the order to show. */
const even = (step: number, dimension: number) => ({
  relative: 0,
  absolute: new Float64Array(dimension).fill(1e-5),
  firstStep: step,
  largestStep: step,
});
const order = (error: (step: number) => number, step: number) => Math.log2(error(step) / error(step / 2));

describe('rosenbrock', () => {
  it('has global order 4 on closed forms', () => {
    const pendulum: OdeSystem = {
      dimension: 2,
      eventCount: 0,
      derivative(_, y, dy) {
        dy[0] = y[1];
        dy[1] = -Math.sin(y[0]);
      },
    };
    const exact = Float64Array.of(1, 0);
    integrate(pendulum, 'odex', { relative: 1e-13, absolute: Float64Array.of(1e-13, 1e-13) }, 0, exact, 2);
    const pendulumError = (step: number) => {
      const y = Float64Array.of(1, 0);
      rosenbrock(pendulum, even(step, 2), 0, y, 2, goOn);
      return Math.abs(y[0] - exact[0]);
    };
    const oscillatorError = (step: number) => {
      const y = Float64Array.of(1, 0);
      rosenbrock(oscillator, even(step, 2), 0, y, 2, goOn);
      return Math.hypot(y[0] - Math.cos(2), y[1] + Math.sin(2));
    };
    expect(Math.abs(order(oscillatorError, 1 / 16) - 4)).toBeLessThan(0.2);
    expect(Math.abs(order(pendulumError, 1 / 8) - 4)).toBeLessThan(0.3);
  });

  it('takes time in the law as it would take a state that is the time', () => {
    const [a, b] = [Float64Array.of(1), Float64Array.of(1, 0)];
    rosenbrock(rational, even(1 / 8, 1), 0, a, 2, goOn);
    rosenbrock(withClock, even(1 / 8, 2), 0, b, 2, goOn);
    expect(Math.abs(a[0] - b[0])).toBeLessThan(1e-7);
    expect(Math.abs(b[0] - 1 / 5)).toBeLessThan(1e-5);
  });

  it('has a dense output of order 3 that meets both ends', () => {
    const inside = new Float64Array(2);
    const errorAt = (share: number) => (step: number) => {
      let seen = Number.NaN;
      rosenbrock(oscillator, even(step, 2), 0, Float64Array.of(1, 0), step, (view) => {
        view.at(share * step, inside);
        seen = Math.hypot(inside[0] - Math.cos(share * step), inside[1] + Math.sin(share * step));
        return true;
      });
      return seen;
    };
    for (const share of [0.3, 0.5, 0.8]) expect(Math.abs(order(errorAt(share), 0.05) - 4)).toBeLessThan(0.3);
    rosenbrock(oscillator, even(0.05, 2), 0, Float64Array.of(1, 0), 0.1, ({ from, to, start, end, at }) => {
      at(from, inside);
      expect(inside[0]).toBeCloseTo(start[0], 14);
      at(to, inside);
      expect(inside[0]).toBeCloseTo(end[0], 14);
      return true;
    });
  });

  it('solves the stiff chemistry of Robertson to published figures, in few steps', () => {
    const robertson: OdeSystem = {
      dimension: 3,
      eventCount: 0,
      derivative(_, y, dy) {
        dy[0] = -0.04 * y[0] + 1e4 * y[1] * y[2];
        dy[2] = 3e7 * y[1] ** 2;
        dy[1] = -dy[0] - dy[2];
      },
    };
    const y = Float64Array.of(1, 0, 0);
    const { steps } = rosenbrock(robertson, { relative: 1e-7, absolute: Float64Array.of(1e-8, 1e-12, 1e-8) }, 0, y, 40, goOn);
    // H.H. Robertson 1966, figures at t = 40 as in A.C. Hindmarsh, ODEPACK, Scientific Computing, North-Holland 1983 (from memory)
    expect(y[0]).toBeCloseTo(0.715827, 5);
    expect(y[1] / 9.185534e-6).toBeCloseTo(1, 4);
    expect(y[2]).toBeCloseTo(0.2841637, 5);
    expect(steps).toBeLessThan(200);
  });

  it('takes over from the explicit methods where stability alone sets their steps', () => {
    // Prothero & Robinson, Math. Comp. 28, 1974: y' = −λ(y − cos t) − sin t, y = cos t
    const stiff: OdeSystem = {
      dimension: 1,
      eventCount: 0,
      derivative(t, y, dy) {
        dy[0] = -1e5 * (y[0] - Math.cos(t)) - Math.sin(t);
      },
    };
    for (const method of ['odex', 'dormand-prince'] as const) {
      const y = Float64Array.of(1);
      const times: number[] = [0];
      const outcome = integrate(stiff, method, { relative: 1e-6, absolute: Float64Array.of(1e-6) }, 0, y, 20, ({ from, to }) => {
        expect(from).toBe(times.at(-1));
        times.push(to);
      });
      expect(outcome.stiff).toBe(true);
      expect(outcome.time).toBe(20);
      expect(times.at(-1)).toBe(20);
      expect(Math.abs(y[0] - Math.cos(20))).toBeLessThan(1e-6);
      // an explicit step is bounded by 3.3/1e5 s: 600,000 of them
      expect(outcome.evaluations).toBeLessThan(30_000);
    }
  });

  it('stops at an event after it has taken over, and finds it as exactly', () => {
    const falling: OdeSystem = {
      dimension: 2,
      eventCount: 1,
      derivative(_, y, dy) {
        dy[0] = -1e4 * (y[0] - y[1]);
        dy[1] = -1;
      },
      margins(_, y, out) {
        out[0] = y[1] - 0.25;
      },
    };
    const y = Float64Array.of(1, 1);
    const outcome = integrate(falling, 'dormand-prince', { relative: 1e-6, absolute: Float64Array.of(1e-6, 1e-6) }, 0, y, 5);
    expect(outcome).toMatchObject({ reason: 'event', event: 0, stiff: true });
    expect(outcome.time).toBeCloseTo(0.75, 8);
  });

  it('fails where there is no derivative, as the others do', () => {
    const broken: OdeSystem = {
      dimension: 1,
      eventCount: 0,
      derivative(t, _, dy) {
        dy[0] = t > 1 ? Number.NaN : 1;
      },
    };
    const run = () => rosenbrock(broken, { relative: 1e-6, absolute: Float64Array.of(1e-6) }, 0, Float64Array.of(0), 2, goOn);
    expect(run).toThrow(IntegrationFailure);
    expect(run).toThrow(/finite/);
  });
});
