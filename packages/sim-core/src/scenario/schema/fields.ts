/** The kinds of fields that a schema is made of. @module */

import { z } from 'zod';
import type { ProblemKind } from '../../problems/index.js';
import {
  type Dimension,
  type ReadFailure,
  type ReadFailureKind,
  readNumber,
  readQuantity,
  readRange,
  type Spread,
} from '../../quantities/index.js';
import { CONTROL_CHARACTER, LONGEST_LINE } from '../../quantities/line-of-words.js';
import { alternatives, quoted } from '../wording.js';
import { type Bounds, boundsInWords, expectedWithin, within } from './bounds.js';

// schemas are walked, not compiled: no code is ever made out of text
z.config({ jitless: true });

/** A quantity as read from its text: what a Datum needs beside its place. */
export interface Reading<D extends Dimension = Dimension> {
  readonly dimension: D;
  /** SI. */
  readonly value: number;
  /** Where a ± was written. */
  readonly spread?: Spread;
}

/** Both ends of what a step holds [SI]. */
export interface RangeReading {
  readonly from: number;
  readonly to: number;
}

/** What a field objects to; the place is added by whoever knows the tree. */
export interface Refusal {
  readonly kind: ProblemKind;
  readonly expected: string;
  readonly found: string;
  readonly nearest?: string | undefined;
  readonly hint?: string | undefined;
}

/** Which form a field's text has, for JSON Schema and for messages. */
export interface FieldFacts {
  readonly form: 'quantity' | 'range' | 'count' | 'text' | 'flag';
  readonly dimension?: Dimension;
  readonly example: string;
  /** What may stand in place of the quantity. */
  readonly word?: string;
  /** What the value may be [SI]. */
  readonly bounds?: Bounds;
}

export const FIELD_FACTS = z.registry<FieldFacts>();

const KINDS: { readonly [K in ReadFailureKind]: ProblemKind } = {
  empty: 'missing-datum',
  'not-a-number': 'bad-number',
  'decimal-comma': 'bad-number',
  'thousands-separator': 'bad-number',
  'bare-number': 'bare-number',
  'unit-not-due': 'wrong-unit',
  'wrong-unit': 'wrong-unit',
  'wrong-dimension': 'wrong-dimension',
  ambiguous: 'wrong-unit',
  'two-quantities': 'bad-number',
  'bad-tolerance': 'bad-tolerance',
  'out-of-range': 'out-of-range',
  'not-whole': 'bad-number',
};

const asRefusal = ({ kind, expected, found, nearest, hint }: ReadFailure): Refusal => ({
  kind: KINDS[kind],
  expected,
  found,
  nearest,
  hint,
});

const MEGA = /\d\s*M[a-zA-Z\u03a9\u2126]/;

const beyond = (text: string, expected: string): Refusal => ({
  kind: 'out-of-range',
  expected,
  found: quoted(text),
  hint: MEGA.test(text) ? 'M is mega, a million; m is milli, a thousandth' : undefined,
});

type Context = Parameters<Parameters<z.ZodString['transform']>[0]>[1];

/** Puts a refusal into zod's list of issues; `refusalIn` takes it out again. */
function refuse(context: Context, input: string, refusal: Refusal): typeof z.NEVER {
  context.issues.push({ code: 'custom', input, params: { refusal } });
  return z.NEVER;
}

function field<Output>(facts: FieldFacts, description: string, read: (text: string) => Output | { readonly refusal: Refusal }) {
  const schema = z
    .string()
    .transform((text, context): Output => {
      const result = read(text);
      if (typeof result === 'object' && result !== null && 'refusal' in result) return refuse(context, text, result.refusal);
      return result;
    })
    .meta({ description });
  FIELD_FACTS.add(schema, facts);
  return schema;
}

function readingOf<D extends Dimension>(text: string, dimension: D, bounds: Bounds): Reading<D> | { readonly refusal: Refusal } {
  const read = readQuantity(text, dimension);
  if (!read.ok) return { refusal: asRefusal(read) };
  if (!within(read.value, bounds)) {
    return { refusal: beyond(text, expectedWithin(bounds, dimension, read.shownUnit)) };
  }
  return { dimension, value: read.value, ...(read.tolerance && { spread: read.tolerance }) };
}

/** A number with its unit and, after ±, its 95 % interval. Bounds are for the number itself. */
export function quantity<D extends Dimension>(dimension: D, description: string, example: string, bounds: Bounds = {}) {
  return field({ form: 'quantity', dimension, example, bounds }, description, (text) => readingOf(text, dimension, bounds));
}

/** A quantity, or a `word` that says where to take it from. */
export function quantityOr<const Word extends string, D extends Dimension>(
  word: Word,
  dimension: D,
  description: string,
  example: string,
  bounds: Bounds = {},
) {
  return field(
    { form: 'quantity', dimension, example, word, bounds },
    description,
    (text): Word | Reading<D> | { readonly refusal: Refusal } => (text.trim() === word ? word : readingOf(text, dimension, bounds)),
  );
}

