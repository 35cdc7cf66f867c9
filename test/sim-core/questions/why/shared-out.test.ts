/** A difference shared out among two and three players, by hand: values of all sets, the first of no player, the last of all. */
import { peaksOf, split, withWayParts } from '@shaftwork/sim-core/questions/why/why';
import { describe, expect, it } from 'vitest';

const of = (players: Parameters<typeof split>[3], values: readonly number[]) =>
  split('peak', 'peak', 'temperature', players, (id) => `of ${id}`, values);

describe('a difference', () => {
  it('of two is each one’s own and half of what they do together', () => {
    // alone 3 and −1; together 10 − 3 + 1 = 8 more
    expect(of(['motorConstant', 'overrides'], [300, 303, 299, 310])).toEqual({
      quantity: 'peak',
      words: 'peak',
      dimension: 'temperature',
      from: 300,
      to: 310,
      difference: 10,
      parts: [
        { id: 'motorConstant', words: 'of motorConstant', value: 7 },
        { id: 'overrides', words: 'of overrides', value: 3 },
      ],
      interaction: { between: ['motorConstant', 'overrides'], value: 8 },
      interactionsExceedParts: true,
    });
  });

  it('of two that do nothing together, or as much as the greatest alone, is theirs; the greatest stands first whatever its sign', () => {
    const apart = of(['motorConstant', 'overrides'], [300, 302, 295, 297]);
    expect(apart.parts.map(({ id, value }) => [id, value])).toEqual([
      ['overrides', -5],
      ['motorConstant', 2],
    ]);
    expect([apart.interaction?.value, apart.interactionsExceedParts, apart.difference]).toEqual([0, false, -3]);
    // nothing alone, 4 together: 2 each, and 4 is more; 4 and 0 alone, 8 together less 4: 6 and 2, no more than 6
    expect(of(['motorConstant', 'overrides'], [0, 0, 0, 4]).interactionsExceedParts).toBe(true);
    expect(of(['motorConstant', 'overrides'], [0, 4, 0, 8]).interactionsExceedParts).toBe(false);
    expect(of(['motorConstant', 'overrides'], [0, -4, 0, -13]).interactionsExceedParts).toBe(true);
    // 2 alone and 4 with the other, which has 2 of its own: as much as the greater, no more
    expect(of(['motorConstant', 'overrides'], [0, 2, 2, 8])).toMatchObject({ interaction: { value: 4 }, interactionsExceedParts: false });
  });

  it('of three names the pair that does most together', () => {
    // bits: a, b, c; b and c take −6 together, a and b give 2
    const value = (a: number, b: number, c: number): number => 100 + 9 * a + 4 * b + 6 * c + 2 * a * b - 6 * b * c;
    const sets = Array.from({ length: 8 }, (_, set) => value(set & 1, (set >> 1) & 1, (set >> 2) & 1));
    const { parts, interaction, difference } = of(['speedConstant', 'motorConstant', 'lossTorque'], sets);
    expect(interaction).toEqual({ between: ['motorConstant', 'lossTorque'], value: expect.closeTo(-6, 9) });
    expect(parts).toEqual([
      { id: 'speedConstant', words: 'of speedConstant', value: expect.closeTo(10, 9) },
      { id: 'lossTorque', words: 'of lossTorque', value: expect.closeTo(3, 9) },
      { id: 'motorConstant', words: 'of motorConstant', value: expect.closeTo(2, 9) },
    ]);
    expect(difference).toBe(15);
  });

  it('of one or of none has no pair', () => {
    expect(of(['overrides'], [5, 2])).toMatchObject({ parts: [{ value: -3 }], interaction: undefined, interactionsExceedParts: false });
    expect(of([], [5])).toMatchObject({ from: 5, to: 5, difference: 0, parts: [], interaction: undefined, interactionsExceedParts: false });
  });
});

it('a mixture that cannot run is as hot as the hottest that can, where one can', () => {
  const run = (peak: number, failed = false) => ({ peak, failed });
  expect(peaksOf([run(300), run(390, true), run(340), run(310, true), run(320)])).toEqual([300, 340, 340, 340, 320]);
  expect(peaksOf([run(300), run(310)])).toEqual([300, 310]);
  expect(peaksOf([run(300, true), run(310, true)])).toEqual([300, 310]);
});

describe('heat paths', () => {
  const whole = of(['heatPaths', 'overrides'], [0, 8, 0, 8]);
  it('are told way by way, what is left over in even shares, the greatest first', () => {
    const ways = [
      { id: 'side', words: 's', value: 1 },
      { id: 'inside', words: 'i', value: -4 },
      { id: 'ends', words: 'e', value: 2 },
    ] as const;
    // 8 less −1 is 9, 3 each
    expect(withWayParts(whole, ways).parts).toEqual([
      {
        ...whole.parts[0],
        ways: [
          { id: 'ends', words: 'e', value: 5 },
          { id: 'side', words: 's', value: 4 },
          { id: 'inside', words: 'i', value: -1 },
        ],
      },
      whole.parts[1],
    ]);
  });
  it('are told as one where no ways are known', () => {
    expect(withWayParts(whole, undefined)).toBe(whole);
  });
});
