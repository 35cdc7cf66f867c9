/** Events within one step whose states are known in closed form: where they are found, which counts first, what is not seen and what fires no second time. */
import { eventWatch } from '@shaftwork/sim-core/numerics/event-watch';
import { IntegrationFailure } from '@shaftwork/sim-core/numerics/integration-failure';
import type { StepView } from '@shaftwork/sim-core/numerics/ode-system';
import { describe, expect, it } from 'vitest';

/** A step on which the state is the time. */
const stepOf = (from: number, to: number): StepView => ({
  from,
  to,
  start: Float64Array.of(from),
  end: Float64Array.of(to),
  at: (t, into) => {
    into[0] = t;
  },
});
const watching = (margins: readonly ((t: number) => number)[], inside?: boolean) => {
  const watch = eventWatch({
    dimension: 1,
    eventCount: margins.length,
    derivative: () => {},
    margins: (_, y, out) => out.set(margins.map((margin) => margin(y[0]))),
    ...(inside === undefined ? {} : { watchInside: inside }),
  });
  watch.begin(0, Float64Array.of(0));
  return watch;
};

describe.each([true, false])('margins taken inside too: %s', (inside) => {
  it.each([0.2, 0.5, 0.8, 1])('a fall at %d is found there, on the far side of it', (when) => {
    const found = watching([(t) => when - t, () => 1], inside).find(stepOf(0, 1));
    expect(found?.time).toBeCloseTo(when, 8);
    expect(found?.time).toBeGreaterThanOrEqual(when);
    expect(found?.crossed).toEqual([0]);
    expect(found?.state[0]).toBe(found?.time);
  });

  it('the first of several counts, with those that fall by then; the next one next', () => {
    const watch = watching([(t) => 0.7 - t, (t) => 0.3 - t, (t) => 0.3 - t], inside);
    const first = watch.find(stepOf(0, 1));
    expect([first?.time.toFixed(6), first?.crossed]).toEqual(['0.300000', [1, 2]]);
    watch.begin(first?.time ?? 0, Float64Array.of(first?.time ?? 0));
    const second = watch.find(stepOf(first?.time ?? 0, 1));
    expect([second?.time.toFixed(6), second?.crossed]).toEqual(['0.700000', [0]]);
  });

  it('is found the finer the shorter the step is', () => {
    const found = watching([(t) => 1e-9 - t ** 3 * 8], inside).find(stepOf(0, 1e-3));
    expect(Math.abs((found?.time ?? 0) - 5e-4)).toBeLessThan(3e-13);
  });

  it('what stands at nought or below, rises or stays positive is none', () => {
    expect(watching([(t) => -t, (t) => t - 0.5, () => 1, () => 0], inside).find(stepOf(0, 1))).toBeUndefined();
  });

  it('step after step the margin at the end of one is that at the start of the next', () => {
    const watch = watching([(t) => 2.5 - t], inside);
    expect(watch.find(stepOf(0, 1))).toBeUndefined();
    expect(watch.find(stepOf(1, 2))).toBeUndefined();
    expect(watch.find(stepOf(2, 3))?.time).toBeCloseTo(2.5, 8);
  });

  it('a margin that is no number is a failure at its time', () => {
    const watch = watching([(t) => (t > 0.9 ? Number.NaN : 1)], inside);
    expect(() => watch.find(stepOf(0, 1))).toThrow(IntegrationFailure);
    expect(() => watch.begin(1, Float64Array.of(1))).toThrow(/t = 1 s/);
  });
});

/** As `watching`, with the times at which margins were taken. */
const asking = (margins: readonly ((t: number) => number)[], inside?: boolean) => {
  const asked: number[] = [];
  const [first = () => 1, ...others] = margins;
  const watch = watching(
    [
      (t) => {
        asked.push(t);
        return first(t);
      },
      ...others,
    ],
    inside,
  );
  asked.length = 0;
  return { watch, asked };
};

