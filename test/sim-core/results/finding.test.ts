/** When a hold counts as lost, how much the worst lacks, and which loss is told. */
import { type Finding, fallsShort, greatestLack, stepNotHeld } from '@shaftwork/sim-core/results/finding';
import { expect, it } from 'vitest';

const miss = (wanted: number, reached: number) => ({ wanted, reached });

it('a hold is lost from a hundredth on, either way, whatever its sign', () => {
  expect([miss(10, 9.9), miss(10, 10.1), miss(-10, -9.9), miss(0, 0)].map(fallsShort)).toEqual([false, false, false, false]);
  expect([miss(10, 9.89), miss(10, 10.11), miss(-10, -9.89), miss(0, 0.01)].map(fallsShort)).toEqual([true, true, true, true]);
  expect(fallsShort(miss(10, Number.NaN))).toBe(true);
});

it('the worst lacks the greatest share, at most all', () => {
  expect(greatestLack([])).toBe(0);
  expect(greatestLack([miss(10, 7), miss(4, 1), miss(10, 9.95)])).toBeCloseTo(0.75, 12);
  expect(greatestLack([miss(10, 9.95)])).toBe(0);
  expect(greatestLack([miss(10, -20)])).toBe(1);
  expect(greatestLack([miss(-4, -1)])).toBeCloseTo(0.75, 12);
});

it('the first that falls short is told, and no other finding', () => {
  const lost = (step: number, reached: number): Finding => ({ candidate: 'A', kind: 'step-not-held', step, wanted: 10, reached });
  const limit: Finding = { candidate: 'A', kind: 'limit-passed', limit: 'motorCurrent', value: 30, bound: 20 };
  expect(stepNotHeld([limit, lost(0, 9.95), lost(1, 8), lost(2, 7)])?.step).toBe(1);
  expect(stepNotHeld([limit, lost(0, 9.95)])).toBeUndefined();
});
