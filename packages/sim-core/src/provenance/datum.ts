/** A number that knows where it comes from and how sure it is. @module */

import { recordOf } from '../problems/record-of.js';
import type { Dimension, Spread } from '../quantities/index.js';
import type { RuleId } from './rules/rules.js';
import type { UnknownEntry } from './unknowns.js';

/** Where a person wrote something: file, line and column (both from 1), and the path of keys. */
export interface Place {
  readonly file: string;
  /** From 1 [1]. */
  readonly line: number;
  /** From 1 [1]. */
  readonly column: number;
  readonly path: string;
}

/** What a rule was used on, by the names of its inputs, in the rule's order. */
export type RuleInputs = { readonly [Name in string]: Datum };

/**
 * How a value was got. What was given stands where it was written; the rest is a named rule over other data. `subject` is its path of keys
 * without candidate and list numbers ("motor.resistance"); `usual` says where its interval is from if none was written.
 */
export type Origin =
  | { readonly kind: 'given'; readonly place: Place; readonly subject: string; readonly usual?: string }
  | { readonly kind: 'derived' | 'estimated' | 'default'; readonly rule: RuleId; readonly inputs: RuleInputs };

/** An unknown that a draw decides: same key, same draw. */
export interface Unknown {
  readonly key: string;
  /** What is left of it, where readings narrowed it. */
  readonly spread: Spread;
  /** How far measurements moved it in its own scale: a logarithm, or an amount [SI]. A datum without a law holds it in its value already. */
  readonly offset?: number;
  /** Its deviate, where readings tied it to others: a sum of independent ones, the squares of their weights summing to 1. */
  readonly mix?: readonly Share[];
}

/** A part of a deviate. */
export interface Share {
  readonly of: UnknownEntry;
  /** w of the mix [1]. */
  readonly weight: number;
}

/** What measurements made of a datum: the datum as it was, and which they were, in words. */
export interface Learnt {
  readonly before: Datum;
  readonly by: readonly string[];
}

/**
 * One number of the system: its SI value, how far it may be off, and how it was got.
 * `unknown` is shared by all data written on the same line or estimated by the same rule; `own` is the smaller part of a rule's
 * error that belongs to this candidate alone.
 */
export interface Datum<D extends Dimension = Dimension> {
  readonly dimension: D;
  /** Nominal value [SI]. */
  readonly value: number;
  readonly unknown: Unknown;
  readonly own?: Unknown;
  readonly origin: Origin;
  /** Outside these the laws do not hold [SI]: where a tolerance reaches past one, a draw stops there. */
  readonly within?: { readonly from: number; readonly to: number };
  /** What the person said about where the number is from. */
  readonly source?: string;
  /** Where measurements beside it moved or narrowed it. */
  readonly learnt?: Learnt;
}

/** The family of data: what the numbers of a completed system are. */
export type Data = { readonly [D in Dimension]: Datum<D> };

/** Their values, by the same names [SI]. */
export const valuesOf = <Name extends string>(inputs: { readonly [K in Name]: Datum }): { readonly [K in Name]: number } =>
  recordOf(Object.keys(inputs) as Name[], (name) => inputs[name].value);

export const isDatum = (x: unknown): x is Datum => typeof x === 'object' && x !== null && 'origin' in x && 'unknown' in x;

/** A datum a person wrote; lines are the identity of the unknown, so candidates that share a line share its error. */
export function givenDatum<D extends Dimension>(
  subject: string,
  dimension: D,
  value: number,
  spread: Spread,
  place: Place,
  source?: string,
): Datum<D> & { readonly origin: { readonly kind: 'given' } } {
  const key = `${place.file}:${place.line}:${place.column}`;
  const origin = { kind: 'given', place, subject } as const;
  return { dimension, value, unknown: { key, spread }, origin, ...(source === undefined ? {} : { source }) };
}
