/** The list of what was assumed: each number once with its interval, by hand; what was given with its own ± is not in it. */
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { type Datum, givenDatum } from '@shaftwork/sim-core/provenance/datum';
import { withLearnt } from '@shaftwork/sim-core/provenance/learnt';
import type { Chosen } from '@shaftwork/sim-core/provenance/rules/choices';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { logNormal95, NO_SPREAD, normal95 } from '@shaftwork/sim-core/quantities/spread';
import { assumedNumbers, assumptionsOf } from '@shaftwork/sim-core/questions/run/assumptions';
import { describe, expect, it } from 'vitest';
import { OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';

const at = (line: number) => ({ file: 'a.yaml', line, column: 1, path: 'motor' });
const exact = givenDatum('motor.can.length', 'length', 0.03, NO_SPREAD, at(1));
const usual: Datum<'mass'> = (() => {
  const datum = givenDatum('motor.mass', 'mass', 0.1, logNormal95(0.04), at(2));
  return { ...datum, origin: { ...datum.origin, usual: 'common practice' } };
})();
const numbers = (data: object, name = 'A') => assumedNumbers([{ name, data }]);

describe('a number', () => {
  it('is listed with its rule, source and interval: common and own errors together', () => {
    const shaft = createFiller('A').by('inrunner-inertia', {
      mass: givenDatum('motor.mass', 'mass', 0.1, NO_SPREAD, at(2)),
      diameter: givenDatum('motor.can.diameter', 'length', 0.03, NO_SPREAD, at(3)),
    });
    const [line] = numbers({ motor: { shaft } });
    expect(line).toMatchObject({
      kind: 'estimated',
      origin: 'inrunner-inertia',
      path: 'motor.shaft',
      dimension: 'inertia',
      candidates: ['A'],
    });
    // ± 60 and 20 % of a log-normal
    const half = Math.hypot(Math.log(1.6), Math.log(1.2));
    expect(line.high / line.value).toBeCloseTo(Math.exp(half), 9);
    expect(line.value / line.low).toBeCloseTo(Math.exp(half), 9);
  });
  it('that follows from others has their interval, logarithms added by squares', () => {
    const resistance = givenDatum('motor.resistance', 'resistance', 0.1, logNormal95(0.25), at(4));
    const fill = createFiller('A');
    const inductance = fill.by('inductance-from-resistance', { resistance, time: fill.by('inductance-time') });
    const line = numbers({ inductance }).find(({ origin }) => origin === 'inductance-from-resistance');
    // sure itself, and so not listed for itself; the time that stands in is
    expect(line).toBeUndefined();
    expect(numbers({ inductance }).map(({ origin, path }) => [origin, path])).toEqual([['inductance-time', 'inductance (input 2)']]);
  });
  it('given without its ± is listed with the one of its kind; with one of its own it is not', () => {
    expect(numbers({ usual })).toMatchObject([{ kind: 'given', origin: 'motor.mass', words: 'motor mass', source: 'common practice' }]);
    expect(numbers({ usual })[0].high).toBeCloseTo(0.104, 12);
    expect(numbers({ written: givenDatum('motor.mass', 'mass', 0.1, logNormal95(0.04), at(5)), exact })).toEqual([]);
  });
  it('that is so by definition, or infinite, is not listed', () => {
    const fill = createFiller('A');
    expect(numbers({ gear: fill.by('direct-drive'), none: fill.by('no-derating') })).toEqual([]);
    // a default that is sure but chosen is
    expect(numbers({ level: fill.by('sea-level') })).toMatchObject([{ kind: 'default', low: 0, high: 0 }]);
  });
  it('is listed once for all that share it, and twice where it differs', () => {
    const [a, b] = ['A', 'B'].map((name) => ({ name, data: { slow: createFiller(name).by('slow-time') } }));
    expect(assumedNumbers([a, b])).toMatchObject([{ candidates: ['A', 'B'], value: 30 }]);
    expect(assumedNumbers([a, a])[0].candidates).toEqual(['A']);
    // among what is no number
    expect(numbers({ nothing: null, words: 'two', table: Float64Array.of(1, 2), list: [{ usual }] })).toMatchObject([
      { path: 'list.0.usual' },
    ]);
    const other = { name: 'B', data: { mass: { ...usual, value: 0.2 } } };
    expect(assumedNumbers([{ name: 'A', data: { mass: usual } }, other])).toHaveLength(2);
  });
  it('made of other assumed ones brings them, by its path', () => {
    const fill = createFiller('A');
    const area = fill.by('wire-area');
    const lines = numbers({ deep: { area } });
    expect(lines.map(({ path }) => path)).toEqual(['deep.area']);
  });
});

describe('what readings narrowed', () => {
  const [entry] = unknownsOf([{ name: 'A', data: { usual } }]);
  const learnt = (mean: number, deviation: number) =>
    numbers(withLearnt({ usual }, new Map([[entry.key, { mean, deviation, mix: [{ of: entry, weight: 1 }], by: ['your reading'] }]])))[0];
  it('is told where it is nine tenths as wide or less, or moved by a quarter of its half-width', () => {
    expect(learnt(0, 0.89).narrowed).toMatchObject({ by: ['your reading'], value: 0.1 });
    expect(learnt(0, 0.92).narrowed).toBeUndefined();
    // the half-width is 1.96 deviations: a quarter of it half a deviation
    expect(learnt(0.52, 0.99).narrowed).toBeDefined();
    expect(learnt(0.44, 0.99).narrowed).toBeUndefined();
    expect(learnt(-0.52, 0.99).narrowed).toBeDefined();
  });
  it('has the interval that is left, and the one before', () => {
    const line = learnt(0, 0.5);
    expect(Math.log(line.high / line.value)).toBeCloseTo(0.5 * Math.log(1.04), 9);
    expect(line.narrowed?.high).toBeCloseTo(0.104, 9);
    expect(line.narrowed?.low).toBeCloseTo(0.1 / 1.04, 9);
  });
  it('has no interval where nothing is left, and says that it is as it was written', () => {
    const written = givenDatum('motor.mass', 'mass', 0.1, normal95(0.01), at(7));
    const [of] = unknownsOf([{ name: 'A', data: { written } }]);
    const [line] = numbers(withLearnt({ written }, new Map([[of.key, { mean: 0, deviation: 0, mix: [{ of, weight: 1 }], by: ['r'] }]])));
    expect([line.low, line.value, line.high, line.source]).toEqual([0.1, 0.1, 0.1, 'as written']);
  });
  it('of a rule’s own error counts with the common one, each with what is left of it', () => {
    const shaft = createFiller('A').by('inrunner-inertia', {
      mass: givenDatum('motor.mass', 'mass', 0.1, NO_SPREAD, at(8)),
      diameter: givenDatum('motor.can.diameter', 'length', 0.03, NO_SPREAD, at(9)),
    });
    const own = unknownsOf([{ name: 'A', data: { shaft } }]).find(({ key }) => key === shaft.own?.key) ?? expect.fail();
    const [line] = numbers(
      withLearnt({ shaft }, new Map([[own.key, { mean: 0, deviation: 0.5, mix: [{ of: own, weight: 1 }], by: ['r'] }]])),
    );
    // ± 60 % common, half of ± 20 % its own
    const half = Math.hypot(Math.log(1.6), 0.5 * Math.log(1.2));
    expect(line.high / line.value).toBeCloseTo(Math.exp(half), 9);
    expect(line.value / line.low).toBeCloseTo(Math.exp(half), 9);
  });
  it('is told of what was written with its own ±, too', () => {
    const written = givenDatum('motor.mass', 'mass', 0.1, normal95(0.01), at(6), 'kitchen scale');
    const [of] = unknownsOf([{ name: 'A', data: { written } }]);
    const lines = numbers(withLearnt({ written }, new Map([[of.key, { mean: 0, deviation: 0.5, mix: [{ of, weight: 1 }], by: ['r'] }]])));
    expect(lines).toMatchObject([
      { kind: 'narrowed', source: 'kitchen scale', low: expect.closeTo(0.095, 9), high: expect.closeTo(0.105, 9) },
    ]);
  });
});

it('choices come after the numbers, each once, yes and no for what is either', () => {
  const prepared = preparedOf({
    candidates: [
      { name: 'A', motor: OUTRUNNER },
      { name: 'B', motor: OUTRUNNER },
    ],
  });
  const list = assumptionsOf(prepared.candidates);
  const first = list.findIndex(({ kind }) => kind === 'choice');
  expect(list.slice(first).every(({ kind }) => kind === 'choice')).toBe(true);
  const folding = list.find(({ origin }) => origin === 'folding');
  expect(folding).toMatchObject({ value: 'no', candidates: ['A', 'B'], path: 'propeller.folding' });
});

it('a choice is told once, by its key, as it is or yes or no', () => {
  const chosen = (name: string, choices: readonly Chosen[]) => ({ name, data: {}, choices });
  // said, where nothing that is taken is
  const yes = { choice: 'folding', value: JSON.parse('true') } as Chosen;
  const block = { choice: 'drive', value: 'block' } as const;
  expect(assumptionsOf([chosen('A', [yes]), chosen('B', [block, yes]), { name: 'C', data: {} }])).toMatchObject([
    { candidates: ['A', 'B'], path: 'propeller.folding', value: 'yes', kind: 'choice', origin: 'folding' },
    { candidates: ['B'], path: 'controller.drive', value: 'block', words: 'commutation' },
  ]);
});

describe('what was counted or made of what was given', () => {
  const told = (drive: Section): string[] => assumptionsOf(preparedOf(drive).candidates).map(({ words, value }) => `${words}: ${value}`);

  /** Lines of what can be counted. */
  const COUNTED = /^(number of )?magnet poles|^pairs of connectors/;

  it('poles and plugs are told where nobody gave them', () => {
    const bare = told({});
    expect(bare).toContain('magnet poles of the outrunner: 14');
    expect(bare).toContain('pairs of connectors: 2');
    expect(bare.filter((line) => COUNTED.test(line))).toHaveLength(2);
  });

  it('and not where they were counted', () => {
    const counted = told({ motor: { ...OUTRUNNER, poles: 12 }, wiring: { connectors: 1 } });
    expect(counted.filter((line) => COUNTED.test(line))).toEqual([]);
  });

  it('the scatter of points about their fit is no assumption; how far off it leaves the propeller is', () => {
    const points = [6000, 8000, 10_000].map((turns) => ({
      shaft_speed: `${turns} rpm`,
      thrust: `${4 * (turns / 8000) ** 2} N`,
      torque: `${0.05 * (turns / 8000) ** 2} N*m`,
    }));
    const lines = told({ propeller: { kind: 'measured-points', diameter: '9 in', points } });
    expect(lines.filter((line) => line.includes('scatter'))).toEqual([]);
    expect(lines).toContain('factor on the thrust fitted to the measured points: 1');
  });
});
