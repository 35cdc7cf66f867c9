/**
 * How long each step is, by the methods' own rules, on laws whose error of a step is known beforehand: a power of its length and nothing else
 * (with slopes in time by differences, but for a hundredth).
 */
import { dormandPrince } from '@shaftwork/sim-core/numerics/dormand-prince';
import { type ExponentialStep, exponentialRosenbrock } from '@shaftwork/sim-core/numerics/exponential-rosenbrock';
import { IntegrationFailure } from '@shaftwork/sim-core/numerics/integration-failure';
import type { OdeSystem, StepView, Tolerances } from '@shaftwork/sim-core/numerics/ode-system';
import { rosenbrock } from '@shaftwork/sim-core/numerics/rosenbrock';
import { describe, expect, it } from 'vitest';

/** y' = t^power: what is integrated exactly below a method's order leaves one term. */
const powerOf = (power: number): OdeSystem => ({
  dimension: 1,
  eventCount: 0,
  derivative: (t, _y, dy) => {
    // products are rounded alike everywhere, which powers are not
    let rate = 1;
    for (let k = 0; k < power; k++) rate *= t;
    dy.fill(rate);
  },
});
const lengthsOf = (method: typeof rosenbrock, power: number, to: number, tolerances: Tolerances) => {
  const lengths: number[] = [];
  const y = Float64Array.of(0);
  const counts = method(powerOf(power), tolerances, 0, y, to, ({ from, to: end }) => lengths.push(end - from) > 0);
  return { ...counts, lengths, y: y[0] };
};
const allowed = (tolerance: number, more: Partial<Tolerances> = {}): Tolerances => ({
  relative: 0,
  absolute: Float64Array.of(tolerance),
  ...more,
});

describe('order 5(4): h·min(10, max(0.2, 0.9·err^−0.17·err_before^0.04)), err = K·h⁵ for t⁴', () => {
  // K = Σ eᵢ·cᵢ⁴ of the embedded pair (Dormand & Prince 1980, table 2)
  const share = (-71 / 16695) * 0.3 ** 4 + (71 / 1920) * 0.8 ** 4 + (-17253 / 339200) * (8 / 9) ** 4 + 22 / 525 - 1 / 40;
  const error = (h: number, tolerance: number): number => (Math.abs(share) * h ** 5) / tolerance;
  const growth = (now: number, before: number): number => Math.min(10, Math.max(0.2, 0.9 * now ** -0.17 * Math.max(before, 1e-4) ** 0.04));

  it('each step follows from the two before it', () => {
    const tolerance = 1e-6;
    const { lengths, rejected, steps, evaluations, y } = lengthsOf(dormandPrince, 4, 3, allowed(tolerance, { firstStep: 1e-3 }));
    expect(rejected).toBe(0);
    expect(lengths[0]).toBeCloseTo(1e-3, 15);
    let before = 1e-4;
    lengths.slice(0, -2).forEach((h, k) => {
      const now = error(h, tolerance);
      expect(lengths[k + 1] / (h * growth(now, before))).toBeCloseTo(1, 5);
      before = now;
    });
    // tenfold at the most, twice
    expect(lengths[1] / lengths[0]).toBeCloseTo(10, 9);
    expect(lengths[2] / lengths[1]).toBeCloseTo(10, 9);
    expect(y).toBeCloseTo(3 ** 5 / 5, 4);
    // one at the start, six a step, and one look at the slopes of one state every 25 steps
    expect(evaluations).toBe(1 + 6 * steps + Math.floor((steps - 1) / 25));
  });

  it.each([1, -100])('a share of the state, the larger of both ends, is allowed where it is relative: from y = %d', (from) => {
    const y = Float64Array.of(from);
    const seen: { h: number; larger: number }[] = [];
    const tolerances = { relative: 1e-9, absolute: Float64Array.of(1e-30), firstStep: 1e-2 };
    dormandPrince(powerOf(4), tolerances, 0, y, 3, (view) => {
      seen.push({ h: view.to - view.from, larger: Math.max(Math.abs(view.start[0]), Math.abs(view.end[0])) });
      return true;
    });
    let before = 1e-4;
    expect(seen.length).toBeGreaterThan(10);
    seen.slice(0, -2).forEach(({ h, larger }, k) => {
      const now = error(h, 1e-9 * larger);
      if (seen[k + 1].h > h * growth(now, before) * 1.001) return;
      expect(seen[k + 1].h / (h * growth(now, before))).toBeCloseTo(1, 4);
      before = now;
    });
  });

  it('a step that is too long is cut by its error, to a fifth at the most, and does not grow right after', () => {
    const tolerance = 1e-6;
    const fits = (tolerance / Math.abs(share)) ** 0.2;
    for (const times of [1.1, 1.5, 20]) {
      const { lengths, rejected } = lengthsOf(dormandPrince, 4, 100 * fits, allowed(tolerance, { firstStep: times * fits }));
      let h = times * fits;
      let refused = 0;
      while (error(h, tolerance) > 1) {
        h *= Math.max(0.2, 0.9 * error(h, tolerance) ** -0.17);
        refused++;
      }
      expect(rejected).toBeGreaterThanOrEqual(refused);
      expect(lengths[0] / h).toBeCloseTo(1, 5);
      expect(lengths[1]).toBeLessThanOrEqual(lengths[0] * (1 + 1e-9));
    }
  });

  it('remembers no error below 1e-4 of what is allowed, and shrinks to a fifth at the most', () => {
    // so little error that the memory is at its floor: 0.9·err^−0.17·(1e-4)^0.04 is beyond ten
    const { lengths } = lengthsOf(dormandPrince, 4, 1, allowed(1e3, { firstStep: 1e-4 }));
    expect(lengths.slice(1, 4).map((h, k) => h / lengths[k])).toEqual([10, 10, 10].map((x) => expect.closeTo(x, 9)));
  });
});

