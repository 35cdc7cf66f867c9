import { dormandPrinceWorkspace } from '@shaftwork/sim-core/numerics/dormand-prince';
import { type IntegrationMethod, integrate } from '@shaftwork/sim-core/numerics/integrate';
import { IntegrationFailure, type IntegrationFailureKind } from '@shaftwork/sim-core/numerics/integration-failure';
import type { OdeSystem } from '@shaftwork/sim-core/numerics/ode-system';
import { expm, type Matrix, matrix } from 'mathjs';
import { describe, expect, it } from 'vitest';

const methods: readonly IntegrationMethod[] = ['odex', 'dormand-prince'];
const every = (dimension: number, absolute: number, relative = absolute) => ({
  relative,
  absolute: new Float64Array(dimension).fill(absolute),
});

const oscillator: OdeSystem = {
  dimension: 2,
  eventCount: 0,
  derivative(_, y, dy) {
    dy[0] = y[1]!;
    dy[1] = -y[0]!;
  },
};
const withEvents = (
  system: Omit<OdeSystem, 'eventCount' | 'margins'>,
  eventCount: number,
  margins: (t: number, y: Float64Array, out: Float64Array) => void,
): OdeSystem => ({ ...system, eventCount, margins });
/** y' = 1 */
const clock: OdeSystem = {
  dimension: 1,
  eventCount: 0,
  derivative: (_, __, dy) => {
    dy[0] = 1;
  },
};

/** Thermal chain of a small motor: winding, iron, can, mount; time constants from 0.3 s to 400 s. */
const capacities = [12, 45, 60, 400];
const conductances = [20, 60, 0.8];
const toAir = [0, 0.05, 0.9, 0.4];
const heat = [60, 15, 2, 0];
const chain: OdeSystem = {
  dimension: 4,
  eventCount: 0,
  derivative(_, y, dy) {
    for (let i = 0; i < 4; i++) {
      const left = i > 0 ? conductances[i - 1]! * (y[i - 1]! - y[i]!) : 0;
      const right = i < 3 ? conductances[i]! * (y[i + 1]! - y[i]!) : 0;
      dy[i] = (heat[i]! + left + right - toAir[i]! * y[i]!) / capacities[i]!;
    }
  },
};
/** Closed form: the exponential of the matrix bordered by the heat, applied to rises of zero and a constant one. */
function chainExactly(t: number): number[] {
  const rows = Array.from({ length: 5 }, () => new Array<number>(5).fill(0));
  const unit = new Float64Array(4);
  const column = new Float64Array(4);
  chain.derivative(0, new Float64Array(4), column);
  for (let i = 0; i < 4; i++) rows[i]![4] = column[i]! * t;
  for (let j = 0; j < 4; j++) {
    unit.fill(0);
    unit[j] = 1;
    const slope = new Float64Array(4);
    chain.derivative(0, unit, slope);
    for (let i = 0; i < 4; i++) rows[i]![j] = (slope[i]! - column[i]!) * t;
  }
  const exponential = expm(matrix(rows)) as unknown as Matrix;
  return [0, 1, 2, 3].map((i) => exponential.get([i, 4]) as number);
}

