/**
 * Records of results as JSON: each number in the unit of what its type says it measures, the unit in its key. A number that is forgotten does not
 * compile, nor does one that is given the unit of another measure.
 *
 * @module
 */

import type { MeasureOf } from '../quantities/index.js';
import { type JsonUnit, type MeasuredIn, shownIn } from './json-units.js';

/** A count, a share, a ratio: a number whose key has no unit. */
type Leaf = JsonUnit | 'plain';

/** Units of one measure; none of several at once. */
type UnitsOf<M> = [M] extends ['none'] ? 'plain' : { [U in JsonUnit]: [M] extends [MeasuredIn<U>] ? U : never }[JsonUnit];

type HoldsNumbers<T> = T extends number
  ? true
  : T extends readonly (infer Item)[]
    ? HoldsNumbers<Item>
    : T extends object
      ? { [K in keyof T]-?: HoldsNumbers<Exclude<T[K], undefined>> }[keyof T] extends infer Held
        ? true extends Held
          ? true
          : false
        : never
      : false;

/** Keys of all members of a union, and what stands under one. */
type KeysOf<T> = T extends unknown ? keyof T : never;
type Under<T, K extends PropertyKey> = T extends { readonly [Key in K]?: infer V } ? Exclude<V, undefined> : never;
/** Measures of the numbers that a record holds at once. */
type Measures<T> = { [K in KeysOf<T>]: Under<T, K> extends infer V ? (V extends number ? MeasureOf<V> : never) : never }[KeysOf<T>];

/** Of a record whose numbers all measure the same, written once. */
export interface Each<U extends Leaf> {
  readonly each: U;
}
/** All numbers of a record in one unit. */
export const each = <U extends Leaf>(unit: U): Each<U> => ({ each: unit });

/** A unit for every number of T, key by key; keys without numbers are left out. */
export type Units<T> = [T] extends [number]
  ? UnitsOf<MeasureOf<T>>
  : [T] extends [readonly (infer Item)[]]
    ? Units<Item>
    : Fields<T> | ([Measures<T>] extends [never] ? never : Each<UnitsOf<Measures<T>>>);
type Fields<T> = { readonly [K in KeysOf<T> as true extends HoldsNumbers<Under<T, K>> ? K : never]: Units<Under<T, K>> };

type Spec = Leaf | Each<Leaf> | { readonly [key: string]: Spec };

/** The record, a list of them or a list of lists, as plain JSON; keys keep their order. */
export const inUnits = <T extends object>(value: T, units: NoInfer<Units<T>>): object => converted(value, units as Spec) as object;

function converted(value: unknown, spec: Spec | undefined): unknown {
  if (Array.isArray(value)) return value.map((item) => converted(item, spec));
  if (typeof value !== 'object' || value === null || spec === undefined || typeof spec === 'string') return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => {
      const own = isEach(spec) ? (typeof inner === 'number' ? spec.each : undefined) : spec[key];
      if (typeof own !== 'string' || own === 'plain') return [key, converted(inner, own)];
      const { suffix, show } = shownIn(own);
      return [key + suffix, shownAll(inner, show)];
    }),
  );
}

const isEach = (spec: object): spec is Each<Leaf> => 'each' in spec && typeof spec.each === 'string';
const shownAll = (value: unknown, show: (value: number) => number): unknown =>
  Array.isArray(value) ? value.map((item) => shownAll(item, show)) : typeof value === 'number' ? show(value) : value;
