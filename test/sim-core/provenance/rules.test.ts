/** Rules own their numbers: what is assumed stands in the rule, beside its words, tolerance and source, and nowhere else. */

import { readdirSync, readFileSync } from 'node:fs';
import type { Motor } from '@shaftwork/sim-core/parts/motor';
import { completeMotor } from '@shaftwork/sim-core/provenance/complete/complete-motor';
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { type Data, givenDatum } from '@shaftwork/sim-core/provenance/datum';
import { DOUBT_GROUPS } from '@shaftwork/sim-core/provenance/rules/doubt-groups';
import { rule, unmeasured, value } from '@shaftwork/sim-core/provenance/rules/rule';
import { inputsOf, type LawRuleId, RULES, type RuleId, ruleOf } from '@shaftwork/sim-core/provenance/rules/rules';
import { percent, SURE } from '@shaftwork/sim-core/provenance/rules/spreads';
import { WRITTEN } from '@shaftwork/sim-core/provenance/written';
import { expect, it } from 'vitest';

type ValueId = { [Id in LawRuleId]: (typeof RULES)[Id] extends { readonly value: number } ? Id : never }[LawRuleId];
const withValue = (Object.keys(RULES) as RuleId[]).filter((id): id is ValueId => ruleOf(id).value !== undefined);

it('most defaults have a value of their own, and give it', () => {
  expect(withValue.length).toBeGreaterThan(80);
  const fill = createFiller('A');
  for (const id of withValue) {
    const datum = fill.by(id);
    expect(Number.isNaN(datum.value), id).toBe(false);
    expect(datum.origin, id).toMatchObject({ kind: 'default', rule: id, inputs: {} });
    expect(datum.dimension, id).toBe(RULES[id].dimension);
    expect(ruleOf(id).law({}), id).toBe(datum.value);
  }
});

it('defaults by kind give the value of the kind that is asked', () => {
  const fill = createFiller('A');
  // Incropera et al., 6th ed., table A.1: pure copper 401, plain carbon steel 60.5 W/(m·K); alloys conduct less
  expect(fill.ofKind('fin-conductivity', 'copper').value).toBeGreaterThan(fill.ofKind('fin-conductivity', 'steel').value);
  expect(fill.ofKind('fin-conductivity', 'copper').value).toBeLessThan(401);
  expect(fill.ofKind('fin-conductivity', 'steel').value).toBeLessThan(60.5);
  // IEC 60085: class F is good for 155 °C
  expect(fill.ofKind('insulation-class', 'F').value).toBeCloseTo(428.15, 9);
  expect(fill.ofKind('insulation-class', 'F').origin).toMatchObject({ kind: 'default', rule: 'insulation-class', inputs: {} });
  // @ts-expect-error: no such class
  void (() => fill.ofKind('insulation-class', 'Z'));
});

it('every group of doubt holds some rule or written key', () => {
  const rules = (Object.keys(RULES) as RuleId[]).map((id) => ruleOf(id).group);
  const written = Object.values(WRITTEN).map(({ group }) => group);
  expect(new Set([...rules, ...written])).toEqual(new Set(DOUBT_GROUPS));
});

it('what may be off says what narrows it, or that nothing does', () => {
  // @ts-expect-error: an interval alone does not say how it is narrowed
  void (() => value('a length', 'length', 1, percent(10), 'nowhere'));
  expect(value('a length', 'length', 1, unmeasured(percent(10)), 'nowhere')).toMatchObject({ group: 'other', key: null });
  expect(RULES['press-fit']).toMatchObject({ group: 'way-within', key: 'motor.thermal.stator_to_can' });
});

it('no number of a rule stands in the completion', () => {
  const folder = new URL('../../../packages/sim-core/src/provenance/complete/', import.meta.url);
  const bare = readdirSync(folder).flatMap((file) =>
    [
      ...readFileSync(new URL(file, folder), 'utf8').matchAll(
        /fill\.fixed\(\s*['`]([^'`]+)['`],\s*(?:-?[\d.e-]+|celsius\(\d+\)|Number\.\w+)\)/g,
      ),
    ].map(([, id]) => id),
  );
  expect(bare).toEqual([]);
});

const place = { file: 'a.yaml', line: 1, column: 1, path: 'motor' };
const length = givenDatum('motor.can.length', 'length', 0.03, SURE, place);
const voltage = givenDatum('battery.supply', 'voltage', 12, SURE, place);

it('what a rule is used on goes by name and dimension, or does not compile', () => {
  const fill = createFiller('A');
  // @ts-expect-error: no input of that name
  void (() => fill.by('outrunner-stack', { bell: length }));
  // @ts-expect-error: an input is missing
  void (() => fill.by('press-fit', { bore: length }));
  // @ts-expect-error: the input is missing
  void (() => fill.by('outrunner-stack'));
  // @ts-expect-error: a voltage is no length
  void (() => fill.by('outrunner-stack', { can: voltage }));
  // @ts-expect-error: the law has no such input
  void (() => rule('double', 'length', { half: 'length' }, ({ third }) => 2 * third, SURE, 'arithmetic'));
  // inputs stand in the order of the rule, whatever the order they were said in; what may be absent is left out
  const thickest = fill.by('thickest', { cowl: length, sink: fill.by('nothing-round-can'), fan: undefined });
  expect(thickest).toMatchObject({ value: 0.03, origin: { kind: 'derived' } });
  expect(Object.keys(inputsOf(thickest, 'thickest') ?? {})).toEqual(['sink', 'cowl']);
  expect(inputsOf(thickest, 'sum')).toBeUndefined();
});

it('a datum keeps its dimension through the completion', () => {
  const fill = createFiller('A');
  const motor = completeMotor(fill, { place, motor: { place, layout: 'inrunner' } });
  expect(motor.mass.dimension).toBe('mass');
  expect(motor.torqueConstant.dimension).toBe('torqueConstant');
  // @ts-expect-error: a voltage in place of a resistance
  const wrong: Motor<Data> = { ...motor, resistance: voltage };
  expect(wrong.resistance.dimension).toBe('voltage');
});

it.each([
  ['outrunner-stack', { can: 0.1 }, 0.047, /0\.47 of the can/],
  ['cell-heat-capacity', { mass: 0.5 }, 500, /1000 J/],
  ['bearing-tube', { can: 0.03 }, 0.09, /3 W\/\(m·K\)/],
  ['screw-immersion', { diameter: 0.04 }, 0.03, /0\.75 diameters/],
] as const)('%s says in words the number it counts with', (id, inputs, expected, words) => {
  expect(ruleOf(id).law(inputs)).toBeCloseTo(expected, 12);
  expect(RULES[id].words).toMatch(words);
});
