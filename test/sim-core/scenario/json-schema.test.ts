import { type JsonSchema, PART_KINDS, partJsonSchema, scenarioJsonSchema, sharedSchema } from '@shaftwork/sim-core/scenario';
import { describe, expect, it } from 'vitest';

const at = (schema: unknown, ...path: readonly string[]): JsonSchema =>
  path.reduce((here, key) => (here as Record<string, JsonSchema>)[key]!, schema as JsonSchema) as JsonSchema;
const property = (schema: unknown, ...keys: readonly string[]): JsonSchema => at(schema, ...keys.flatMap((key) => ['properties', key]));

/** Every schema of a field that holds an example of itself. */
function* fields(schema: unknown, path = ''): Generator<readonly [path: string, field: JsonSchema]> {
  if (typeof schema !== 'object' || schema === null) return;
  if ('examples' in schema && 'description' in schema) yield [path, schema as JsonSchema];
  for (const [key, inner] of Object.entries(schema)) yield* fields(inner, `${path}/${key}`);
}

const scenario = scenarioJsonSchema();
const motor = property(scenario, 'motor');
const inCandidate = at(property(scenario, 'candidates'), 'items');
const accepts = (field: JsonSchema, text: string) => new RegExp(String(field['pattern']), 'u').test(text);

describe('the JSON Schema of a scenario', () => {
  it('is strict and says what is due', () => {
    expect(scenario).toMatchObject({ type: 'object', additionalProperties: false, required: ['title', 'profile', 'candidates'] });
    expect(motor).toMatchObject({ type: 'object', additionalProperties: false });
    expect(inCandidate).toMatchObject({ additionalProperties: false, required: ['name'] });
  });

  it('is small enough for an editor and holds no key without a description', () => {
    expect(JSON.stringify(sharedSchema(scenario)).length).toBeLessThan(200_000);
    const bare = Object.entries(scenario['properties'] as object).filter(([, section]) => !('description' in section));
    expect(bare).toEqual([]);
  });

  it('says for editors what it says whole, with less repeated', () => {
    const shared = sharedSchema(scenario);
    const definitions = shared['definitions'] as Readonly<Record<string, unknown>>;
    const own = scenario['definitions'] as Readonly<Record<string, unknown>>;
    expect(Object.keys(definitions).length).toBeGreaterThan(Object.keys(own).length + 10);
    const read = new Set<string>();
    // references of its own stay, the others are looked up
    const whole = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(whole);
      if (typeof value !== 'object' || value === null) return value;
      const name = '$ref' in value ? String(value.$ref).replace('#/definitions/', '') : undefined;
      if (name === undefined || name in own) return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, whole(inner)]));
      read.add(name);
      return whole(definitions[name]);
    };
    const { definitions: _, ...rest } = shared;
    expect(whole({ ...rest, definitions: Object.fromEntries(Object.keys(own).map((name) => [name, definitions[name]])) })).toEqual(
      scenario,
    );
    expect([...read, ...Object.keys(own)].sort()).toEqual(Object.keys(definitions).sort());
  });

  it('takes every example of its own', () => {
    const all = [...fields(scenario)];
    expect(all.length).toBeGreaterThan(200);
    for (const [path, field] of all) {
      const [example] = field['examples'] as readonly string[];
      if (typeof field['pattern'] === 'string') expect([path, example, accepts(field, example!)]).toEqual([path, example, true]);
    }
  });

  it.each(['96 mohm', '0.096 ohm', '96 mΩ ± 15 %', '96mohm', '(96 ± 4) mohm', '96 ± 4 mohm', '9.6e1 mohm'])(
    'takes %s as a resistance',
    (text) => {
      expect(accepts(property(motor, 'resistance'), text)).toBe(true);
    },
  );

  it.each(['96', '96.5', '96 V', '96 g ± 3 %', 'mohm', '', '96 °C'])('marks %s as no resistance, with a hint', (text) => {
    const field = property(motor, 'resistance');
    expect(accepts(field, text)).toBe(false);
    expect(field).toMatchObject({
      type: 'string',
      errorMessage: 'Write a resistance in mohm or ohm, such as 65 mohm ± 15 %; or from-reading.',
    });
  });

  it('takes plain numbers where no unit is due', () => {
    expect(property(motor, 'poles')).toMatchObject({ type: ['integer', 'string'] });
    const ratio = property(scenario, 'gearbox', 'ratio');
    expect(ratio['type']).toEqual(['number', 'string']);
    expect(accepts(ratio, '5.2 ± 3 %')).toBe(true);
    expect(accepts(ratio, '5.2 mm')).toBe(false);
  });

  it('takes one row of no-load data with and without a list', () => {
    expect(property(motor, 'no_load')).toMatchObject({
      type: ['array', 'object'],
      items: { type: 'object' },
      properties: { current: {}, voltage: {} },
    });
  });

  it('takes part files in parts, and none in candidates only', () => {
    expect(property(motor, 'use')).toMatchObject({ type: 'string' });
    expect(at(property(scenario, 'limits'), 'properties')).not.toHaveProperty('use');
    const own = property(inCandidate, 'motor');
    expect(own).toMatchObject({ type: ['object', 'string'], pattern: '^none$' });
    expect(accepts(property(own, 'resistance'), 'none')).toBe(true);
    expect(accepts(property(motor, 'resistance'), 'none')).toBe(false);
    expect(property(own, 'layout')['enum']).toEqual(['inrunner', 'outrunner', 'none']);
  });

  it('offers the keys of all kinds of propeller', () => {
    const propeller = property(scenario, 'propeller');
    expect(property(propeller, 'kind')['enum']).toEqual(['coefficients', 'measured-points', 'blade-element', 'marine-series']);
    for (const key of ['table', 'points', 'pitch', 'area_ratio', 'diameter']) expect(at(propeller, 'properties')).toHaveProperty(key);
  });

  it('describes a step once, repeats within it', () => {
    expect(property(scenario, 'profile')['items']).toEqual({ $ref: '#/definitions/profileStep' });
    expect(property(at(scenario, 'definitions', 'profileStep'), 'steps')['items']).toEqual({ $ref: '#/definitions/profileStep' });
    expect(JSON.stringify(scenario)).not.toContain('__schema');
  });
});

describe('the JSON Schema of a part', () => {
  it('has the keys of what the part says it is', () => {
    const rules = partJsonSchema()['allOf'] as readonly { readonly if: JsonSchema; readonly then: JsonSchema }[];
    expect(rules.map((rule) => property(rule.if, 'part')['const'])).toEqual(PART_KINDS);
    expect(property(rules[PART_KINDS.indexOf('motor')]!.then, 'kv')).toEqual(property(motor, 'kv'));
  });
});
