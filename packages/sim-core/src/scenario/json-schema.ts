/** The schemas as JSON Schema, for editors. @module */

import { z } from 'zod';
import { type Dimension, expectation, readQuantity, UNITS } from '../quantities/index.js';
import { NEVER_NONE } from './never-none.js';
import { candidateName, drive, head, PART_KINDS } from './schema/drive.js';
import { FIELD_FACTS, type FieldFacts } from './schema/fields.js';
import { logProfile } from './schema/log.js';
import { noLoadRow } from './schema/motor.js';
import { profileEntry } from './schema/profile.js';
import { PROPELLERS } from './schema/propeller.js';
import { readingRow } from './schema/readings.js';

/** A JSON Schema document, draft 7. */
export type JsonSchema = { readonly [key: string]: unknown };
type Properties = Readonly<Record<string, JsonSchema>>;

/** Editors word "exactly one of" badly, so the kinds of propeller become one object; `check` knows which keys go with which kind. */
const anyPropeller = z
  .strictObject({
    ...Object.assign({}, ...PROPELLERS.map(({ shape }) => shape)),
    kind: z.enum(PROPELLERS.map(({ shape }) => shape.kind.value)).meta({ description: 'how the propeller is known' }),
  })
  .partial()
  .meta({ description: 'the propeller or screw' });

const STEP = 'profileStep';
const READING = 'reading';

function schemaOf(schema: z.ZodType): JsonSchema {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, {
    io: 'input',
    target: 'draft-7',
    override: ({ zodSchema, jsonSchema }) => {
      const facts = FIELD_FACTS.get(zodSchema);
      if (facts) Object.assign(jsonSchema, { examples: [facts.example], ...written(facts) });
    },
  }) as Record<string, unknown>;
  return rest;
}

/** How the text of a field looks to an editor, which reads YAML's own numbers where we read text. */
function written({ form, dimension, example, word }: FieldFacts): JsonSchema {
  switch (form) {
    case 'text':
      return { type: ['string', 'number', 'boolean'] };
    case 'flag':
      return { type: ['boolean', 'string'], enum: [true, false, 'yes', 'no'] };
    case 'count':
      return { type: ['integer', 'string'], pattern: '^\\s*\\d+\\s*$', errorMessage: `Write a whole number, such as ${example}.` };
    case 'quantity':
    case 'range': {
      const plain = dimension === 'ratio' || dimension === 'fraction';
      if (dimension === undefined) throw new Error(`a ${form} field without a dimension, such as ${example}`);
      const message = `Write ${expectation(dimension)}, such as ${example}${word === undefined ? '' : `; or ${word}`}.`;
      return {
        type: plain ? ['number', 'string'] : 'string',
        pattern: word === undefined ? patternOf(dimension, plain) : `^${word}$|${patternOf(dimension, plain)}`,
        errorMessage: message,
      };
    }
  }
}

const NUMBER = '[+\\-\u2212]?\\s*(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?';
/** Units of one symbol, and the quotients people write most, of those that are not inches and pounds; the rest would make the schema long. */
const PLAIN_UNIT = /^(?!ft|AWG|kn|mph|lb|oz|[a-z]*f$|[a-z]*Pa|bar)[a-zA-Z°%µ]+$|^(m\/s|km\/h|rpm\/V|W\/K|K\/W)$/;
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

const others = (dimension: Dimension): readonly string[] => {
  const listed = new Set(
    Object.values(UNITS)
      .flat()
      .filter((unit) => PLAIN_UNIT.test(unit)),
  );
  return [...listed, 'Ah', 'mAh', 'Wh', 'Nm'].filter((unit) => !readQuantity(`1 ${unit}`, dimension).ok);
};

/**
 * A number first; then a unit that is not a common one of another dimension. What else is no unit only `check` knows: an editor must not refuse
 * what we read.
 */
function patternOf(dimension: Dimension, plain: boolean): string {
  const end = '\\s*(\u00b1|\\+/?-|to\\s|$)';
  const unit = `\\s*(?!(${others(dimension).map(escaped).join('|')})${end})[^\\d\\s.]`;
  return `^\\s*\\(?${NUMBER}(${unit}.*${plain ? '|\\s*' : ''})$`;
}

const propertiesOf = (schema: JsonSchema): Properties => (schema['properties'] ?? {}) as Properties;

function mapped(schema: JsonSchema, change: (property: JsonSchema, key: string) => JsonSchema): JsonSchema {
  const properties = Object.fromEntries(Object.entries(propertiesOf(schema)).map(([key, property]) => [key, change(property, key)]));
  return { ...schema, properties };
}

