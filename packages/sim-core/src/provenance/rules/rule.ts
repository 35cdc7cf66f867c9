/** A rule that fills a gap: its inputs, its law, how far it may be off and what narrows that, where it is from. @module */

import { ZERO_CELSIUS } from '../../quantities/constants.js';
import type { Dimension, Spread } from '../../quantities/index.js';
import type { Datum } from '../datum.js';
import type { WRITTEN } from '../written.js';
import type { DoubtGroup } from './doubt-groups.js';
import { SURE } from './spreads.js';

/** What a law is over: the dimension of each input by its name, with a question mark where it may be absent. */
export type Inputs = { readonly [Name in string]: Dimension | `${Dimension}?` };
type Needed<I extends Inputs> = { [K in keyof I]: I[K] extends Dimension ? K : never }[keyof I];
type DimensionIn<T> = T extends `${infer D extends Dimension}?` ? D : T extends Dimension ? T : never;

/** Their values [SI]. */
export type Values<I extends Inputs> = { readonly [K in Needed<I>]: number } & { readonly [K in Exclude<keyof I, Needed<I>>]?: number };
/** Data for them. */
export type DataFor<I extends Inputs> = { readonly [K in Needed<I>]: Datum<DimensionIn<I[K]>> } & {
  readonly [K in Exclude<keyof I, Needed<I>>]?: Datum<DimensionIn<I[K]>> | undefined;
};
/** A function of the inputs; as a method, so that every rule is a `Rule`. */
type Over<I extends Inputs, T> = { of(x: Values<I>): T }['of'];

/** How far a rule may be off, and what narrows it. */
export interface Doubt<I extends Inputs = Inputs> {
  /** Error common to all candidates that use the rule, where it does not follow from the inputs. */
  readonly common: Spread | Over<I, Spread>;
  /** The smaller part that is each candidate's own. */
  readonly own: Spread;
  readonly group: DoubtGroup;
  /** Where the measurement of what the rule finds is written; null where there is no key for it, and nothing is proposed. */
  readonly key: keyof typeof WRITTEN | null;
}

/** A rule of the catalogue; `D` is the dimension of what it finds. */
export interface Rule<D extends Dimension = Dimension, I extends Inputs = Inputs> extends Doubt<I> {
  /** What the rule finds, in words. */
  readonly words: string;
  readonly dimension: D;
  readonly inputs: I;
  /** Value from the inputs, all SI. */
  readonly law: Over<I, number>;
  /** Of a default: its value [SI]; absent where the value is made of what was given. */
  readonly value?: number;
  /** Of a default that follows from a class or grade that was given: nothing is assumed then. */
  readonly said?: true;
  /** Of what is made of what was given, or what there is none of: nothing is assumed then either. */
  readonly made?: 'value' | 'nothing';
  readonly source: string;
}

/** Of a default that goes by kind: its value for each [SI]. */
export interface ByKind<K extends string = string> {
  readonly values: { readonly [Kind in K]: number };
}
/** Of what is made of what was given: its value stands in the datum. */
export interface Made {
  readonly made: 'value';
}
/** Of what there is none of: value and dimension stand in the datum. */
export interface Without {
  readonly made: 'nothing';
}

/** Of a rule that needs nothing to begin with. */
export type NoInputs = { readonly [Name in never]: Dimension };
const NONE: NoInputs = {};
const EXACT: Doubt<NoInputs> = { common: SURE, own: SURE, group: 'other', key: null };
type MayBeOff<I extends Inputs> = Doubt<I> | typeof SURE;

/** What a measurement narrows: the group it is of, where its result is written, how far the rule is off for all and for each candidate. */
export const measurable = <I extends Inputs>(
  group: DoubtGroup,
  key: Doubt['key'],
  common: Doubt<I>['common'],
  own: Spread = SURE,
): Doubt<I> => ({ common, own, group, key });
/** What a model builder has no means to narrow. */
export const unmeasured = <I extends Inputs>(common: Doubt<I>['common'], own: Spread = SURE): Doubt<I> =>
  measurable('other', null, common, own);

/** A rule with a law over SI inputs. */
export const rule = <D extends Dimension, const I extends Inputs>(
  words: string,
  dimension: D,
  inputs: I,
  law: (x: Values<I>) => number,
  doubt: MayBeOff<NoInfer<I>>,
  source: string,
): Rule<D, I> => ({ words, dimension, inputs, law, ...('shape' in doubt ? EXACT : doubt), source });
/** A default, with its value [SI]. */
export const value = <D extends Dimension>(
  words: string,
  dimension: D,
  number: number,
  doubt: MayBeOff<NoInputs>,
  source: string,
): Rule<D, NoInputs> & { readonly value: number } => ({ ...rule(words, dimension, NONE, () => number, doubt, source), value: number });
/** A default by kind, with its values [SI]. */
export const byKind = <D extends Dimension, K extends string>(
  words: string,
  dimension: D,
  values: { readonly [Kind in K]: number },
  doubt: MayBeOff<NoInputs>,
  source: string,
): Rule<D, NoInputs> & ByKind<K> => ({ ...rule(words, dimension, NONE, () => Number.NaN, doubt, source), values });
/** That default by kind where its kind is always given. */
export const said = <R extends Rule & ByKind>(rule: R): R & { readonly said: true } => ({ ...rule, said: true });
/** What is neither given nor assumed but made of what was given, as a count or the scatter of points: its value stands in the datum. */
export const fixed = <D extends Dimension>(words: string, dimension: D, source: string): Rule<D, NoInputs> & Made => ({
  ...rule(words, dimension, NONE, () => Number.NaN, SURE, source),
  made: 'value',
});
/** What there is none of: how much that is, and of which dimension, stands in the datum. */
export const without = (words: string): Rule<Dimension, NoInputs> & Without => ({
  ...rule<Dimension, NoInputs>(words, 'ratio', NONE, () => Number.NaN, SURE, definition),
  made: 'nothing',
});
/** One `number` that stands in words and law alike. */
export const scaled = <D extends Dimension, const I extends Inputs>(
  number: number,
  words: (number: number) => string,
  dimension: D,
  inputs: I,
  law: (number: number, x: Values<I>) => number,
  doubt: MayBeOff<NoInfer<I>>,
  source: string,
): Rule<D, I> => rule(words(number), dimension, inputs, (x) => law(number, x), doubt, source);

/** Kelvin of a temperature in °C. */
export const celsius = (degrees: number): number => ZERO_CELSIUS + degrees;
/** Source of what is so by what the words mean. */
export const definition = 'definition';
export const PROPELLER_ERRORS = 'errors against the UIUC Propeller Database, docs/theory.md';
