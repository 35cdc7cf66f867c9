/** What the extrapolation shows, counts and does when it is told to stop or to take a step again; the package's own silences are failures. */
import { extrapolation } from '@shaftwork/sim-core/numerics/extrapolation';
import { IntegrationFailure } from '@shaftwork/sim-core/numerics/integration-failure';
import type { OdeSystem, StepAnswer, Tolerances } from '@shaftwork/sim-core/numerics/ode-system';
import { describe, expect, it } from 'vitest';

interface Seen {
  readonly from: number;
  readonly to: number;
  readonly start: readonly number[];
  readonly end: readonly number[];
}
/** Runs a law of (t, y) with every call counted and every step kept; `answer` decides by the number of the step, from 0. */
function run(
  law: (t: number, y: Float64Array, dy: Float64Array) => void,
  state: Float64Array,
  [from, to]: readonly [number, number],
  more: Partial<Tolerances> = {},
  answer: (k: number, step: Seen) => StepAnswer = () => true,
) {
  let asked = 0;
  const seen: Seen[] = [];
  const system: OdeSystem = {
    dimension: state.length,
    eventCount: 0,
    derivative: (t, y, dy) => {
      asked++;
      law(t, y, dy);
    },
  };
  const tolerances = { relative: 1e-9, absolute: new Float64Array(state.length).fill(1e-9), ...more };
  const statistics = extrapolation(system, tolerances, from, state, to, (step) => {
    const each = { from: step.from, to: step.to, start: [...step.start], end: [...step.end] };
    seen.push(each);
    return answer(seen.length - 1, each);
  });
  return { statistics, seen, asked, lengths: seen.map((step) => step.to - step.from) };
}
const turn = (_: number, y: Float64Array, dy: Float64Array): void => {
  dy[0] = y[1];
  dy[1] = -y[0];
};
const clock = (_: number, __: Float64Array, dy: Float64Array): void => void dy.fill(1);

describe('steps', () => {
  it.each([
    [0, 12],
    [3, 3.3],
    [-2, 5],
    [1e4, 10_007.1],
  ])('follow one another from %d to %d, both to the last digit', (from, to) => {
    const state = Float64Array.of(Math.cos(from), -Math.sin(from));
    const { statistics, seen, asked, lengths } = run(turn, state, [from, to]);
    expect([seen[0].from, seen.at(-1)?.to]).toEqual([from, to]);
    seen.slice(1).forEach((step, k) => {
      expect([step.from, ...step.start]).toEqual([seen[k].to, ...seen[k].end]);
    });
    expect([...state]).toEqual(seen.at(-1)?.end);
    expect(Math.hypot(state[0] - Math.cos(to), state[1] + Math.sin(to))).toBeLessThan(1e-7);
    expect(statistics).toMatchObject({ steps: seen.length, evaluations: asked, stiff: false });
    // the last one may be cut short by the end: the longer of the last two is carried
    expect(statistics.nextStep).toBe(Math.max(...lengths.slice(-2)));
  });

  it('begin with the first one given, a thousandth of the span otherwise, and never exceed the largest', () => {
    expect(run(clock, Float64Array.of(0), [2, 7], { firstStep: 0.25 }).lengths[0]).toBeCloseTo(0.25, 12);
    expect(run(clock, Float64Array.of(0), [2, 7]).lengths[0]).toBeCloseTo(0.005, 12);
    expect(run(clock, Float64Array.of(0), [2, 7], { firstStep: 0 }).lengths[0]).toBeCloseTo(0.005, 12);
    const { lengths } = run(clock, Float64Array.of(0), [2, 7], { largestStep: 0.5, firstStep: 0.25 });
    expect(Math.max(...lengths)).toBeCloseTo(0.5, 12);
  });

  it('stop where they are told to, with the state there', () => {
    const state = Float64Array.of(1, 0);
    const { statistics, seen, asked } = run(turn, state, [0, 12], {}, (k) => k < 2);
    expect(seen).toHaveLength(3);
    expect([...state]).toEqual(seen[2].end);
    expect(statistics).toMatchObject({ steps: 3, rejected: 0, evaluations: asked, nextStep: seen[2].to - seen[2].from });
  });
});