describe('the first step where none is told (Hairer, Nørsett & Wanner, II.4)', () => {
  const first = (law: (y: number) => number, start: number, tolerances: Tolerances, to = 10): number => {
    let length = Number.NaN;
    const system: OdeSystem = { dimension: 1, eventCount: 0, derivative: (_t, y, dy) => dy.set([law(y[0])]) };
    const counts = dormandPrince(system, tolerances, 0, Float64Array.of(start), to, (view) => {
      length = view.to - view.from;
      return false;
    });
    expect(counts.rejected).toBe(0);
    return length;
  };

  it.each([-1, 0.5, 3])('of y′ = %d·y: (0.01/max(|f′|, |f|))^⅕ in what is allowed', (rate) => {
    const bend = (allowance: number): number => (0.01 / Math.max(rate * rate, Math.abs(rate))) ** 0.2 * allowance ** 0.2;
    expect(first((y) => rate * y, 1, allowed(1e-6)) / bend(1e-6)).toBeCloseTo(1, 6);
    // a share of y is allowed: in its measure all is the same from a hundred
    const share = { relative: 1e-6, absolute: Float64Array.of(1e-12) };
    expect(first((y) => rate * y, 100, share) / bend(1e-6)).toBeCloseTo(1, 5);
    expect(first((y) => rate * y, 1, allowed(1e-6), 1e-3)).toBe(1e-3);
  });

  it('from nothing, or where nothing changes, is a small share of the whole', () => {
    expect(first(() => 1, 0, allowed(1e-3), 10)).toBeCloseTo(1e-3, 12);
    expect(first(() => 0, 1, allowed(1e-3), 10)).toBeCloseTo(1e-5, 15);
    expect(first(() => 0, 0, allowed(1e-3), 2)).toBeCloseTo(2e-6, 15);
  });

  it('looks ahead in time, not back: a rate that sets in from 0 on', () => {
    // nothing at 0, so that a millionth of the span is tried; 1000·t there, in 1e-6: (0.01/1e9)^⅕, or a hundred times what was tried
    const sets: OdeSystem = { dimension: 1, eventCount: 0, derivative: (t, _y, dy) => dy.set([1e3 * Math.max(0, t)]) };
    let length = Number.NaN;
    dormandPrince(sets, allowed(1e-6), 0, Float64Array.of(0), 1, ({ from, to }) => {
      length = to - from;
      return false;
    });
    expect(length).toBeCloseTo(1e-4, 12);
  });

  it('of the implicit method is a millionth of the whole', () => {
    let length = Number.NaN;
    rosenbrock(powerOf(0), allowed(1), 2, Float64Array.of(0), 5, (view) => {
      length = view.to - view.from;
      return false;
    });
    expect(length).toBeCloseTo(3e-6, 14);
  });
});

