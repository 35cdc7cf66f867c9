import { shapleyValues } from '@shaftwork/sim-core/numerics/shapley';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const game = (players: number, value: (members: number[]) => number): number[] =>
  Array.from({ length: 2 ** players }, (_, set) => value(Array.from({ length: players }, (_, i) => i).filter((i) => set & (1 << i))));

describe('Shapley values', () => {
  it('share the glove game as its textbook closed form does: 2/3, 1/6, 1/6', () => {
    // one left glove, two right ones; a pair is worth 1 (R.J. Aumann, Lectures on Game Theory, 1989; from memory)
    const { parts } = shapleyValues(
      3,
      game(3, (members) => (members.includes(0) && members.length > 1 ? 1 : 0)),
    );
    expect(parts.map((part) => part * 6)).toEqual([expect.closeTo(4, 12), expect.closeTo(1, 12), expect.closeTo(1, 12)]);
  });

  it('give what adds to the one that brings it, and no interactions', () => {
    const { parts, interactions } = shapleyValues(
      4,
      game(4, (members) => members.reduce((sum, i) => sum + i + 1, 0)),
    );
    parts.forEach((part, i) => {
      expect(part).toBeCloseTo(i + 1, 12);
    });
    for (const { value } of interactions) expect(value).toBeCloseTo(0, 12);
  });

  it('halve a product between two, and call it interaction', () => {
    const { parts, interactions } = shapleyValues(
      2,
      game(2, (members) => (members.length === 2 ? 10 : 0)),
    );
    expect(parts).toEqual([5, 5]);
    expect(interactions).toEqual([{ pair: [0, 1], value: 10 }]);
  });

  it('always sum to the whole difference', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 6 }),
        fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 64, maxLength: 64 }),
        (n, all) => {
          const values = all.slice(0, 2 ** n);
          const { parts } = shapleyValues(n, values);
          const sum = parts.reduce((total, part) => total + part, 0);
          expect(Math.abs(sum - (values[values.length - 1] - values[0]))).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it('refuse missing values and too many players', () => {
    expect(() => shapleyValues(3, [0, 1])).toThrow(RangeError);
    expect(() => shapleyValues(13, [])).toThrow(RangeError);
  });
});
