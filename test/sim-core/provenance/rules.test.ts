/** Rules own their numbers: what is assumed stands in the rule, beside its words, tolerance and source, and nowhere else. */
import { readdirSync, readFileSync } from 'node:fs';
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { unmeasured, value } from '@shaftwork/sim-core/provenance/rules/rule';
import { RULES, type RuleId } from '@shaftwork/sim-core/provenance/rules/rules';
import { percent } from '@shaftwork/sim-core/provenance/rules/spreads';
import { expect, it } from 'vitest';

const withValue = (Object.keys(RULES) as RuleId[]).filter((id) => (RULES[id] as { value?: number }).value !== undefined);

it('most defaults have a value of their own, and give it', () => {
  expect(withValue.length).toBeGreaterThan(80);
  const fill = createFiller('A');
  for (const id of withValue) {
    const datum = fill.by(id);
    expect(Number.isNaN(datum.value), id).toBe(false);
    expect(datum.origin, id).toMatchObject({ kind: 'default', rule: id, inputs: [] });
    expect(datum.dimension, id).toBe(RULES[id].dimension);
    expect(RULES[id].law([]), id).toBe(datum.value);
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
  expect(fill.ofKind('insulation-class', 'F').origin).toMatchObject({ kind: 'default', rule: 'insulation-class', inputs: [] });
  // @ts-expect-error: no such class
  void (() => fill.ofKind('insulation-class', 'Z'));
});

it('what may be off says what narrows it, or that nothing does', () => {
  // @ts-expect-error: an interval alone does not say how it is narrowed
  void (() => value('a length', 'length', 1, percent(10), 'nowhere'));
  expect(value('a length', 'length', 1, unmeasured(percent(10)), 'nowhere')).toMatchObject({ group: 'other', key: null });
  expect(RULES['press-fit']).toMatchObject({ group: 'way-within', key: 'motor.thermal.stator_to_can' });
});

/** One rule, several values: what is absent has one of its own in each place. */
const SEVERAL = ['no-limit', 'no-wing', 'of-a-supply'];

it('no number of a rule stands in the completion', () => {
  const folder = new URL('../../../packages/sim-core/src/provenance/complete/', import.meta.url);
  const bare = readdirSync(folder).flatMap((file) =>
    [
      ...readFileSync(new URL(file, folder), 'utf8').matchAll(
        /fill\.fixed\(\s*['`]([^'`]+)['`],\s*(?:-?[\d.e-]+|celsius\(\d+\)|Number\.\w+)\)/g,
      ),
    ].map(([, id]) => id),
  );
  expect([...new Set(bare)].sort()).toEqual(SEVERAL);
});

it.each([
  ['outrunner-stack', 0.1, 0.047, /0\.47 of the can/],
  ['cell-heat-capacity', 0.5, 500, /1000 J/],
  ['bearing-tube', 0.03, 0.09, /3 W\/\(m·K\)/],
  ['screw-immersion', 0.04, 0.03, /0\.75 diameters/],
] as const)('%s says in words the number it counts with', (id, input, expected, words) => {
  expect(RULES[id].law([input])).toBeCloseTo(expected, 12);
  expect(RULES[id].words).toMatch(words);
});