describe('order 4(3): h·min(5, max(0.2, 0.9·err^−¼)), err ∝ h⁴ for t³, so that every step is as long as the one before', () => {
  const tolerance = 1e-5;
  const run = (more: Partial<Tolerances>, times = 1, to = 2) => lengthsOf(rosenbrock, 3, to, allowed(times * tolerance, more));
  const usual = (times = 1): number => run({ firstStep: 0.01 }, times).lengths[3];

  it('from wherever it begins, and twice as long for sixteen times the error', () => {
    const { lengths, rejected, y } = run({ firstStep: 0.01 });
    expect(rejected).toBe(0);
    for (const h of lengths.slice(2, -1)) expect(Math.abs(h / lengths[2] - 1)).toBeLessThan(1e-2);
    expect(usual(16) / usual()).toBeCloseTo(2, 2);
    expect(y).toBeCloseTo(4, 3);
    // fivefold at the most
    expect(lengthsOf(rosenbrock, 3, 2, allowed(tolerance, { firstStep: 1e-4 })).lengths[1]).toBeCloseTo(5e-4, 9);
  });

  it('a step that is too long is cut to the usual one at once, or to a fifth, and does not grow right after', () => {
    const h = usual();
    for (const times of [1.2, 3]) {
      const { lengths, rejected } = run({ firstStep: times * h });
      expect(rejected).toBe(1);
      expect(Math.abs(lengths[0] / h - 1)).toBeLessThan(1e-2);
      expect(lengths[1]).toBeLessThanOrEqual(lengths[0] * (1 + 1e-9));
    }
    const { lengths, rejected } = run({ firstStep: 12 * h }, 1, 40 * h);
    expect(rejected).toBe(2);
    expect(Math.abs(lengths[0] / h - 1)).toBeLessThan(1e-2);
  });
});

describe.each([
  ['order 5(4)', dormandPrince],
  ['order 4(3)', rosenbrock],
] as const)('%s', (_, method) => {
  it('a last step within a hundredth of the end goes there; so many steps are taken, and no more', () => {
    const even = allowed(1e3, { firstStep: 0.1, largestStep: 0.1 });
    expect(lengthsOf(method, 0, 1.0009, even).lengths).toHaveLength(10);
    expect(lengthsOf(method, 0, 1.0011, even).lengths).toHaveLength(11);
    expect(lengthsOf(method, 0, 1, { ...even, mostSteps: 10 }).steps).toBe(10);
    expect(() => lengthsOf(method, 0, 1, { ...even, mostSteps: 9 })).toThrow(IntegrationFailure);
    expect(() => lengthsOf(method, 0, 1, { ...even, mostSteps: 9 })).toThrow(/steps/);
  });

  it('errors of many states are taken in the mean of their squares', () => {
    const power = method === rosenbrock ? 3 : 4;
    const twice: OdeSystem = { ...powerOf(power), dimension: 3 };
    const lengths: number[] = [];
    const tolerances = { relative: 0, absolute: new Float64Array(3).fill(1e-5), firstStep: 0.03 };
    method(twice, tolerances, 0, new Float64Array(3), 2, ({ from, to }) => lengths.push(to - from) > 0);
    const alone = lengthsOf(method, power, 2, allowed(1e-5, { firstStep: 0.03 })).lengths;
    expect(lengths).toHaveLength(alone.length);
    lengths.forEach((length, k) => {
      expect(length / alone[k]).toBeCloseTo(1, 9);
    });
    // one state that is allowed nothing sets the steps for all
    const strict = lengthsOf(method, power, 2, allowed(1e-5 / 3, { firstStep: 0.03 })).steps;
    const uneven = { relative: 0, absolute: Float64Array.of(1e-5, 1e-5, 1e-5 / 9), firstStep: 0.03 };
    expect(method(twice, uneven, 0, new Float64Array(3), 2, () => true).steps).toBeGreaterThanOrEqual(strict);
  });

  it('a step cut short by the end is not carried on, the one that was wanted is', () => {
    const { lengths, nextStep } = lengthsOf(method, 0, 1.006, allowed(1e3, { firstStep: 0.25, largestStep: 0.25 }));
    // ten times as much would be less than what was wanted
    expect(lengths.at(-1)).toBeCloseTo(0.006, 9);
    expect(nextStep).toBe(0.25);
  });

  it('a step that is taken again is as long as is told, and the next no longer', () => {
    const lengths: number[] = [];
    method(powerOf(0), allowed(1e3, { firstStep: 0.4 }), 0, Float64Array.of(0), 9, ({ from, to }) => {
      lengths.push(to - from);
      return lengths.length === 1 ? { retake: 0.05 } : true;
    });
    expect(lengths.slice(0, 3)).toEqual([0.4, 0.05, 0.05].map((x) => expect.closeTo(x, 12)));
    expect(lengths[3]).toBeGreaterThan(0.1);
  });

  it('steps do not grow right after one was refused, and one state without a rate refuses them all', () => {
    const wall: OdeSystem = {
      dimension: 2,
      eventCount: 0,
      derivative: (t, _y, dy) => dy.set([1, t < 0.47 ? 0 : Number.NaN]),
    };
    const lengths: number[] = [];
    const tolerances = { relative: 0, absolute: Float64Array.of(1, 1), firstStep: 0.1, largestStep: 0.1 };
    expect(() => method(wall, tolerances, 0, new Float64Array(2), 1, ({ from, to }) => lengths.push(to - from) > 0)).toThrow(/finite/);
    // what was refused counts among the steps that are allowed
    expect(() => method(wall, { ...tolerances, mostSteps: 8 }, 0, new Float64Array(2), 1, () => true)).toThrow(/steps/);
    expect(lengths.slice(0, 4)).toEqual([0.1, 0.1, 0.1, 0.1].map((x) => expect.closeTo(x, 12)));
    expect(lengths[4]).toBeLessThan(0.06);
    expect(lengths[5]).toBeLessThanOrEqual(lengths[4] * (1 + 1e-9));
    expect(lengths.reduce((sum, each) => sum + each, 0)).toBeCloseTo(0.47, 9);
    expect(() => method(wall, tolerances, 0.6, new Float64Array(2), 1, () => true)).toThrow(/finite/);
  });

  it('where every step is refused it says so, at its place', () => {
    const jump: OdeSystem = { dimension: 1, eventCount: 0, derivative: (t, _y, dy) => dy.set([t < 0.5 ? 0 : 1e9]) };
    const run = () => method(jump, allowed(1e-13, { firstStep: 0.1, largestStep: 0.1 }), 0, Float64Array.of(0), 1, () => true);
    expect(run).toThrow(IntegrationFailure);
    expect(run).toThrow(/t = 0\.(5|49999)/);
    const wall: OdeSystem = { dimension: 1, eventCount: 0, derivative: (t, _y, dy) => dy.set([t < 0.5 ? 0 : Number.NaN]) };
    expect(() => method(wall, allowed(1e-3), 0, Float64Array.of(0), 1, () => true)).toThrow(/finite/);
  });

  it('stops where it is told to, with the state there', () => {
    const y = Float64Array.of(0);
    const { steps } = method(powerOf(0), allowed(1, { firstStep: 0.1, largestStep: 0.1 }), 0, y, 1, (view: StepView) => view.to < 0.25);
    expect(steps).toBe(3);
    expect(y[0]).toBeCloseTo(0.3, 12);
  });
});

