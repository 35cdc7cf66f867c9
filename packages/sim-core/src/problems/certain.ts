/** What must be there: read out without a doubt in the types, and thrown as a fault of the program where it is not. @module */

/** The value. Throws Error, with what was looked for, where there is none. */
export function certain<T>(value: T | undefined | null, what: string): T {
  if (value === undefined || value === null) throw new Error(`There is no ${what}.`);
  return value;
}

/** The entry of a key. Throws Error where there is none. */
export const entryOf = <K, V>(map: ReadonlyMap<K, V>, key: K): V => certain(map.get(key), `entry for ${String(key)}`);

/** The last of a list or a column. Throws Error where it is empty. */
export const lastOf = <T>(list: ArrayLike<T>): T => certain(list[list.length - 1], 'last one of an empty list');

/** The one of a name. Throws Error where there is none. */
export const named = <T extends { readonly name: string }>(list: readonly T[], name: string): T =>
  certain(
    list.find((each) => each.name === name),
    `${name} among ${list.length}`,
  );