describe('one that fell amid others', () => {
  // at nought or below from the start, or rising
  const bystanders = [() => -1, () => 0, (t: number) => -t, (t: number) => t - 0.2, () => 1];

  it.each([true, false])('is not taken for them, nor they for it; taken inside too: %s', (inside) => {
    const found = watching([...bystanders.slice(0, 3), (t) => 0.5 - t, ...bystanders], inside).find(stepOf(0, 1));
    expect([found?.time, found?.crossed]).toEqual([expect.closeTo(0.5, 9), [3]]);
  });

  it('costs no more beside those that stay', () => {
    const alone = asking([(t) => 0.7 - t ** 3], false);
    const beside = asking([(t) => 0.7 - t ** 3, ...bystanders], false);
    alone.watch.find(stepOf(0, 1));
    beside.watch.find(stepOf(0, 1));
    expect(beside.asked).toEqual(alone.asked);
    // once at the end to see it, and no middle
    expect(alone.asked[0]).toBe(1);
    expect(alone.asked).not.toContain(0.5);
  });

  it('is not one that stood at nought amid the step and is below it by then', () => {
    expect(watching([(t) => 0.7 - t, (t) => -((t - 0.5) ** 2)]).find(stepOf(0, 1))?.crossed).toEqual([0]);
  });

  it('that has risen in one step may fall in the next', () => {
    for (const inside of [true, false]) {
      const watch = watching([(t) => (t - 0.6) * (1.7 - t)], inside);
      expect(watch.find(stepOf(0, 1))).toBeUndefined();
      expect(watch.find(stepOf(1, 2))?.time).toBeCloseTo(1.7, 9);
    }
  });
});

describe('the place of a fall', () => {
  it.each([
    ['bent down', (x: number) => 0.3 - x ** 3, 14],
    ['bent up', (x: number) => Math.exp(-3 * x) - 0.5, 14],
    ['a jump', (x: number) => (x < 0.37 ? 1 : -1), 39],
    ['an uneven jump', (x: number) => (x < 0.83 ? 1e-6 : -1), 52],
    ['a steep one', (x: number) => -Math.expm1(40 * (x - 0.61)), 20],
    ['a flat one', (x: number) => (0.44 - x) ** 3, 101],
  ])('is where the margin is no longer positive, and hardly later, early or late in a run: %s', (_, law, most) => {
    for (const from of [0, 3, 1e4]) {
      for (const length of [1e-5, 0.01, 2]) {
        const margin = (t: number): number => law((t - from) / length);
        const { watch, asked } = asking([margin]);
        watch.begin(from, Float64Array.of(from));
        asked.length = 0;
        const { time = Number.NaN } = watch.find(stepOf(from, from + length)) ?? {};
        expect(margin(time)).toBeLessThanOrEqual(0);
        const width = 4 * Math.max(Math.min(1e-9, 1e-10 * length), 2 * Number.EPSILON * time);
        if (time > from + width) expect(margin(time - width)).toBeGreaterThan(0);
        // halving alone down to 1e-10 takes 34 rounds
        expect(asked.length).toBeLessThanOrEqual(most);
      }
    }
  });

  it('is found to 1e-10 of a short step late in a run', () => {
    const found = watching([(t) => 1e-9 - (t - 100) ** 3 * 8]);
    found.begin(100, Float64Array.of(100));
    expect(Math.abs((found.find(stepOf(100, 100.001))?.time ?? 0) - 100.0005)).toBeLessThan(5e-13);
  });

  // a margin that is solved for may come out another way by rounding when it is asked again
  const turning = (at: number, answers: readonly number[], else_: (t: number) => number) => {
    let times = 0;
    return (t: number): number => (t === at ? (answers[Math.min(times++, answers.length - 1)] ?? 0) : else_(t));
  };
  it('is the start where that turns out not to be positive, the end where that turns out to be', () => {
    for (const inside of [true, false]) {
      expect(watching([turning(0, [1, -1], () => -1)], inside).find(stepOf(0, 1))?.time).toBe(0);
      expect(watching([turning(1, [-1, 1], () => 1)], inside).find(stepOf(0, 1))?.time).toBe(1);
    }
  });

  it('does not hang on a third answer at either end', () => {
    expect(watching([turning(0, [1, 1, -1], (t) => 0.3 - t)], false).find(stepOf(0, 1))?.time).toBeCloseTo(0.3, 9);
    expect(watching([turning(1, [-1, -1, 1], (t) => 0.3 - t)], false).find(stepOf(0, 1))?.time).toBeCloseTo(0.3, 9);
    expect(watching([turning(1, [-1, -1, 1], () => 1)], false).find(stepOf(0, 1))?.time).toBe(1);
  });

  it('needs no margin amid the step where nobody looks inside', () => {
    expect(watching([(t) => (t === 0.5 ? Number.NaN : 0.9 - t ** 2)], false).find(stepOf(0, 1))?.time).toBeCloseTo(Math.sqrt(0.9), 8);
  });
});