describe('exponential, third order: 0.9·∛(4/err), err = h³/(3·tolerance) for x₁′ = x₂², x₂′ = 1', () => {
  const clock = (x: Float64Array, rate: Float64Array): void => {
    rate[0] = x[1] ** 2;
    rate[1] = 1;
  };
  const method = (tolerance: number) => exponentialRosenbrock(2, clock, Float64Array.of(1e-4, 1e-4), Float64Array.of(tolerance, 1));
  const stepsOf = (tolerance: number, duration: number) => {
    const steps: { from: number; to: number; end: number; rates: number[] }[] = [];
    const x = Float64Array.of(0, 0);
    const time = method(tolerance).advance(x, duration, ({ from, to, start, end, startRate, endRate }: ExponentialStep) => {
      steps.push({ from, to, end: end[0], rates: [startRate[0] - start[1] ** 2, endRate[0] - end[1] ** 2] });
      return true;
    });
    return { steps, x, time };
  };

  it.each([1e-3, 2e-4, 2e-5])(
    'all steps but the last are that long, whatever the first was refused for, and exact: tolerance %s',
    (tolerance) => {
      const { steps, x, time } = stepsOf(tolerance, 2);
      const h = 0.9 * Math.cbrt(12 * tolerance);
      steps.slice(0, -1).forEach(({ from, to, end }, k) => {
        if (k > 0) expect(from).toBe(steps[k - 1].to);
        // one that the least cut, to a tenth, made shorter is let grow
        if (k > 0 || h > 0.2) expect((to - from) / h).toBeCloseTo(1, 2);
        expect(end).toBeCloseTo(to ** 3 / 3, 3);
      });
      for (const { rates } of steps) for (const rate of rates) expect(Math.abs(rate)).toBeLessThan(1e-12);
      expect(time).toBe(2);
      expect(x[0]).toBeCloseTo(8 / 3, 3);
      expect(x[1]).toBeCloseTo(2, 12);
      const last = steps[steps.length - 1];
      expect(last.to).toBe(2);
      expect(last.to - last.from).toBeLessThan(1.2 * h + 1e-9);
    },
  );

  it('the dense output of every step, not of the first alone, follows the law', () => {
    const x = Float64Array.of(0, 0);
    const seen = Float64Array.of(0, 0);
    method(2e-5).advance(x, 1, ({ from, to, at }) => {
      const middle = 0.5 * (from + to);
      at(middle, seen);
      expect(seen[0]).toBeCloseTo(middle ** 3 / 3, 3);
      expect(seen[1]).toBeCloseTo(middle, 12);
      // (1) of half the step and an eighth of the defect: exact for what bends evenly
      expect(Math.abs(seen[0] - middle ** 3 / 3)).toBeLessThan(1e-4);
      return true;
    });
  });
});
