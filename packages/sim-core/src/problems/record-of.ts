/** A record from its keys. @module */

/** One value for each key: the keys of `keys`, in their order, and no others. */
export function recordOf<K extends string, V>(keys: readonly K[], of: (key: K, index: number) => V): { [Key in K]: V } {
  // the one place where a list of keys becomes a type of keys
  return Object.fromEntries(keys.map((key, index) => [key, of(key, index)])) as { [Key in K]: V };
}
