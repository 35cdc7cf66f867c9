/** The list of what a draw decides: each unknown once, whose it is, in words, and sums of errors that share deviates. */
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { type Datum, givenDatum } from '@shaftwork/sim-core/provenance/datum';
import { OWN_WORDS, summed, type UnknownEntry, unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { logNormal95, NO_SPREAD, normal95 } from '@shaftwork/sim-core/quantities/spread';
import { describe, expect, it } from 'vitest';

const at = (line: number) => ({ file: 'a.yaml', line, column: 1, path: 'motor' });
const mass = givenDatum('motor.mass', 'mass', 0.1, logNormal95(0.04), at(1));
const exact = givenDatum('motor.can.length', 'length', 0.03, NO_SPREAD, at(2));
const brief = (entries: readonly UnknownEntry[]) => entries.map(({ key, candidates }) => `${key} ${candidates.join('+')}`);

describe('unknowns', () => {
  it('are each told once, with all candidates that have them', () => {
    const [a, b] = ['A', 'B'].map((name) => ({ name, data: { mass, stack: createFiller(name).by('outrunner-stack', { can: exact }) } }));
    expect(brief(unknownsOf([a, b]))).toEqual([
      'a.yaml:1:1 A+B',
      'rule:outrunner-stack A+B',
      'rule:outrunner-stack@A A',
      'rule:outrunner-stack@B B',
    ]);
  });
  it('have words, value, and a group over all candidates', () => {
    const [given, common, own] = unknownsOf([
      { name: 'A', data: { mass, stack: createFiller('A').by('outrunner-stack', { can: exact }) } },
    ]);
    expect(given).toMatchObject({ subject: 'motor.mass', words: 'motor mass', group: 'a.yaml:1:1', value: 0.1, dimension: 'mass' });
    expect(common).toMatchObject({ subject: 'outrunner-stack', group: 'rule:outrunner-stack', words: 'stack length, 0.47 of the can' });
    expect(own).toMatchObject({ group: 'rule:outrunner-stack@own', words: `stack length, 0.47 of the can${OWN_WORDS}` });
  });
  it('are found within what a rule was made from, not where nothing is unknown or infinite', () => {
    const fill = createFiller('A');
    const half = fill.by('half', {
      diameter: fill.by('half', { diameter: givenDatum('motor.can.diameter', 'length', 0.03, logNormal95(0.1), at(3)) }),
    });
    const infinite = { ...mass, value: Number.POSITIVE_INFINITY, unknown: { ...mass.unknown, key: 'infinite' } };
    const data = { nested: { half }, exact, infinite, curve: Float64Array.of(1), nothing: null, word: 'x' };
    expect(brief(unknownsOf([{ name: 'A', data }]))).toEqual(['a.yaml:3:1 A']);
  });
  it('of one candidate in two places are counted once', () => {
    expect(brief(unknownsOf([{ name: 'A', data: { one: mass, two: { ...mass } } }]))).toEqual(['a.yaml:1:1 A']);
  });
  it('tied by readings bring the deviates that they are made of', () => {
    const of = unknownsOf([{ name: 'A', data: { mass } }])[0];
    const tied: Datum = { ...exact, unknown: { key: 'tied', spread: normal95(1), mix: [{ of, weight: 1 }] } };
    const found = unknownsOf([{ name: 'B', data: { tied } }]);
    expect(found.map(({ key }) => key)).toEqual(['tied', of.key]);
    expect(found[0].mix).toEqual([{ of, weight: 1 }]);
    expect(unknownsOf([{ name: 'B', data: { tied, mass } }]).map(({ key }) => key)).toEqual(['tied', of.key]);
  });
});

describe('errors summed', () => {
  const of = (key: string): UnknownEntry => ({ ...unknownsOf([{ name: 'A', data: { mass } }])[0], key });
  it('add where they share a deviate', () => {
    const sd = (deviation: number) => ({ shape: 'normal', sd: deviation }) as const;
    const total = summed([
      { key: 'p', spread: sd(2) },
      { key: 'p', spread: sd(3) },
      { key: 'q', spread: sd(7) },
      {
        key: 'm',
        spread: sd(10),
        mix: [
          { of: of('p'), weight: 0.6 },
          { of: of('q'), weight: -0.8 },
        ],
      },
    ]);
    expect([...total]).toEqual([
      ['p', 11],
      ['q', -1],
    ]);
  });
});
