/** A rule that fills a gap: its law, how far it may be off and what narrows that, where it is from. @module */

import { ZERO_CELSIUS } from '../../quantities/constants.js';
import type { Dimension, Spread } from '../../quantities/index.js';
import type { WRITTEN } from '../written.js';
import type { DoubtGroup } from './doubt-groups.js';
import { SURE } from './spreads.js';

/** How far a rule may be off, and what narrows it. */
export interface Doubt {
  /** Error common to all candidates that use the rule, where it does not follow from the inputs. */
  readonly common: Spread | ((x: readonly number[]) => Spread);
  /** The smaller part that is each candidate's own. */
  readonly own: Spread;
  readonly group: DoubtGroup;
  /** Where the measurement of what the rule finds is written; null where there is no key for it, and nothing is proposed. */
  readonly key: keyof typeof WRITTEN | null;
}

export interface Rule extends Doubt {
  /** What the rule finds, in words. */
  readonly words: string;
  readonly dimension: Dimension;
  /** Value from the inputs, both SI. */
  readonly law: (x: readonly number[]) => number;
  /** Of a default: its value [SI]; absent where the value is made of what was given. */
  readonly value?: number;
  readonly source: string;
}

/** Of a default that goes by kind: its value for each [SI]. */
export interface ByKind<K extends string = string> {
  readonly values: { readonly [Kind in K]: number };
}

const EXACT: Doubt = { common: SURE, own: SURE, group: 'other', key: null };
type MayBeOff = Doubt | typeof SURE;
const doubtOf = (doubt: MayBeOff): Doubt => ('shape' in doubt ? EXACT : doubt);

/** What a measurement narrows: the group it is of, where its result is written, how far the rule is off for all and for each candidate. */
export const measurable = (group: DoubtGroup, key: Doubt['key'], common: Doubt['common'], own: Spread = SURE): Doubt => ({
  common,
  own,
  group,
  key,
});
/** What a model builder has no means to narrow. */
export const unmeasured = (common: Doubt['common'], own: Spread = SURE): Doubt => measurable('other', null, common, own);

/** A rule with a law over SI inputs. */
export const rule = (words: string, dimension: Dimension, law: Rule['law'], doubt: MayBeOff, source: string): Rule => ({
  words,
  dimension,
  law,
  ...doubtOf(doubt),
  source,
});
/** A default, with its value [SI]. */
export const value = (
  words: string,
  dimension: Dimension,
  number: number,
  doubt: MayBeOff,
  source: string,
): Rule & { readonly value: number } => ({
  ...rule(words, dimension, () => number, doubt, source),
  value: number,
});
/** A default by kind, with its values [SI]. */
export const byKind = <K extends string>(
  words: string,
  dimension: Dimension,
  values: { readonly [Kind in K]: number },
  doubt: MayBeOff,
  source: string,
): Rule & ByKind<K> => ({ ...rule(words, dimension, () => Number.NaN, doubt, source), values });
/** What is neither given nor assumed but made of what was given, as a count or the scatter of points: its value stands in the datum. */
export const fixed = (words: string, dimension: Dimension, doubt: MayBeOff, source: string): Rule =>
  rule(words, dimension, () => Number.NaN, doubt, source);
/** One `number` that stands in words and law alike. */
export const scaled = (
  number: number,
  words: (number: number) => string,
  dimension: Dimension,
  law: (number: number, x: readonly number[]) => number,
  doubt: MayBeOff,
  source: string,
): Rule => rule(words(number), dimension, (x) => law(number, x), doubt, source);

/** Kelvin of a temperature in °C. */
export const celsius = (degrees: number): number => ZERO_CELSIUS + degrees;
/** Source of what is so by what the words mean. */
export const definition = 'definition';
export const PROPELLER_ERRORS = 'errors against the UIUC Propeller Database, docs/theory.md';
