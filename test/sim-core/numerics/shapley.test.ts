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

  // a game that only all of T win: 1/|T| to each of T; I = 1/(|T| − 1) to each pair of T, all others nothing (Grabisch & Roubens 1999, unanimity games)
  it.each([
    [3, [0, 1, 2]],
    [4, [0, 1, 3]],
    [5, [1, 2, 3, 4]],
    [5, [0, 4]],
  ])('share a game of %i that only all of %j win evenly among them', (players, team) => {
    const { parts, interactions } = shapleyValues(
      players,
      game(players, (members) => (team.every((each) => members.includes(each)) ? 1 : 0)),
    );
    parts.forEach((part, i) => {
      expect(part).toBeCloseTo(team.includes(i) ? 1 / team.length : 0, 12);
    });
    expect(interactions).toHaveLength((players * (players - 1)) / 2);
    for (const { pair, value } of interactions)
      expect(value).toBeCloseTo(pair.every((each) => team.includes(each)) ? 1 / (team.length - 1) : 0, 12);
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
    expect(() => shapleyValues(3, [0, 1])).toThrow(new RangeError('3 parts have 8 mixtures, not 2.'));
    for (const players of [-1, 1.5, 13])
      expect(() => shapleyValues(players, new Float64Array(8192))).toThrow(
        new RangeError(`Shares are told of 0 to 12 parts, not ${players}.`),
      );
    expect(shapleyValues(12, new Float64Array(4096)).parts).toHaveLength(12);
  });
});
