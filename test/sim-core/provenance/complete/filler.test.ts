/** How gaps are filled: kinds of origin, keys of unknowns, what is noted once, and what is asked for. */
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { givenDatum } from '@shaftwork/sim-core/provenance/datum';
import { asFleet } from '@shaftwork/sim-core/provenance/fleet';
import { RULES } from '@shaftwork/sim-core/provenance/rules/rules';
import { halfWidth95, logNormal95, NO_SPREAD } from '@shaftwork/sim-core/quantities/spread';
import { describe, expect, it } from 'vitest';

const place = { file: 'a.yaml', line: 3, column: 5, path: 'motor' };
const length = givenDatum('motor.can.length', 'length', 0.03, NO_SPREAD, place);

describe('a filler', () => {
  it('makes a default without inputs, an estimate with a doubt, and what follows without one', () => {
    const fill = createFiller('A');
    expect(fill.by('slow-time')).toMatchObject({ value: 30, origin: { kind: 'default', rule: 'slow-time' } });
    expect(fill.by('outrunner-stack', { can: length })).toMatchObject({ origin: { kind: 'estimated', rule: 'outrunner-stack' } });
    expect(fill.by('half', { diameter: length })).toMatchObject({ value: 0.015, origin: { kind: 'derived', rule: 'half' } });
    expect(fill.fixed('pole-count', 14)).toMatchObject({ value: 14, dimension: 'ratio', origin: { kind: 'default', rule: 'pole-count' } });
  });

  it('keys what all share by the rule, and each one’s own by the candidate too', () => {
    const [a, b] = ['A', 'B'].map((name) => createFiller(name).by('outrunner-stack', { can: length }));
    expect([a.unknown.key, b.unknown.key]).toEqual(['rule:outrunner-stack', 'rule:outrunner-stack']);
    expect([a.own?.key, b.own?.key]).toEqual(['rule:outrunner-stack@A', 'rule:outrunner-stack@B']);
    expect(createFiller('A').by('slow-time').own).toBeUndefined();
  });

  it('takes a tolerance from its inputs where the rule says so', () => {
    const fill = createFiller('A');
    const error = fill.fixed('written-thrust-error', 0.3);
    expect(halfWidth95(fill.by('one-point-thrust-error', { written: error }).unknown.spread)).toBeCloseTo(Math.hypot(0.12, 0.3), 9);
  });

  it('asks once for what must be given, and says where it is found', () => {
    const fill = createFiller('A');
    expect(fill.need(length, 'length', place, 'can.length', 'by caliper')).toBe(length);
    expect(fill.problems).toEqual([]);
    expect(fill.need(undefined, 'mass', place, 'mass', 'a kitchen scale')).toMatchObject({ dimension: 'mass', value: Number.NaN });
    fill.missing(place, 'layout', 'the layout', 'look');
    expect(fill.problems).toMatchObject([
      { kind: 'missing-datum', place: { path: 'motor.mass', line: 3 }, expected: 'mass', hint: 'a kitchen scale' },
      { kind: 'missing-datum', place: { path: 'motor.layout' }, expected: 'the layout', hint: 'look' },
    ]);
  });

  it('notes a choice once, and none where something was said', () => {
    const fill = createFiller('A');
    expect([fill.take('family'), fill.choose('family', undefined), fill.choose('braking', 'regenerative')]).toEqual([
      'thin',
      'thin',
      'regenerative',
    ]);
    expect(fill.choose('folding', false)).toBe(false);
    expect(fill.take('drives')).toBe(1);
    expect(fill.choices).toEqual([
      { choice: 'family', value: 'thin' },
      { choice: 'drives', value: 1 },
    ]);
  });

  it('takes a rule as a fleet of motors has it', () => {
    const pooled = { shift: 0.2, common: 0.1, own: 0.3, by: '3 identified motors' };
    const fill = createFiller('A', new Map([['through-flow', pooled]]));
    const plain = createFiller('A').by('through-flow', { bore: length, stack: length });
    const learnt = fill.by('through-flow', { bore: length, stack: length });
    expect(learnt).toEqual(asFleet(plain, pooled, { common: 'rule:through-flow', own: 'rule:through-flow@A' }));
    expect(learnt.value).toBeCloseTo(plain.value * Math.exp(0.2), 12);
    expect(fill.by('slow-time')).toEqual(createFiller('A').by('slow-time'));
    expect(RULES['slow-time'].common).toEqual(logNormal95(0.6));
  });
});
