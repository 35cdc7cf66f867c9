/** Rules own their numbers: what is assumed stands in the rule, beside its words, tolerance and source, and nowhere else. */
import { readdirSync, readFileSync } from 'node:fs';
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { RULES, type RuleId } from '@shaftwork/sim-core/provenance/rules/rules';
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