const USE: JsonSchema = { type: 'string', description: 'a part file, its path counted from this file', examples: ['parts/motor.yaml'] };

/** One row of no-load data may stand without a list: type-specific keywords side by side say so without an "any of". */
function withOneRow(motor: JsonSchema): JsonSchema {
  const { description: _, ...row } = schemaOf(noLoadRow);
  return mapped(motor, (property, key) => (key === 'no_load' ? { ...property, ...row, type: ['array', 'object'] } : property));
}

/** In a candidate `none` removes what the scenario says for all. */
function orNone(schema: JsonSchema): JsonSchema {
  const type: readonly unknown[] = [schema['type'] ?? []].flat();
  const inner = schema['properties'] ? mapped(schema, orNone) : schema;
  if (Array.isArray(schema['enum'])) return { ...inner, enum: [...new Set([...schema['enum'], 'none'])] };
  if (typeof schema['pattern'] === 'string') return { ...inner, pattern: `^none$|${schema['pattern']}` };
  return type.includes('string') ? inner : { ...inner, type: [...type, 'string'], pattern: '^none$' };
}

/** A section as a candidate may write it over the common one. */
function overriding(key: string, section: JsonSchema): JsonSchema {
  const never = NEVER_NONE[key];
  if (never === undefined) return orNone(section);
  return mapped(section, (property, inner) => (never.keys !== undefined && inner in never.keys ? property : orNone(property)));
}

function sections(): Properties {
  const all = schemaOf(drive.extend({ propeller: anyPropeller.optional() }));
  const entries = Object.entries(propertiesOf(all)).map(([key, section]) => {
    if (key === 'readings') return [key, { ...section, items: { $ref: `#/definitions/${READING}` } }];
    const whole = key === 'motor' ? withOneRow(section) : section;
    return [key, (PART_KINDS as readonly string[]).includes(key) ? { ...whole, properties: { use: USE, ...propertiesOf(whole) } } : whole];
  });
  return Object.fromEntries(entries);
}

const DRAFT = 'http://json-schema.org/draft-07/schema#';
/** Rows and names that a candidate cannot leave out. */
const strict = (properties: JsonSchema | Properties, required: readonly string[], more: JsonSchema = {}): JsonSchema => ({
  type: 'object',
  properties,
  required,
  additionalProperties: false,
  ...more,
});

/** The JSON Schema of a scenario, each field where it may stand; `sharedSchema` makes it short for editors. */
export function scenarioJsonSchema(): JsonSchema {
  const common = sections();
  const step = stepSchema();
  const { profile: _, ...top } = propertiesOf(schemaOf(head.omit({ profile: true }))) as Record<string, JsonSchema>;
  const overrides = Object.fromEntries(Object.entries(common).map(([key, section]) => [key, overriding(key, section)]));
  const candidate = strict({ ...propertiesOf(schemaOf(candidateName)), ...overrides }, ['name'], {
    description: 'one candidate: a name, its motor, and whatever else differs from the rest of the file',
  });
  const log = schemaOf(logProfile);
  // a list of steps, or a map that names a log: type-specific keywords side by side say so without an "any of"
  const profile = {
    type: ['array', 'object'],
    minItems: 1,
    items: { $ref: `#/definitions/${STEP}` },
    properties: propertiesOf(log),
    required: ['log'],
    additionalProperties: false,
    description: 'what is driven, step by step; or a log file',
  };
  const candidates = { type: 'array', minItems: 1, items: candidate, description: 'what is compared' };
  return {
    $schema: DRAFT,
    title: 'shaftwork scenario',
    ...strict({ ...top, ...common, profile, candidates }, ['title', 'profile', 'candidates']),
    definitions: { [STEP]: step, [READING]: schemaOf(readingRow) },
  };
}

/** The JSON Schema of a part file: what `part:` says decides what else may stand there. */
export function partJsonSchema(): JsonSchema {
  const all = sections();
  const part: JsonSchema = { type: 'string', enum: PART_KINDS, description: 'what this file describes' };
  const rules = PART_KINDS.map((kind) => ({
    if: { properties: { part: { const: kind } }, required: ['part'] },
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
    then: { ...all[kind], properties: { part, ...propertiesOf(all[kind]) } },
  }));
  return { $schema: DRAFT, title: 'shaftwork part', type: 'object', properties: { part }, required: ['part'], allOf: rules };
}

/** The step once, its `steps` pointing back to it. */
function stepSchema(): JsonSchema {
  const { definitions: _, ...schema } = schemaOf(profileEntry);
  return mapped(schema, (property, key) => (key === 'steps' ? { ...property, items: { $ref: `#/definitions/${STEP}` } } : property));
}