describe.each(methods)('integrate with %s', (method) => {
  it('follows the harmonic oscillator in proportion to the tolerance', () => {
    for (const tolerance of [1e-5, 1e-8, 1e-11]) {
      const y = Float64Array.of(1, 0);
      const outcome = integrate(oscillator, method, every(2, tolerance), 0, y, 20);
      expect(outcome).toMatchObject({ time: 20, reason: 'end', crossed: [], stiff: false });
      expect(Math.hypot(y[0]! - Math.cos(20), y[1]! + Math.sin(20))).toBeLessThan(10 * tolerance);
    }
  });

  it('follows a stiff-ish thermal chain as the matrix exponential does', () => {
    for (const [end, tolerance] of [
      [2, 1e-8],
      [60, 1e-8],
      [900, 1e-6],
    ] as const) {
      const y = new Float64Array(4);
      integrate(chain, method, { ...every(4, tolerance * 100), relative: tolerance }, 0, y, end);
      const exact = chainExactly(end);
      for (let i = 0; i < 4; i++) expect(Math.abs(y[i]! - exact[i]!)).toBeLessThan(tolerance * 100 * (1 + Math.abs(exact[i]!)));
    }
  });

  it('is as accurate between steps as at their ends', () => {
    const inside = new Float64Array(2);
    let worst = 0;
    let reached = 0;
    integrate(oscillator, method, every(2, 1e-8), 0, Float64Array.of(1, 0), 12, (step) => {
      expect(step.from).toBe(reached);
      reached = step.to;
      for (let k = 0; k <= 10; k++) {
        const t = step.from + ((step.to - step.from) * k) / 10;
        step.at(t, inside);
        worst = Math.max(worst, Math.hypot(inside[0]! - Math.cos(t), inside[1]! + Math.sin(t)));
      }
    });
    expect(reached).toBe(12);
    expect(worst).toBeLessThan(2e-7);
    expect(worst).toBeGreaterThan(0);
  });

  it('goes on after a break as one run would, with the carried step', () => {
    // the drive switches at t = 1 and t = 1.5; within each piece y' = c − y
    const pieces = [
      { until: 1, c: 2 },
      { until: 1.5, c: -1 },
      { until: 4, c: 0.5 },
    ];
    const y = Float64Array.of(0);
    let exact = 0;
    let t = 0;
    let firstStep = 0;
    for (const { until, c } of pieces) {
      const system: OdeSystem = {
        dimension: 1,
        eventCount: 0,
        derivative: (_, z, dz) => {
          dz[0] = c - z[0]!;
        },
      };
      const outcome = integrate(system, method, { ...every(1, 1e-10), firstStep }, t, y, until);
      exact = c + (exact - c) * Math.exp(t - until);
      expect(outcome.nextStep).toBeGreaterThan(0);
      firstStep = outcome.nextStep;
      t = until;
      expect(Math.abs(y[0]! - exact)).toBeLessThan(1e-8);
    }
  });

  describe('events', () => {
    it('finds a zero of the oscillator to 1e-9 s, and leaves the state there', () => {
      const system = withEvents(oscillator, 1, (_, y, out) => {
        out[0] = y[0]! - 0.3;
      });
      const y = Float64Array.of(1, 0);
      let last = 0;
      let lastState = Number.NaN;
      const outcome = integrate(system, method, every(2, 1e-12), 0, y, 20, (step) => {
        last = step.to;
        lastState = step.end[0]!;
      });
      expect(outcome).toMatchObject({ reason: 'event', event: 0, crossed: [0] });
      expect(Math.abs(outcome.time - Math.acos(0.3))).toBeLessThan(1e-9);
      expect(y[0]).toBeLessThanOrEqual(0.3);
      expect(y[0]).toBeCloseTo(0.3, 9);
      expect(last).toBe(outcome.time);
      expect(lastState).toBe(y[0]);
    });

    it('does not fire twice for one fall: the next is a full turn later', () => {
      const system = withEvents(oscillator, 1, (_, y, out) => {
        out[0] = y[0]! - 0.3;
      });
      const y = Float64Array.of(1, 0);
      const times: number[] = [];
      for (let t = 0; times.length < 3; ) {
        const outcome = integrate(system, method, every(2, 1e-11), t, y, 40);
        expect(outcome.reason).toBe('event');
        t = outcome.time;
        times.push(t);
      }
      for (let turn = 0; turn < 3; turn++) expect(Math.abs(times[turn]! - Math.acos(0.3) - 2 * Math.PI * turn)).toBeLessThan(1e-8);
    });

    it('goes on from a fall whose margin rounding shows now on this side of zero, now on that', () => {
      let begun = true;
      // at its zero the margin comes out as a rounding, positive as each integration begins and negative when asked again
      const margin = (y: number): number => {
        const rounding = begun ? 1e-16 : -1e-16;
        begun = false;
        return Math.abs(1 - y) < 1e-8 ? rounding : 1 - y;
      };
      const system = withEvents(clock, 1, (_, y, out) => {
        out[0] = margin(y[0]!);
      });
      const workspace = dormandPrinceWorkspace(1);
      const y = new Float64Array(1);
      let time = 0;
      let falls = 0;
      for (let restarts = 0; time < 2 && restarts < 20; restarts++) {
        begun = true;
        const outcome = integrate(system, method, every(1, 1e-9), time, y, 2, undefined, workspace);
        time = outcome.time;
        falls += outcome.crossed.length;
      }
      expect(time).toBe(2);
      expect(falls).toBe(1);
    });
    it('ignores a margin that rises through zero, and one that starts at or below it', () => {
      const rising = withEvents(clock, 2, (_, y, out) => {
        out[0] = y[0]! - 0.5;
        out[1] = -y[0]!;
      });
      expect(integrate(rising, method, every(1, 1e-6), 0, Float64Array.of(0), 1).reason).toBe('end');
    });

    it('lets the earliest win when several fall in one step, and names those that fall with it', () => {
      const times = [0.7, 0.4, 0.9, 0.4];
      const system = withEvents(clock, 4, (_, y, out) => {
        for (let i = 0; i < 4; i++) out[i] = times[i]! - y[0]!;
      });
      const y = Float64Array.of(0);
      const outcome = integrate(system, method, { ...every(1, 1e-3), firstStep: 1 }, 0, y, 1);
      expect(outcome).toMatchObject({ reason: 'event', event: 1, crossed: [1, 3] });
      expect(Math.abs(outcome.time - 0.4)).toBeLessThan(1e-9);
      const next = integrate(system, method, { ...every(1, 1e-3), firstStep: 1 }, outcome.time, y, 1);
      expect(next).toMatchObject({ reason: 'event', event: 0 });
      expect(Math.abs(next.time - 0.7)).toBeLessThan(1e-9);
    });

    it('sees a margin that falls and recovers within one step', () => {
      for (const lowest of [0.31, 0.5, 0.62]) {
        const system = withEvents(clock, 1, (t, _, out) => {
          out[0] = (t - lowest) ** 2 - 1e-4;
        });
        const outcome = integrate(system, method, { ...every(1, 1), firstStep: 1 }, 0, Float64Array.of(0), 1);
        expect(outcome).toMatchObject({ reason: 'event', event: 0 });
        expect(Math.abs(outcome.time - (lowest - 0.01))).toBeLessThan(1e-9);
      }
    });

    it('finds an event that falls by a jump, or at the very end', () => {
      const jump = withEvents(clock, 1, (t, _, out) => {
        out[0] = t < 0.3 ? Number.POSITIVE_INFINITY : -1;
      });
      expect(Math.abs(integrate(jump, method, every(1, 1e-6), 0, Float64Array.of(0), 1).time - 0.3)).toBeLessThan(1e-9);
      const atEnd = withEvents(clock, 1, (t, _, out) => {
        out[0] = 1 - t;
      });
      expect(integrate(atEnd, method, every(1, 1e-6), 0, Float64Array.of(0), 1)).toMatchObject({ reason: 'event', time: 1 });
    });
  });

  describe('failures', () => {
    const failing = (system: OdeSystem, limits: { firstStep?: number; mostSteps?: number; relative?: number } = {}) => {
      const y = new Float64Array(system.dimension).fill(1);
      try {
        integrate(system, method, { ...every(system.dimension, 1e-8), ...limits }, 0, y, 2);
      } catch (thrown) {
        if (thrown instanceof IntegrationFailure) return thrown;
        throw thrown;
      }
      throw new Error(`ended at ${y.join(', ')} without a failure`);
    };
    const derivative = (f: (t: number, y: number) => number): OdeSystem => ({
      dimension: 1,
      eventCount: 0,
      derivative: (t, y, dy) => {
        dy[0] = f(t, y[0]!);
      },
    });

    it.each<[string, IntegrationFailureKind, OdeSystem, number, { mostSteps?: number }]>([
      ['a rate that is not a number from the start', 'derivative-not-finite', derivative(() => Number.NaN), 0, {}],
      ['an infinite rate', 'derivative-not-finite', derivative((t) => (t > 0 ? Number.POSITIVE_INFINITY : 1)), 0, {}],
      ['a rate that ends at t = 1', 'derivative-not-finite', derivative((t) => (t > 1 ? Number.NaN : 1)), 1, {}],
      ['the limit on steps', 'too-many-steps', derivative((t) => Math.cos(300 * t)), 0.5, { mostSteps: 20 }],
      [
        'a margin that is not a number',
        'margin-not-finite',
        {
          ...derivative(() => 1),
          eventCount: 1,
          margins: (t, _, out) => {
            out[0] = t > 0.5 ? Number.NaN : 1;
          },
        },
        1,
        {},
      ],
    ])('names %s', (_, kind, system, near, limits) => {
      const failure = failing(system, limits);
      expect(failure.kind).toBe(kind);
      expect(failure.name).toBe('IntegrationFailure');
      expect(Math.abs(failure.time - near)).toBeLessThanOrEqual(kind === 'derivative-not-finite' ? 1e-9 : 1);
      expect(failure.message).toContain(`t = ${failure.time} s`);
    });

    it('names the blow-up of y′ = y² at t = 1 instead of stepping over it', () => {
      const failure = failing(derivative((_, y) => y * y));
      expect(['step-too-small', 'derivative-not-finite', 'too-many-steps']).toContain(failure.kind);
      expect(Math.abs(failure.time - 1)).toBeLessThan(1e-6);
    });

    it('survives trial states without derivatives', () => {
      const draining = derivative((_, y) => -Math.sqrt(y)); // y = (1 − t/2)²
      const y = Float64Array.of(1);
      const outcome = integrate(draining, method, { ...every(1, 1e-9), firstStep: 1.9 }, 0, y, 1.95);
      expect(y[0]).toBeCloseTo(0.025 ** 2, 7);
      expect(outcome.rejected).toBeGreaterThan(0);
    });

    it('refuses senseless requests', () => {
      const run =
        (t0: number, y: number[], t1: number, tolerances = every(2, 1e-6)) =>
        () =>
          integrate(oscillator, method, tolerances, t0, Float64Array.from(y), t1);
      expect(run(1, [1, 0], 0)).toThrow(/runs forward/);
      expect(run(0, [1, 0], Number.NaN)).toThrow(RangeError);
      expect(run(0, [1], 1)).toThrow(/2 states was given 1 initial values/);
      expect(run(0, [1, 0], 1, every(2, 0))).toThrow(/must be positive/);
      expect(run(0, [1, 0], 1, { ...every(2, 1e-6), largestStep: 0 } as never)).toThrow(/limit on steps/);
      expect(() => integrate({ ...oscillator, eventCount: 1 }, method, every(2, 1e-6), 0, Float64Array.of(1, 0), 1)).toThrow(/margins/);
      expect(run(0, [Number.NaN, 0], 1)).toThrow(IntegrationFailure);
    });
  });

  it('does nothing over no time', () => {
    const y = Float64Array.of(1, 0);
    expect(integrate(oscillator, method, every(2, 1e-6), 3, y, 3)).toMatchObject({ time: 3, reason: 'end', evaluations: 0 });
    expect(Array.from(y)).toEqual([1, 0]);
  });
});

describe('the two methods', () => {
  it('agree on a chain whose heat changes with its own warmth', () => {
    const feedback: OdeSystem = {
      ...chain,
      derivative(t, y, dy) {
        chain.derivative(t, y, dy);
        dy[0] = dy[0]! + (heat[0]! * 0.0039 * y[0]!) / capacities[0]!;
      },
    };
    const [a, b] = methods.map((method) => {
      const y = new Float64Array(4);
      integrate(feedback, method, every(4, 1e-9), 0, y, 300, undefined, method === 'odex' ? undefined : dormandPrinceWorkspace(4));
      return y;
    });
    for (let i = 0; i < 4; i++) expect(Math.abs(a![i]! - b![i]!)).toBeLessThan(1e-6);
    expect(a![0]).toBeGreaterThan(chainExactly(300)[0]!);
  });
});