describe('what has just fired', () => {
  /** Fires at 0.5; asked again it falls `late` after that. */
  const again = (late: number) => {
    let shift = 0;
    const watch = watching([(t) => 0.5 + shift - t, (t) => 0.8 - t]);
    watch.find(stepOf(0, 0.6));
    shift = late;
    watch.begin(0.5, Float64Array.of(0.5));
    return watch.find(stepOf(0.5, 1));
  };
  it('does not fire again within a nanosecond, as rounding may have it; another does', () => {
    expect(again(5e-10)).toMatchObject({ time: expect.closeTo(0.8, 9), crossed: expect.arrayContaining([1]) });
    expect(again(1e-8)).toMatchObject({ time: expect.closeTo(0.5 + 1e-8, 10), crossed: [0] });
  });

  it('has not where the step is taken again, and what fired before it has', () => {
    let shift = 0;
    const watch = watching([(t) => 0.5 + shift - t, (t) => 0.8 - t]);
    expect(watch.find(stepOf(0, 0.6))?.crossed).toEqual([0]);
    shift = 5e-10;
    watch.begin(0.5, Float64Array.of(0.5));
    const step = stepOf(0.5, 1);
    for (let k = 0; k < 3; k++) {
      expect(watch.find(step)).toMatchObject({ time: expect.closeTo(0.8, 9) });
      watch.forget(step);
    }
  });
});

describe('a margin that falls and recovers within a step', () => {
  const dip = (lowest: number, depth: number) => (t: number) => (t - lowest) ** 2 - depth;

  it.each([1e-9, 1e-3, 1, 1e3, 1e9])('is seen in whatever unit, of any step: times %d', (unit) => {
    for (const [from, to] of [
      [0, 1],
      [2, 2.5],
      [3, 7],
    ]) {
      for (const where of [0.3, 0.68]) {
        const watch = watching([(t) => unit * dip(where, 1e-4)((t - from) / (to - from))]);
        watch.begin(from, Float64Array.of(from));
        expect(((watch.find(stepOf(from, to))?.time ?? Number.NaN) - from) / (to - from)).toBeCloseTo(where - 0.01, 8);
      }
    }
  });

  it.each([1e-6, 1, 1e6])('is seen where the parabola only comes near, in whatever unit: times %d', (unit) => {
    // through 0.2, 0.1 and 1: lowest 0.02 at 0.3, where the margin itself dips below nought
    const parabola = (t: number): number => 0.02 + 2 * (t - 0.3) ** 2;
    const found = watching([(t) => unit * (parabola(t) - 0.03 * Math.exp(-(((t - 0.3) / 0.05) ** 2)))]).find(stepOf(0, 1));
    expect(found?.time).toBeGreaterThan(0.25);
    expect(found?.time).toBeLessThan(0.3);
  });

  it('counts where it just touches nought', () => expect(watching([dip(0.25, 0)]).find(stepOf(0, 1))?.time).toBeCloseTo(0.25, 8));

  it('is none where it begins at nought, or is lowest before or after the step', () => {
    expect(watching([(t) => t * (t - 0.2)]).find(stepOf(0, 1))).toBeUndefined();
    expect(watching([(t) => t * (t - 0.2) - 1e-3]).find(stepOf(0, 1))).toBeUndefined();
    for (const lowest of [-0.2, 1.2]) expect(watching([dip(lowest, 0.01)]).find(stepOf(0, 1))).toBeUndefined();
  });

  it.each([0.3, 0.5, 0.68])('is seen at its first fall, lowest at %d', (lowest) => {
    expect(watching([dip(lowest, 1e-4)]).find(stepOf(0, 1))?.time).toBeCloseTo(lowest - 0.01, 8);
  });

  it('is not seen where nobody looks inside', () => expect(watching([dip(0.5, 1e-4)], false).find(stepOf(0, 1))).toBeUndefined());

  it('that only comes near is none', () => expect(watching([dip(0.4, -1e-4)]).find(stepOf(0, 1))).toBeUndefined());

  it('others that fall by then are named with it', () => {
    const found = watching([dip(0.5, 0.01), (t) => (t < 0.39 ? 1 : -1)]).find(stepOf(0, 1));
    expect(found?.time).toBeCloseTo(0.39, 6);
    expect(found?.crossed).toEqual([1]);
  });

  it('what rose and fell again by then is named with it, what only rises later is not', () => {
    const hump = (t: number): number => (t - 0.2) * (0.7 - t);
    expect(watching([(t) => 0.7 - t, hump]).find(stepOf(0, 1))?.crossed).toEqual([0, 1]);
    expect(watching([(t) => 0.3 - t, (t) => t - 0.4]).find(stepOf(0, 1))?.crossed).toEqual([0]);
  });
});
