import { thinTrace } from '@shaftwork/report/figures/thin-trace';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const times = (count: number): number[] => Array.from({ length: count }, (_, index) => index);

test('a straight line keeps its two ends', () => {
  expect(thinTrace(times(1000), times(1000), 600)).toEqual([
    { x: 0, y: 0 },
    { x: 999, y: 999 },
  ]);
});

test('a jump stays upright', () => {
  const points = thinTrace([0, 1, 1, 2], [0, 0, 5, 5], 600);
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
  expect(thinTrace([0, 1, 2], [1, Number.NaN, 3], 10)).toEqual([
    { x: 0, y: 1 },
    { x: 2, y: 3 },
  ]);
  expect(thinTrace([], [], 10)).toEqual([]);
});

test('extremes and ends are kept, the number is bounded, and no dropped point is farther than the tolerance from what is drawn', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 3, maxLength: 90 }), (values) => {
      const drawn = thinTrace(times(values.length), values, 200);
      const high = Math.max(...values);
      const low = Math.min(...values);
      expect(Math.max(...drawn.map(({ y }) => y))).toBe(high);
      expect(Math.min(...drawn.map(({ y }) => y))).toBe(low);
      expect(drawn[0]).toEqual({ x: 0, y: values[0] });
      expect(drawn.at(-1)).toEqual({ x: values.length - 1, y: values.at(-1) });
      values.forEach((value, x) => {
        const next = drawn.findIndex((point) => point.x >= x);
        const to = drawn[next]!;
        const from = drawn[Math.max(0, next - 1)]!;
        const line = to.x === from.x ? to.y : from.y + ((to.y - from.y) * (x - from.x)) / (to.x - from.x);
        expect(Math.abs(value - line)).toBeLessThanOrEqual((high - low) / 1500 + 1e-9);
      });
    }),
    { seed: 4, numRuns: 200 },
  );
  fc.assert(
    fc.property(fc.integer({ min: 601, max: 5000 }), fc.integer({ min: 1, max: 1000 }), (count, seed) => {
      const values = times(count).map((index) => Math.sin(index * seed) * (index % 7));
      expect(thinTrace(times(count), values, 600).length).toBeLessThanOrEqual(601);
    }),
    { seed: 5, numRuns: 40 },
  );
});