describe('a step that is taken again', () => {
  const refusing = (which: number, share: number) => {
    const state = Float64Array.of(1, 0);
    return {
      state,
      ...run(turn, state, [0, 20], { firstStep: 0.5 }, (k, { from, to }) => (k === which ? { retake: share * (to - from) } : true)),
    };
  };

  it.each([0, 3])('begins where the refused one began, no longer than it may be, and counts as refused: %d', (which) => {
    const { state, statistics, seen, lengths } = refusing(which, 0.3);
    const again = seen[which + 1];
    expect([again.from, ...again.start]).toEqual([seen[which].from, ...seen[which].start]);
    expect(statistics.steps).toBe(seen.length - 1);
    expect(statistics.rejected).toBeGreaterThanOrEqual(1);
    // four steps are held to that length, then they grow again
    const most = 0.3 * lengths[which];
    const after = lengths.slice(which + 1);
    for (const each of after.slice(0, 4)) expect(each).toBeLessThanOrEqual(most * (1 + 1e-9));
    expect(Math.max(...after.slice(4, 8))).toBeGreaterThan(1.5 * most);
    expect(Math.hypot(state[0] - Math.cos(20), state[1] + Math.sin(20))).toBeLessThan(1e-6);
  });

  it('without a refusal nothing is held short', () => {
    const { statistics, lengths } = refusing(-1, 1);
    expect(statistics.rejected).toBe(0);
    expect(lengths.length).toBeLessThan(refusing(3, 0.3).lengths.length);
  });

  it('is taken again even where the last one is refused', () => {
    const state = Float64Array.of(0);
    let refused = 0;
    const { seen } = run(clock, state, [0, 1], { firstStep: 1 }, (_, { from, to }) =>
      to === 1 && refused++ === 0 ? { retake: 0.4 * (to - from) } : true,
    );
    const last = seen.findIndex(({ to }) => to === 1);
    const { from, to } = seen[last];
    expect(seen[last + 1]).toMatchObject({ from, to: expect.closeTo(from + 0.4 * (to - from), 12) });
    expect(seen.at(-1)?.to).toBe(1);
    expect(state[0]).toBeCloseTo(1, 12);
  });
});

describe('a trial state without rates', () => {
  it('halves the way to it and begins again there, held short for four steps', () => {
    let failed = Number.NaN;
    const state = Float64Array.of(0);
    const { statistics, seen, lengths, asked } = run(
      (t, _, dy) => {
        // once only, at the first trial beyond 2.2
        if (t > 2.2 && Number.isNaN(failed)) failed = t;
        dy[0] = t === failed ? Number.NaN : 1;
        if (t === failed) failed = Number.POSITIVE_INFINITY + t;
      },
      state,
      [2, 6],
      { firstStep: 1 },
    );
    expect(seen[0].from).toBe(2);
    expect(lengths[0]).toBeLessThanOrEqual(0.5);
    expect(lengths[0]).toBeGreaterThan(0.1);
    for (const each of lengths.slice(1, 4)) expect(each).toBeLessThanOrEqual(lengths[0] * (1 + 1e-9));
    expect(Math.max(...lengths)).toBeGreaterThan(1.5 * lengths[0]);
    expect(statistics).toMatchObject({ rejected: 1, steps: seen.length, evaluations: asked - 1 });
    expect(state[0]).toBeCloseTo(4, 12);
  });

  it.each([
    ['a rate', (t: number, _: Float64Array, dy: Float64Array) => void dy.fill(t > 1.7 ? Number.POSITIVE_INFINITY : 1)],
    ['a rate at once', (_: number, __: Float64Array, dy: Float64Array) => void dy.fill(Number.NaN)],
  ])('that no shorter step avoids is a failure where it begins: %s', (what, law) => {
    const failure = (() => {
      try {
        run(law, Float64Array.of(0), [1, 3]);
      } catch (thrown) {
        return thrown;
      }
      return undefined;
    })();
    expect(failure).toBeInstanceOf(IntegrationFailure);
    expect(failure).toMatchObject({ kind: 'derivative-not-finite', time: expect.closeTo(what === 'a rate' ? 1.7 : 1, 9) });
  });
});

it('as many tries as it takes are enough, and half as many too few, told at the time reached', () => {
  const whole = run(turn, Float64Array.of(1, 0), [0, 12]);
  const tries = whole.statistics.steps + whole.statistics.rejected;
  expect(run(turn, Float64Array.of(1, 0), [0, 12], { mostSteps: tries + 1 }).statistics).toEqual(whole.statistics);
  const few = Math.floor(tries / 2);
  const seen: Seen[] = [];
  expect(() =>
    run(turn, Float64Array.of(1, 0), [0, 12], { mostSteps: few }, (_, step) => {
      seen.push(step);
      return true;
    }),
  ).toThrow(expect.objectContaining({ kind: 'too-many-steps' }));
  expect(seen.length).toBeLessThanOrEqual(few + 1);
  expect(seen.at(-1)?.to).toBe(whole.seen[seen.length - 1].to);
  // steps that are taken again count too
  expect(() => run(turn, Float64Array.of(1, 0), [0, 12], { mostSteps: 5 }, (_, { from, to }) => ({ retake: 0.5 * (to - from) }))).toThrow(
    expect.objectContaining({ kind: 'too-many-steps', time: 0 }),
  );
});
