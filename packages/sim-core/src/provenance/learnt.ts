/**
 * What readings left of the unknowns, put into the data: values move, intervals shrink, and what they tied together stays tied in every draw.
 *
 *   (1) z = mean + deviation·Σ w_i·ε_i,  Σ w_i² = 1:  the offset is mean·σ of the unknown, its spread deviation·σ, its mix the w_i
 *
 * @module
 */

import { recordOf } from '../problems/record-of.js';
import { deviationOf, ofDeviation, shifted } from '../quantities/index.js';
import { type Datum, isDatum, type Share, type Unknown, valuesOf } from './datum.js';
import { bounded } from './realise.js';
import { ruleOf } from './rules/rules.js';

/** (1) of one unknown, in its own prior standard deviations. */
export interface LearntUnknown {
  /** Where it lies now [prior standard deviations]. */
  readonly mean: number;
  /** What is left of its standard deviation [prior standard deviations]. */
  readonly deviation: number;
  readonly mix: readonly Share[];
  /** The readings that moved or narrowed it so far that it is told. */
  readonly by: readonly string[];
}

/** By key of the unknown. */
export type LearntUnknowns = ReadonlyMap<string, LearntUnknown>;

/** Anything made of data, with what was learnt; what nothing is learnt of stays the same object, and what was shared is shared. */
export function withLearnt<T>(data: T, learnt: LearntUnknowns): T {
  const done = new Map<object, unknown>();
  const kept = <X extends object>(x: X, make: () => X): X => {
    const known = done.get(x);
    if (known !== undefined) return known as X;
    const made = make();
    done.set(x, made);
    return made;
  };
  const walk = (x: unknown): unknown => {
    if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x)) return x;
    if (isDatum(x)) return kept(x, () => learntDatum(x, learnt, (input) => walk(input) as Datum));
    if (Array.isArray(x)) return x;
    return kept(x, () => {
      const entries = Object.entries(x);
      const inner = entries.map(([key, value]) => [key, walk(value)] as const);
      return inner.some(([, value], k) => value !== entries[k][1]) ? Object.fromEntries(inner) : x;
    });
  };
  return walk(data) as T;
}

const narrowed = (unknown: Unknown, learnt: LearntUnknowns): Unknown => {
  const found = unknown.spread.shape === 'none' ? undefined : learnt.get(unknown.key);
  if (found === undefined) return unknown;
  const { mean, deviation, mix } = found;
  const offset = (unknown.offset ?? 0) + mean * deviationOf(unknown.spread);
  return { key: unknown.key, spread: ofDeviation(unknown.spread, deviation * deviationOf(unknown.spread)), offset, mix };
};

function learntDatum(datum: Datum, learnt: LearntUnknowns, walked: (input: Datum) => Datum): Datum {
  const { origin } = datum;
  const unknown = narrowed(datum.unknown, learnt);
  const own = datum.own && narrowed(datum.own, learnt);
  const before = origin.kind === 'given' ? {} : origin.inputs;
  const inputs = recordOf(Object.keys(before), (name) => walked(before[name]));
  const sameInputs = Object.keys(before).every((name) => inputs[name] === before[name]);
  if (unknown === datum.unknown && own === datum.own && sameInputs) return datum;
  const hasLaw = origin.kind === 'derived' || origin.kind === 'estimated';
  let value = hasLaw ? ruleOf(origin.rule).law(valuesOf(inputs)) : datum.value;
  for (const [now, was] of [
    [unknown, datum.unknown],
    [own, datum.own],
  ] as const)
    if (now !== undefined) value = shifted(value, now.spread, (now.offset ?? 0) - (hasLaw ? 0 : (was?.offset ?? 0)));
  const by = [...new Set([datum.unknown, datum.own].flatMap((each) => (each === undefined ? [] : (learnt.get(each.key)?.by ?? []))))];
  return {
    ...datum,
    value: bounded(datum, value),
    unknown,
    ...(own === undefined ? {} : { own }),
    origin: origin.kind === 'given' ? origin : { ...origin, inputs },
    ...(by.length === 0 ? {} : { learnt: { before: datum, by } }),
  };
}
