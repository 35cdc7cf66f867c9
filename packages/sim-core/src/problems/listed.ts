/** Several words in a row of a sentence. @module */

/** "a", "a and b", "a, b and c"; nothing of nothing. */
export const listed = (items: readonly string[], last: 'and' | 'or' = 'and'): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} ${last} ${items[items.length - 1]}`;
