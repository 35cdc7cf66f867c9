/** Where a key of the schema stands in a drive, and the drive with another value there or without it. @module */
import type { Drive, Plain } from './key-drives.js';

/** Where a key stands in a drive: lists at every index, no-load data without a list too. */
export function placesOf(at: Plain, path: readonly string[], so: readonly string[] = []): readonly (readonly string[])[] {
  const [key, ...rest] = path;
  if (key === undefined) return [so];
  if (Array.isArray(at)) return at.flatMap((item, k) => placesOf(item, path, [...so, String(k)]));
  if (typeof at !== 'object' || at === null || !(key in at)) return [];
  return placesOf((at as Drive)[key], rest, [...so, key]);
}

export const at = (drive: Plain, place: readonly string[]): Plain =>
  place.reduce<Plain>((here, key) => (here as { readonly [key: string]: Plain })[key], drive);

export function withValue(drive: Plain, [key, ...rest]: readonly string[], value: Plain): Plain {
  if (key === undefined) return value;
  if (Array.isArray(drive)) return drive.map((item, k) => (String(k) === key ? withValue(item, rest, value) : item));
  const record = drive as Drive;
  return { ...record, [key]: withValue(record[key], rest, value) };
}

/** The drive without what stands at a place; an item of a list stays. */
export function without(drive: Plain, [key, ...rest]: readonly string[]): Plain {
  if (key === undefined) return drive;
  if (Array.isArray(drive)) return drive.map((item, k) => (String(k) === key ? without(item, rest) : item));
  const { [key]: inner, ...others } = drive as Drive;
  return rest.length === 0 ? others : { ...others, [key]: without(inner, rest) };
}
