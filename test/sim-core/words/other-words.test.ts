/** What is said of costly numbers, changes, identified numbers, readings and logs: exact sentences of hand-made results. */
import type { AssumedNumber } from '@shaftwork/sim-core/results/assumption';
import type { ChangeResult } from '@shaftwork/sim-core/results/change-result';
import type { CostlyNumber, CostlyResult, Tip } from '@shaftwork/sim-core/results/costly-result';
import type { Contradiction } from '@shaftwork/sim-core/results/finding';
import type { FoundNumber, IdentifyResult, ReadingFit } from '@shaftwork/sim-core/results/identify-result';
import type { ReadingLine } from '@shaftwork/sim-core/results/readings-result';
import { CHANGE_WORDS, changeParts, changeSentence } from '@shaftwork/sim-core/words/change-words';
import {
  fitSentence,
  identifySentence,
  misfits,
  notToldSentence,
  numberName,
  numberParts,
  shareOf,
  shareText,
} from '@shaftwork/sim-core/words/identify-words';
import { contradictionSentence, narrowedWords, readingSentence, readingsNote } from '@shaftwork/sim-core/words/reading-words';
import { costlyName, measureFirst, measureFirstSentence, tipWords, withoutTips } from '@shaftwork/sim-core/words/tipping-words';
import { describe, expect, it } from 'vitest';

const plain = (text: string | undefined): string => (text ?? '').replaceAll('\u202f', ' ');

describe('a costly number', () => {
  const advice = {
    how: 'a current of 5 A, and the volts',
    effort: 'minutes',
    needsTheMotor: true,
    accuracy: 0.03,
    key: 'motor.resistance',
  } as const;
  const number = (more: Partial<CostlyNumber> = {}): CostlyNumber => ({
    subject: 'motor.resistance',
    words: 'winding resistance',
    candidates: ['Long'],
    standing: 'doubtful',
    dimension: 'resistance',
    value: 0.065,
    low: 0.055,
    high: 0.075,
    cost: 0.4,
    effects: [],
    tips: [],
    ...more,
  });
  const tip = (at: number, more: Partial<Tip> = {}): Tip => ({ at, kind: 'leads', candidate: 'Wide', ...more });
  const result = (...numbers: CostlyNumber[]): CostlyResult => ({ numbers, all: [], ranking: [], leading: [], simulations: 9 });

  it('is named without a rule’s formula, with whose it is', () => {
    expect(costlyName(number())).toBe('winding resistance of Long');
    expect(costlyName(number({ candidates: [] }))).toBe('winding resistance');
    expect(costlyName(number({ candidates: ['Long', 'Wide'] }))).toBe('winding resistance of Long and Wide');
    expect(costlyName(number({ candidates: ['Long', 'Wide', 'Small'], standing: 'missing', words: 'controller to air: 0.9 W/K' }))).toBe(
      'controller to air (Long, Wide and Small)',
    );
    expect(costlyName(number({ candidates: [], words: 'stack length, 0.47 of the can' }))).toBe('stack length');
    expect(costlyName(number({ candidates: [], words: 'side of the can, π·D·L' }))).toBe('side of the can, π·D·L');
    expect(costlyName(number({ candidates: [], words: 'slowing in the cold (activation temperature, 46 kJ/mol)' }))).toBe(
      'slowing in the cold',
    );
  });
  it('tips the answer below and above', () => {
    expect(
      tipWords(
        number({
          tips: [
            tip(0.06),
            tip(0.07, { kind: 'fails', candidate: 'Long', words: 'winding temperature' }),
            tip(0.07, { kind: 'fails', candidate: 'Long' }),
            tip(0.06, { kind: 'meets', candidate: 'Long' }),
          ],
        }),
      ).map(plain),
    ).toEqual([
      'below 60.0 mΩ Wide leads',
      'above 70.0 mΩ Long passes its limit of winding temperature',
      'above 70.0 mΩ Long does not finish',
      'below 60.0 mΩ Long meets its limits',
    ]);
  });
  it('is measured first where it can be, and changes the answer or is lacking', () => {
    const [plainNumber, tipping, lacking] = [
      number({ advice }),
      number({ advice, tips: [tip(0.06)] }),
      number({ advice, lacksOnSheet: true }),
    ];
    expect(measureFirst(result(number({ tips: [tip(0.06)] }), tipping))).toMatchObject({ tips: tipping.tips, advice });
    expect(measureFirst(result(plainNumber, tipping))).toBeUndefined();
    expect(measureFirst(result(lacking))).toMatchObject({ lacksOnSheet: true });
    expect(measureFirst(result(number()))).toBeUndefined();
    expect(plain(measureFirstSentence(result(tipping)))).toBe(
      'Measure first: winding resistance of Long, 65.0 mΩ; below 60.0 mΩ Wide leads. How (minutes, with the motor): a current of 5 A, and the volts. Write it as motor.resistance.',
    );
    expect(plain(measureFirstSentence(result({ ...lacking, advice: { ...advice, needsTheMotor: false } })))).toBe(
      'Ask the seller for, or measure first, winding resistance of Long, 65.0 mΩ. How (minutes): a current of 5 A, and the volts. Write it as motor.resistance.',
    );
    expect(measureFirstSentence(result(number()))).toBeUndefined();
    expect(withoutTips(result(plainNumber, tipping))).toEqual([plainNumber]);
  });
});

