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

describe('a margin that falls and recovers within a step', () => {
  const dip = (lowest: number, depth: number) => (t: number) => (t - lowest) ** 2 - depth;

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
