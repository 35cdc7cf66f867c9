/** A rule that fills a gap: its law, how far it may be off, where it is from. @module */

import { ZERO_CELSIUS } from '../../quantities/constants.js';
import type { Dimension, Spread } from '../../quantities/index.js';
import { SURE } from './spreads.js';

export interface Rule {
  /** What the rule finds, in words. */
  readonly words: string;
  readonly dimension: Dimension;
  /** Value from the inputs, both SI. A default has no inputs; its value stands in the datum. */
  readonly law: (x: readonly number[]) => number;
  /** Of a default: its value [SI]; absent where the value is made of what was given. */
  readonly value?: number;
  /** Error common to all candidates that use the rule, where it does not follow from the inputs, and the smaller part that is each candidate's own. */
  readonly common: Spread | ((x: readonly number[]) => Spread);
  readonly own: Spread;
  readonly source: string;
}

/** A rule with a law over SI inputs. */
export const rule = (
  words: string,
  dimension: Dimension,
  law: Rule['law'],
  common: Rule['common'],
  source: string,
  own: Spread = SURE,
): Rule => ({
  words,
  dimension,
  law,
  common,
  own,
  source,
});
/** A default, with its value [SI]. */
export const value = (words: string, dimension: Dimension, number: number, common: Spread, source: string, own: Spread = SURE): Rule => ({
  ...rule(words, dimension, () => number, common, source, own),
  value: number,
});
/** What is neither given nor assumed but made of what was given, as a count or the scatter of points: its value stands in the datum. */
export const fixed = (words: string, dimension: Dimension, common: Spread, source: string, own: Spread = SURE): Rule =>
  rule(words, dimension, () => Number.NaN, common, source, own);
/** One `number` that stands in words and law alike. */
export const scaled = (
  number: number,
  words: (number: number) => string,
  dimension: Dimension,
  law: (number: number, x: readonly number[]) => number,
  common: Rule['common'],
  source: string,
  own: Spread = SURE,
): Rule => rule(words(number), dimension, (x) => law(number, x), common, source, own);

/** Kelvin of a temperature in °C. */
export const celsius = (degrees: number): number => ZERO_CELSIUS + degrees;
/** Source of what is so by what the words mean. */
export const definition = 'definition';
export const PROPELLER_ERRORS = 'errors against the UIUC Propeller Database, docs/theory.md';
