/** From validated documents to given data. @module */
import { entryOf } from '../problems/certain.js';
import type { Datum, Place } from '../provenance/datum.js';
import { writtenDatum } from '../provenance/written.js';
import type { Dimension } from '../quantities/index.js';
import type { Reading } from './schema/fields.js';
import { inPath } from './wording.js';
import type { LocatedNode } from './yaml/located-tree.js';

type Camel<Key extends string> = Key extends `${infer Head}_${infer Tail}` ? `${Head}${Capitalize<Camel<Tail>>}` : Key;

/** What validation found, as given data: readings become data with a place, keys lose their underscores, every map knows its place. */
export type Given<T> =
  T extends Reading<infer D>
    ? Datum<D>
    : T extends readonly (infer Item)[]
      ? readonly Given<Item>[]
      : T extends object
        ? { readonly [Key in keyof T as Camel<Key & string>]: Given<Exclude<T[Key], undefined>> } & { readonly place: Place }
        : T;

const camel = (key: string): string => key.replace(/_(.)/g, (_, letter: string) => letter.toUpperCase());

const isReading = (value: object): value is Reading<Dimension> => 'dimension' in value && 'value' in value;

/** Walks a validated value and the tree it came from side by side. */
export function given<T>(value: T, node: LocatedNode): Given<T> {
  return convert(value, node, '') as Given<T>;
}

/** `subject` is the path of keys, whichever file they stand in. */
function convert(value: unknown, node: LocatedNode, subject: string): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (isReading(value)) {
    const source = node.kind === 'text' ? node.source : undefined;
    return writtenDatum(subject, value.dimension, value.value, value.spread, node.place, source);
  }
  if (Array.isArray(value)) return node.kind === 'list' ? value.map((item, index) => convert(item, node.items[index], subject)) : value;
  if (node.kind !== 'map') return value;
  const fields = Object.entries(value).map(([key, inner]) => [
    camel(key),
    convert(inner, entryOf(node.entries, key).value, inPath(subject, key)),
  ]);
  return { ...Object.fromEntries(fields), place: node.place };
}