/** One number of a table's row: a quantity that takes no tolerance of its own, as SI number. */
export function entry(dimension: Dimension, description: string, example: string, bounds: Bounds = {}) {
  return field({ form: 'quantity', dimension, example, bounds }, description, (text): number | { readonly refusal: Refusal } => {
    const read = readQuantity(text, dimension);
    if (!read.ok) return { refusal: asRefusal(read) };
    if (read.tolerance) {
      return {
        refusal: {
          kind: 'bad-tolerance',
          expected: 'a number without a tolerance in a table',
          found: quoted(text),
          hint: 'the table has one tolerance as a whole',
        },
      };
    }
    if (!within(read.value, bounds)) {
      return { refusal: beyond(text, expectedWithin(bounds, dimension, read.shownUnit)) };
    }
    return read.value;
  });
}

/** What a step holds: a quantity, or `<from> to <to>`. */
export function range(dimension: Dimension, description: string, example: string, bounds: Bounds = {}) {
  return field({ form: 'range', dimension, example, bounds }, description, (text): RangeReading | { readonly refusal: Refusal } => {
    const read = readRange(text, dimension);
    if (!read.ok) return { refusal: asRefusal(read) };
    if (!within(read.from, bounds) || !within(read.to, bounds)) {
      return { refusal: beyond(text, expectedWithin(bounds, dimension, read.shownUnit)) };
    }
    return { from: read.from, to: read.to };
  });
}

export function count(description: string, example: string, bounds: Bounds) {
  return field({ form: 'count', example, bounds }, description, (text): number | { readonly refusal: Refusal } => {
    const read = readNumber(text, { whole: true });
    if (!read.ok) return { refusal: asRefusal(read) };
    const expected = `a whole number, ${boundsInWords(bounds, String)}`;
    return within(read.value, bounds) ? read.value : { refusal: { kind: 'out-of-range', expected, found: quoted(text) } };
  });
}

/** A text of a line, `most` characters at most. */
export function words(description: string, example: string, most = LONGEST_LINE) {
  return field({ form: 'text', example }, description, (text): string | { readonly refusal: Refusal } => {
    const plain = text.trim().replace(/\s+/g, ' ');
    if (plain === '') return { refusal: { kind: 'missing-datum', expected: `${description}, such as ${example}`, found: 'nothing' } };
    if (plain.length > most) {
      const found = `${plain.length} characters, ${quoted(plain)}`;
      return { refusal: { kind: 'too-large', expected: `at most ${most} characters`, found, hint: 'what is long belongs in notes:' } };
    }
    if (!CONTROL_CHARACTER.test(plain)) return plain;
    const hint = 'it came with an escape such as \\x1b: take it out';
    return { refusal: { kind: 'unreadable-text', expected: 'text without control characters', found: quoted(text), hint } };
  });
}

const FLAGS: ReadonlyMap<string, boolean> = new Map([
  ['yes', true],
  ['true', true],
  ['no', false],
  ['false', false],
]);

export function flag(description: string) {
  return field({ form: 'flag', example: 'yes' }, description, (text): boolean | { readonly refusal: Refusal } => {
    const value = FLAGS.get(text.toLowerCase());
    return value ?? { refusal: { kind: 'unknown-choice', expected: alternatives(['yes', 'no']), found: quoted(text) } };
  });
}

export function choice<const Values extends readonly [string, ...string[]]>(values: Values, description: string) {
  return z.enum(values).meta({ description, examples: [values[0]] });
}

/** A map of optional fields with a place and a source of its own; unknown keys are refused. */
export function section<Shape extends z.ZodRawShape>(shape: Shape, description: string) {
  return z
    .strictObject({ ...shape, source: words('where the numbers of this section are from', 'data sheet') })
    .partial()
    .meta({ description });
}

/** A map of optional fields inside a section. */
export function group<Shape extends z.ZodRawShape>(shape: Shape, description: string) {
  return z.strictObject(shape).partial().meta({ description });
}

/** A list of rows, at least `least`, whose `key` increases. */
export function rising<Row extends z.ZodObject>(row: Row, key: keyof z.output<Row> & string, least: number, description: string) {
  return z
    .array(row)
    .superRefine((rows, context) => {
      if (rows.length < least) {
        const refusal: Refusal = {
          kind: 'missing-datum',
          expected: `at least ${least} rows`,
          found: rows.length === 1 ? 'one row' : `${rows.length} rows`,
        };
        context.addIssue({ code: 'custom', params: { refusal } });
      }
      for (let index = 1; index < rows.length; index += 1) {
        const [before, here] = [rows[index - 1][key] as number, rows[index][key] as number];
        if (!(here <= before)) continue;
        const refusal: Refusal = {
          kind: 'out-of-range',
          expected: `rows in rising order of ${key}`,
          found: `one that is ${here === before ? 'the same as in' : 'below'} the row before`,
          hint: 'sort the rows',
        };
        context.addIssue({ code: 'custom', path: [index, key], params: { refusal } });
      }
    })
    .meta({ description });
}

export function refusalIn(issue: z.core.$ZodIssue): Refusal | undefined {
  return issue.code === 'custom' ? (issue.params?.['refusal'] as Refusal | undefined) : undefined;
}
