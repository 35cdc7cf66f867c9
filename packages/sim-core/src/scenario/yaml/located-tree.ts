/** The located tree: what a scenario is before any schema. @module */

import type { Place } from '../../provenance/datum.js';

/** A document as people wrote it: every scalar is text, and every node knows its line and column. */
export type LocatedNode = LocatedText | LocatedList | LocatedMap;

export interface LocatedText {
  readonly kind: 'text';
  readonly place: Place;
  readonly text: string;
  /** The `source:` of the section the text was written in. */
  readonly source?: string;
}

export interface LocatedList {
  readonly kind: 'list';
  readonly place: Place;
  readonly items: readonly LocatedNode[];
}

/** A Map and no object, so that a key such as `__proto__` is a key like any other. */
export interface LocatedMap {
  readonly kind: 'map';
  /** Where its key stands, or its first line where it has none. */
  readonly place: Place;
  readonly entries: ReadonlyMap<string, LocatedEntry>;
}

export interface LocatedEntry {
  readonly keyPlace: Place;
  readonly value: LocatedNode;
}

export const childOf = (node: LocatedNode | undefined, key: string): LocatedNode | undefined =>
  node?.kind === 'map' ? node.entries.get(key)?.value : undefined;

export const textOf = (node: LocatedNode | undefined): string | undefined => (node?.kind === 'text' ? node.text : undefined);

export function withEntries(map: LocatedMap, entries: Iterable<readonly [string, LocatedEntry]>): LocatedMap {
  return { ...map, entries: new Map(entries) };
}

export function without(map: LocatedMap, ...keys: readonly string[]): LocatedMap {
  return withEntries(
    map,
    [...map.entries].filter(([key]) => !keys.includes(key)),
  );
}

/** The tree as plain data for a schema; objects have no prototype. */
export function toPlain(node: LocatedNode): unknown {
  if (node.kind === 'text') return node.text;
  if (node.kind === 'list') return node.items.map(toPlain);
  const plain = Object.create(null) as Record<string, unknown>;
  for (const [key, { value }] of node.entries) plain[key] = toPlain(value);
  return plain;
}

/** Gives every text the `source:` of the innermost section that says one. */
export function withSources(node: LocatedNode, inherited?: string): LocatedNode {
  if (node.kind === 'list') return { ...node, items: node.items.map((item) => withSources(item, inherited)) };
  if (node.kind === 'text') return inherited === undefined ? node : { ...node, source: inherited };
  const source = textOf(childOf(node, 'source')) ?? inherited;
  return withEntries(
    node,
    [...node.entries].map(([key, entry]) => [key, { ...entry, value: withSources(entry.value, source) }]),
  );
}