describe('a change', () => {
  it('has its sign, two digits and its interval', () => {
    const { change, interval } = changeParts({ change: 0.0612, low: -0.0204, high: 0.1 });
    expect([plain(change), plain(interval)]).toEqual(['+6.1 %', '−2.0 % to +10 %']);
    expect(plain(changeParts({ change: 0, low: 0, high: 0 }).change)).toBe('0 %');
  });
  it('is told by its findings, and not where a fit did not settle', () => {
    const of = (more: Partial<ChangeResult>) =>
      changeSentence({ findings: ['flux-lost', 'more-friction'], settled: true, ...more } as ChangeResult);
    expect(of({})).toBe(`${CHANGE_WORDS['flux-lost']} ${CHANGE_WORDS['more-friction']}`);
    expect(of({ settled: false })).toBe('A fit did not settle: do not use its numbers.');
  });
  it.each([
    ['flux-lost', /magnets have lost flux/],
    ['shorted-turn', /shorted.*Do not run it/],
    ['bad-joint', /bad joint/],
    ['more-friction', /bearings/],
    ['other-propeller', /bent, chipped or another/],
    ['aged-pack', /pack has aged/],
    ['capacity-lost', /capacity is down/],
    ['no-pattern', /no pattern/],
    ['nothing', /Nothing changed/],
  ] as const)('%s says what it means', (finding, words) => expect(CHANGE_WORDS[finding]).toMatch(words));
});

const found = (more: Partial<FoundNumber> = {}): FoundNumber => ({
  key: 'resistance',
  words: 'winding resistance',
  dimension: 'resistance',
  value: 0.05734,
  low: 0.05554,
  high: 0.05914,
  told: true,
  ...more,
});

