/** What readings left of unknowns, put into data: values move, intervals shrink, what nothing is learnt of stays itself. */
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { type Datum, givenDatum } from '@shaftwork/sim-core/provenance/datum';
import { type LearntUnknown, withLearnt } from '@shaftwork/sim-core/provenance/learnt';
import { drawer } from '@shaftwork/sim-core/provenance/realise';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { logNormal95, NO_SPREAD, normal95 } from '@shaftwork/sim-core/quantities/spread';
import { describe, expect, it } from 'vitest';

const at = (line: number) => ({ file: 'a.yaml', line, column: 1, path: 'motor' });
const length = givenDatum('motor.can.length', 'length', 0.03, logNormal95(0.2), at(1));
const warm = givenDatum('ambient.air', 'temperature', 300, normal95(19.6), at(2));
const SIGMA = Math.log(1.2) / 1.959963984540054;
const [entry] = unknownsOf([{ name: 'A', data: { length } }]);
const lesson = (mean: number, deviation: number, by = ['your reading']): LearntUnknown => ({
  mean,
  deviation,
  mix: [{ of: entry, weight: 1 }],
  by,
});
const learn = <T>(data: T, lessons: Readonly<Record<string, LearntUnknown>>): T => withLearnt(data, new Map(Object.entries(lessons)));

describe('what is learnt', () => {
  it('moves a given value by its mean, and narrows it', () => {
    const { length: made } = learn({ length }, { 'a.yaml:1:1': lesson(0.5, 0.4) });
    expect(made.value).toBeCloseTo(0.03 * Math.exp(0.5 * SIGMA), 12);
    expect(made.unknown).toMatchObject({ spread: { shape: 'log-normal' }, offset: expect.closeTo(0.5 * SIGMA, 12) });
    expect(made.unknown.spread).toMatchObject({ sigma: expect.closeTo(0.4 * SIGMA, 12) });
    expect(made.learnt).toMatchObject({ before: length, by: ['your reading'] });
    const { warm: other } = learn({ warm }, { 'a.yaml:2:1': lesson(-1, 0.5) });
    expect(other.value).toBeCloseTo(290, 3);
    expect(other.unknown.spread).toMatchObject({ shape: 'normal', sd: expect.closeTo(5, 3) });
  });
  it('twice, moves on from where it was', () => {
    const once = learn({ length }, { 'a.yaml:1:1': lesson(0.5, 0.4) });
    const twice = learn(once, { 'a.yaml:1:1': lesson(0.5, 1) });
    expect(twice.length.value).toBeCloseTo(0.03 * Math.exp(0.5 * SIGMA + 0.5 * 0.4 * SIGMA), 12);
  });
  it('passes through rules: value from moved inputs, then the rule’s own moves; draws agree', () => {
    const stack = createFiller('A').by('outrunner-stack', { can: length });
    const made = learn(
      { stack },
      { 'a.yaml:1:1': lesson(0.5, 0.4), 'rule:outrunner-stack': lesson(-1, 0.3), 'rule:outrunner-stack@A': lesson(2, 1) },
    );
    const own = Math.log(1.08) / 1.959963984540054;
    const expected = 0.47 * 0.03 * Math.exp(0.5 * SIGMA - SIGMA + 2 * own);
    expect(made.stack.value).toBeCloseTo(expected, 12);
    expect(drawer(made)(() => 0)).toEqual({ stack: expect.closeTo(expected, 12) });
    expect(made.stack.learnt?.by).toEqual(['your reading']);
  });
  it('moves a default as it moves a given one', () => {
    const slow = createFiller('A').by('slow-time');
    const made = learn({ slow }, { 'rule:slow-time': lesson(1, 0.5) });
    const sigma = Math.log(1.6) / 1.959963984540054;
    expect(made.slow.value).toBeCloseTo(30 * Math.exp(sigma), 9);
    expect(drawer(made)(() => 0)).toEqual({ slow: expect.closeTo(30 * Math.exp(sigma), 9) });
  });
  it('of a share stops at all of it', () => {
    const share = givenDatum('x', 'fraction', 0.95, normal95(0.2), at(3));
    expect(learn({ share }, { 'a.yaml:3:1': lesson(3, 0.5) }).share.value).toBe(1);
  });
});

describe('what nothing is learnt of', () => {
  it('stays the same object', () => {
    const data = { a: { length }, b: { warm }, list: [1, 2], curve: Float64Array.of(1), word: 'x', none: null };
    expect(learn(data, { other: lesson(1, 0.5) })).toBe(data);
    const made = learn(data, { 'a.yaml:1:1': lesson(1, 0.5) });
    expect(made.b).toBe(data.b);
    expect([made.list, made.curve]).toEqual([data.list, data.curve]);
    expect(made.a).not.toBe(data.a);
  });
  it('is what is exact, whatever is said of its key', () => {
    const exact: Datum = givenDatum('x', 'length', 0.03, NO_SPREAD, at(4));
    expect(learn({ exact }, { 'a.yaml:4:1': lesson(1, 0.5) }).exact).toBe(exact);
  });
  it('what is shared stays shared', () => {
    const fill = createFiller('A');
    const data = { a: length, b: { length }, c: fill.by('half', { diameter: length }) };
    const made = learn(data, { 'a.yaml:1:1': lesson(1, 0.5) });
    expect(made.a).toBe(made.b.length);
    expect(made.c.origin.kind !== 'given' && made.c.value).toBeCloseTo(0.5 * made.a.value, 15);
    // moved by its input, not by a reading of its own
    expect(made.c.learnt).toBeUndefined();
  });
});
