import { thinTrace } from '@shaftwork/report/drawing/thin-trace';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const times = (count: number): number[] => Array.from({ length: count }, (_, index) => index);

test('a straight line keeps its two ends', () => {
  expect(thinTrace(times(1000), times(1000), 300)).toEqual([
    { x: 0, y: 0 },
    { x: 999, y: 999 },
  ]);
});

test('a jump stays upright', () => {
  const points = thinTrace([0, 1, 1, 2], [0, 0, 5, 5], 300);
  expect(points).toEqual([
    { x: 0, y: 0 },
    { x: 1, y: 0 },
    { x: 1, y: 5 },
    { x: 2, y: 5 },
  ]);
});

test('a spike of one sample among ten thousand survives', () => {
  const values = times(10_000).map((index) => (index === 7321 ? 9 : Math.sin(index / 50)));
  expect(thinTrace(times(10_000), values, 300)).toContainEqual({ x: 7321, y: 9 });
});

test('what is not a number is left out, and an empty trace stays empty', () => {
  expect(thinTrace([0, 1, 2], [1, Number.NaN, 3], 66)).toEqual([
    { x: 0, y: 1 },
    { x: 2, y: 3 },
  ]);
  expect(thinTrace([], [], 66)).toEqual([]);
});

test('extremes and ends are kept, and no dropped point is farther than a fifth of a pixel from what is drawn', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 3, maxLength: 900 }), (values) => {
      const drawn = thinTrace(times(values.length), values, 66);
      const high = Math.max(...values);
      const low = Math.min(...values);
      expect(Math.max(...drawn.map(({ y }) => y))).toBe(high);
      expect(Math.min(...drawn.map(({ y }) => y))).toBe(low);
      expect(drawn[0]).toEqual({ x: 0, y: values[0] });
      expect(drawn.at(-1)).toEqual({ x: values.length - 1, y: values.at(-1) });
      let next = 0;
      values.forEach((value, x) => {
        while (drawn[next]!.x < x) next++;
        const to = drawn[next]!;
        const from = drawn[Math.max(0, next - 1)]!;
        const line = to.x === from.x ? to.y : from.y + ((to.y - from.y) * (x - from.x)) / (to.x - from.x);
        expect(Math.abs(value - line)).toBeLessThanOrEqual(((high - low) * 0.2) / 66 + 1e-9);
      });
    }),
    { seed: 4, numRuns: 200 },
  );
});

test('a ramp of eight seconds within thirteen minutes is drawn from its foot to its top, each time alike', () => {
  // 8 × 44 s at 50 %, then 60 to 100 % in 8 s; sampled 1200 times and on both sides of every break.
  const lap = 52;
  const at = (time: number, before: boolean): number => {
    const within = time % lap;
    if (within === 0 && before && time > 0) return 100;
    if (within === 44 && before) return 50;
    return within < 44 ? 50 : 60 + ((within - 44) / 8) * 40;
  };
  const breaks = Array.from({ length: 8 }, (_, index) => [index * lap, index * lap + 44]).flat();
  const even = times(1200).map((index) => (index * 8 * lap) / 1200);
  const all = [
    ...even.map((time) => [time, false] as const),
    ...breaks.flatMap((time) => [[time, true] as const, [time, false] as const]),
  ].sort(([a, early], [b, late]) => a - b || Number(late) - Number(early));
  const drawn = thinTrace(
    all.map(([time]) => time),
    all.map(([time, before]) => at(time, before)),
    66,
  );
  for (let index = 0; index < 8; index++) {
    expect(drawn).toContainEqual({ x: index * lap + 44, y: 50 });
    expect(drawn).toContainEqual({ x: index * lap + 44, y: 60 });
    if (index > 0) expect(drawn).toContainEqual({ x: index * lap, y: 100 });
  }
  expect(drawn.length).toBeLessThan(8 * 6);
});