describe('an identified number', () => {
  const number = found;
  it('is shown to two digits of its half-width', () => {
    const { value, interval } = numberParts(number());
    expect([plain(value), interval]).toEqual(['57.3 mΩ', '55.5 to 59.1']);
    expect(plain(numberParts(number({ low: 0.04, high: 0.08 })).value)).toBe('57 mΩ');
    expect(plain(numberParts(number({ low: 0.05734, high: 0.05734 })).value)).toBe('57.340 mΩ');
    expect(numberParts(number({ dimension: 'ratio', value: 1.5, low: 1.4, high: 1.6 }))).toEqual({
      value: '1.50',
      interval: '1.40 to 1.60',
    });
  });
  it('is named with whose it is and where it holds', () => {
    expect(numberName(number())).toBe('winding resistance');
    expect(plain(numberName(number({ words: 'torque', of: 'P1', at: { dimension: 'angularSpeed', value: 306.5 * Math.PI } })))).toBe(
      'torque of P1 at 9195 rpm',
    );
    expect(plain(numberName(number({ at: { dimension: 'current', value: 12.345 } })))).toBe('winding resistance at 12.3 A');
  });
  it('has a share on either side, the wider one told', () => {
    expect(shareOf(number({ value: 10, low: 8, high: 11 }))).toBeCloseTo(0.25, 12);
    expect(shareOf(number({ value: 10, low: 9.5, high: 12 }))).toBeCloseTo(0.2, 12);
    expect([shareText(0.0634), shareText(9.98), shareText(10)].map(plain)).toEqual(['± 6.3 %', '± 998 %', 'no bound']);
  });
  it('that the log does not tell says why, and what would', () => {
    const wide = number({ value: 10, low: 8, high: 12.5 });
    expect(plain(notToldSentence(wide, { usual: 0.3 }))).toBe(
      'The log does not tell the winding resistance: ± 25 % with it, ± 30 % without.',
    );
    const from = { words: 'Kv', correlation: -0.98 };
    const run = { words: 'a held rotor', left: 0.05 };
    expect(plain(notToldSentence(wide, { usual: 0.3, from, run }))).toBe(
      'The log does not tell the winding resistance: ± 25 % with it, ± 30 % without. It cannot be parted from the Kv (correlation −0.98). What would tell it: a held rotor, to ± 5.0 %.',
    );
    expect(notToldSentence(wide, { usual: 0.3, from: { ...from, words: 'what the air carries' } })).toContain(
      'parted from what the air carries',
    );
  });
});

describe('a fit', () => {
  const fitOf = (more: Partial<ReadingFit> = {}): ReadingFit => ({
    key: 'speed',
    words: 'motor speed',
    dimension: 'temperature',
    count: 40,
    left: 1.25,
    outliers: 0,
    pattern: 1,
    alongWords: 'the current',
    points: [],
    ...more,
  });
  it('is told by what is left, outliers and pattern', () => {
    expect(plain(fitSentence(fitOf()))).toBe('Motor speed: 40 rows within 1.3 K (root mean square).');
    expect(plain(fitSentence(fitOf({ dimension: 'current' })))).toContain('within 1.3 A');
    expect(fitSentence(fitOf({ outliers: 3 }))).toContain(', 3 of them far off and counted little.');
    expect(fitSentence(fitOf({ pattern: 4.1 }))).toContain('What is left follows the current: the laws leave something out there');
    expect(fitSentence(fitOf({ pattern: 4 }))).not.toContain('follows');
  });
  it('that leaves a pattern, or does not settle, misfits', () => {
    const result = (more: Partial<IdentifyResult>) => misfits({ fits: [fitOf()], settled: true, ...more } as IdentifyResult);
    expect([result({}), result({ settled: false }), result({ fits: [fitOf(), fitOf({ pattern: 5 })] })]).toEqual([false, true, true]);
    expect(result({ fits: [fitOf({ pattern: 4 })] })).toBe(false);
  });
  it('comes to a sentence', () => {
    const numbers = [true, false, true].map((told) => found({ told }));
    const result: IdentifyResult = {
      kind: 'heat',
      numbers,
      rows: 120,
      rank: 5,
      unknowns: 9,
      settled: true,
      sources: [],
      taken: [],
      fits: [],
      along: { words: 'time', dimension: 'time' },
      together: [],
      singular: [],
      parts: [],
    };
    expect(identifySentence(result)).toBe(
      '120 rows determine 2 of 3 numbers of the motor’s heat; 5 of 9 unknown directions are told by the log, the rest by rules.',
    );
    expect(identifySentence({ ...result, kind: 'motor', settled: false })).toMatch(
      /of the motor;.*The fit did not settle: do not use its numbers\.$/,
    );
    expect(identifySentence({ ...result, kind: 'pack' })).toContain('of the pack;');
  });
});

