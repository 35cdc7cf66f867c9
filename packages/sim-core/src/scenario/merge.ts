/** What a candidate overrides, laid over what the scenario says for all. @module */

import { childOf, type LocatedEntry, type LocatedMap, type LocatedNode, textOf, withEntries } from './yaml/located-tree.js';

/** Removes what the common part of the scenario says. */
export const NONE = 'none';

/** A map after its `use:` was brought in: which file, and what the user of the file wrote beside it. */
export interface UsingMap extends LocatedMap {
  readonly used?: { readonly file: string; readonly beside: LocatedMap };
}

const isNone = (node: LocatedNode): boolean => textOf(node) === NONE;

/**
 * A candidate's part over the common one: maps merge key by key, lists and texts are replaced, another `kind` or `use` replaces the whole,
 * `none` removes. Neither is changed.
 */
export function mergeMaps(below: UsingMap, above: UsingMap): UsingMap {
  if (above.used && below.used?.file !== above.used.file) return withoutNone(above);
  if (above.used && below.used) return { ...mergeMaps(below, above.used.beside), used: below.used };
  const [kindBelow, kindAbove] = [textOf(childOf(below, 'kind')), textOf(childOf(above, 'kind'))];
  if (kindAbove !== undefined && kindBelow !== undefined && kindAbove !== kindBelow) return withoutNone(above);

  const merged = new Map<string, LocatedEntry>(below.entries);
  for (const [key, entry] of above.entries) {
    const under = merged.get(key)?.value;
    if (isNone(entry.value)) merged.delete(key);
    else if (under?.kind === 'map' && entry.value.kind === 'map') merged.set(key, { ...entry, value: mergeMaps(under, entry.value) });
    else merged.set(key, entry.value.kind === 'map' ? { ...entry, value: withoutNone(entry.value) } : entry);
  }
  return { ...withEntries(above, merged), ...(below.used ? { used: below.used } : {}) };
}

/** What removes nothing because there is nothing below. */
export function withoutNone(map: UsingMap): UsingMap {
  const kept = [...map.entries]
    .filter(([, { value }]) => !isNone(value))
    .map(([key, entry]) => [key, entry.value.kind === 'map' ? { ...entry, value: withoutNone(entry.value) } : entry] as const);
  return { ...withEntries(map, kept), ...(map.used ? { used: map.used } : {}) };
}
