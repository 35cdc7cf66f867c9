/** The sentence of why against the figures it is made from: direction, sizes, what is named and what is too small to name. */
import type { WhyPart, WhyPartId, WhyResult, WhySplit } from '@shaftwork/sim-core/results/why-result';
import { whySentence } from '@shaftwork/sim-core/words/why-sentence';
import { describe, expect, it } from 'vitest';

const NAMES: Partial<Record<WhyPartId, string>> = { motorConstant: 'its copper', heatPaths: 'its ways', lossTorque: 'its iron' };
const part = (id: WhyPartId, value: number, ways?: WhyPart['ways']): WhyPart => ({
  id,
  words: NAMES[id] ?? id,
  value,
  ...(ways === undefined ? {} : { ways }),
});
/** A split whose parts sum to its difference. */
const split = (parts: readonly WhyPart[], more: Partial<WhySplit> = {}): WhySplit => {
  const difference = parts.reduce((sum, { value }) => sum + value, 0);
  return {
    quantity: 'peak',
    words: 'peak of the winding',
    dimension: 'temperature',
    from: 350,
    to: 350 + difference,
    difference,
    parts,
    interaction: undefined,
    interactionsExceedParts: false,
    ...more,
  };
};
const told = (splits: readonly WhySplit[], more: Partial<Omit<WhyResult, 'sentence'>> = {}): string =>
  whySentence({ schema: 'shaftwork.why/1', from: 'Wide', to: 'Long', splits, simulations: 8, capped: [], ...more }).replaceAll(
    '\u202f',
    ' ',
  );
const lasting = (seconds: number): WhySplit =>
  split([part('motorConstant', seconds)], { quantity: 'runTime', words: 'run time', dimension: 'time' });

describe('the sentence of why', () => {
  it('names the direction of the difference, the parts along it and those against it', () => {
    expect(told([split([part('heatPaths', -31.4), part('motorConstant', 12.2)])])).toBe(
      'The peak of the winding of Long is 19 K lower than that of Wide: 31 K from its ways, against 12 K from its copper. (8 simulations)',
    );
    expect(told([split([part('heatPaths', 31.4), part('motorConstant', -12.2)])])).toBe(
      'The peak of the winding of Long is 19 K higher than that of Wide: 31 K from its ways, against 12 K from its copper. (8 simulations)',
    );
  });

  it('calls a time shorter or longer, on a clock', () => {
    expect(told([lasting(-90)])).toContain('The run time of Long is 1:30 shorter than that of Wide: 1:30 from its copper.');
    expect(told([lasting(90)])).toContain('The run time of Long is 1:30 longer than that of Wide: 1:30 from its copper.');
  });

  it('lists three with commas and an and', () => {
    const three = [part('heatPaths', 20), part('motorConstant', 15), part('lossTorque', 10)];
    expect(told([split(three)])).toContain(
      '45 K higher than that of Wide: 20 K from its ways, 15 K from its copper and 10 K from its iron.',
    );
  });

  it('calls equal what differs by less than half a unit, and not what differs by more', () => {
    expect(told([split([part('heatPaths', 0.49)])])).toBe('Long and Wide have the same peak of the winding. (8 simulations)');
    expect(told([split([part('heatPaths', -0.49)])])).toContain('have the same');
    expect(told([split([part('heatPaths', 0.51)])])).toContain('1 K higher');
    expect(told([split([part('heatPaths', 0.5)])])).toContain('1 K higher');
  });

  it('names parts from a tenth of the largest and half a unit on', () => {
    const names = (value: number): boolean => told([split([part('heatPaths', 40), part('motorConstant', value)])]).includes('copper');
    expect([names(3.9), names(4), names(-3.9), names(-4)]).toEqual([false, true, false, true]);
    const small = (value: number): boolean => told([split([part('heatPaths', 3), part('motorConstant', value)])]).includes('copper');
    expect([small(0.4), small(0.5), small(-0.4), small(-0.5)]).toEqual([false, true, false, true]);
  });

  it('says so where all that go one way are small', () => {
    const many = ['heatPaths', 'motorConstant', 'lossTorque'] as const;
    expect(told([split(many.map((id) => part(id, 0.4)))])).toBe(
      'The peak of the winding of Long is 1 K higher than that of Wide: many small parts. (8 simulations)',
    );
  });

  it('names the ways of a part that go with it, from half a unit on, and no other', () => {
    const ways = [
      { id: 'inside', words: 'the way in', value: -9 },
      { id: 'side', words: 'the side', value: -0.5 },
      { id: 'ends', words: 'the ends', value: -0.4 },
      { id: 'elsewhere', words: 'the mount', value: 2 },
    ] as const;
    expect(told([split([part('heatPaths', -7.9, ways)])])).toContain('8 K from its ways (9 K by the way in and 1 K by the side).');
    expect(told([split([part('heatPaths', -7.9, [])])])).toContain('8 K from its ways.');
    expect(told([split([part('heatPaths', -7.9)])])).toContain('8 K from its ways.');
  });

  it('warns where parts act more together than alone, unless nothing differs', () => {
    const warning = 'The parts act more together than alone, so the split says little.';
    const joint = { interactionsExceedParts: true };
    expect(told([split([part('heatPaths', 5)], joint)])).toContain(warning);
    expect(told([split([part('heatPaths', 0.5)], joint)])).toContain(warning);
    expect(told([split([part('heatPaths', -5)], joint)])).toContain(warning);
    expect(told([split([part('heatPaths', 0.4)], joint)])).not.toContain(warning);
    expect(told([split([part('heatPaths', 5)])])).not.toContain(warning);
    // one of several is enough
    expect(told([split([part('heatPaths', 5)]), { ...lasting(90), ...joint }])).toContain(warning);
  });

  it('counts mixtures that did not run, one as one', () => {
    const sentence = 'of the two had no operating point and counted as the hottest that had one.';
    expect(told([lasting(90)], { capped: ['Wide'] })).toContain(`One mixture ${sentence}`);
    expect(told([lasting(90)], { capped: ['Wide', 'Long'] })).toContain(`2 mixtures ${sentence}`);
    expect(told([lasting(90)])).not.toContain('mixture');
  });
});