describe('readings', () => {
  const line: ReadingLine = {
    candidate: 'A',
    words: 'battery current at 100 % throttle',
    told: '31.0 A',
    origin: 'a.yaml line 3',
    dimension: 'current',
    value: 31,
    low: 30,
    high: 32,
    expected: { value: 34.7, low: 30.1, high: 40 },
    since: 31.2,
    off: { alone: 1, amongAll: 1 },
  };
  it('are told with what was expected, and since', () => {
    expect(plain(readingSentence(line))).toBe(
      'battery current at 100 % throttle: 31.0 A read; 34.7 A were to be expected (30.1 A to 40.0 A), 31.2 A since',
    );
    expect(plain(readingSentence({ ...line, dimension: 'temperature', value: 331.15, since: 332 }))).toContain('58 °C read');
  });
  it('are counted, and told when draws were weighed or nothing settled', () => {
    expect(readingsNote({ lines: [line], settled: true })).toMatch(/^The reading narrows the numbers/);
    expect(readingsNote({ lines: [line, line], settled: true })).toMatch(/^The 2 readings together narrow .* tells which\.$/);
    expect(readingsNote({ lines: [line], settled: true, effectiveDraws: 80.4 })).toContain('worth 80 of 256.');
    expect(readingsNote({ lines: [line], settled: false })).toContain('take these numbers for rough.');
  });
  it('narrow a number, or only move it', () => {
    const number = (low: number, high: number, by = ['your reading of 31.0 A']): AssumedNumber => ({
      candidates: ['A'],
      path: 'motor.resistance',
      words: 'winding resistance',
      kind: 'narrowed',
      origin: 'motor.resistance',
      source: 'as written',
      dimension: 'resistance',
      value: 0.06,
      low,
      high,
      narrowed: { by, value: 0.065, low: 0.055, high: 0.075 },
    });
    expect(plain(narrowedWords(number(0.058, 0.062)))).toBe('narrowed by your reading of 31.0 A, from 65.0 mΩ (55.0 mΩ to 75.0 mΩ)');
    expect(narrowedWords(number(0.0502, 0.0696))).toMatch(/^moved by/);
    expect(narrowedWords(number(0.0502, 0.0691))).toMatch(/^narrowed by/);
    expect(narrowedWords(number(0.058, 0.062, ['your reading of 31.0 A', 'your reading of 58 °C on the can']))).toContain(
      'by your readings of 31.0 A and 58 °C on the can,',
    );
    expect(narrowedWords(number(0.058, 0.062, ['your reading of 31.0 A', '3 identified motors']))).toContain(
      'by your reading of 31.0 A and 3 identified motors,',
    );
    const { narrowed: _, ...untouched } = number(0.05, 0.07);
    expect(narrowedWords(untouched)).toBeUndefined();
  });
  it('that contradict say what would have to be, or that the others contradict them', () => {
    const finding: Contradiction = {
      kind: 'reading-contradicts',
      candidate: 'A',
      reading: 'battery current',
      line: 12,
      dimension: 'current',
      value: 31,
      bound: 20,
      deviations: 4.26,
    };
    expect(plain(contradictionSentence(finding))).toBe(
      'Line 12: 31.0 A were read as battery current, where 20.0 A were to be expected, 4.3 standard deviations off. It contradicts the other readings: look at the reading, its unit, and whether this was what was driven.',
    );
    const against = { against: 'Kv of A', asked: 0.0061, written: 0.0104, askedDimension: 'torqueConstant' } as const;
    // half of it is none
    for (const key of ['against', 'asked', 'written', 'askedDimension'] as const) {
      const { [key]: _, ...rest } = against;
      expect(contradictionSentence({ ...finding, ...rest }), key).toContain('It contradicts the other readings:');
    }
    expect(plain(contradictionSentence({ ...finding, ...against }))).toContain(
      'To agree, the Kv of A would have to be 6.10 mN·m/A, not 10.4 mN·m/A: look',
    );
  });
});
