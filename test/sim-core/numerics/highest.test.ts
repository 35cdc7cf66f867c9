/** The highest place within a bracket, of functions whose tops are known. */
import { highest } from '@shaftwork/sim-core/numerics/highest';
import { expect, it } from 'vitest';

const from = (f: (x: number) => number, low: number, at: number, high: number, tolerance = 1e-9) =>
  highest(f, low, at, f(at), high, tolerance);

it.each<[string, (x: number) => number, number]>([
  ['round', (x) => 3 - (x - 0.37) ** 2, 3],
  ['a corner', (x) => 3 - Math.abs(x - 0.37), 3],
  ['a steep corner after a flat one', (x) => (x < 0.37 ? 3 + 1e-3 * (x - 0.37) : 3 - 50 * (x - 0.37)), 3],
  ['a fall by a jump', (x) => (x < 0.37 ? 3 + (x - 0.37) : 1), 3],
])('%s', (_, f, top) => {
  for (const at of [0.1, 0.3, 0.37, 0.4, 0.499]) {
    const found = from(f, 0, at, 0.5);
    // a round top is as flat as rounding: its place is known to the root of it
    expect(found.at).toBeCloseTo(0.37, 7);
    expect(found.value).toBeCloseTo(top, 7);
    expect(found.value).toBeLessThanOrEqual(top);
    expect(found.value).toBe(f(found.at));
  }
});

it('asks some 60 times for a millionth of a millionth, never outside, and ends where no number lies between', () => {
  let asked = 0;
  const f = (x: number): number => {
    expect(x > 1 && x < 2).toBe(true);
    asked++;
    return -((x - 1.3) ** 2);
  };
  from(f, 1, 1.5, 2, 1e-12);
  expect(asked).toBeLessThan(70);
  expect(from((x) => -Math.abs(x - 1.3), 1, 1.5, 2, 0).at).toBeCloseTo(1.3, 14);
});
