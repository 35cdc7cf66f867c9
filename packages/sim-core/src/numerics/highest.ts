/**
 * The highest place of a function of one variable within a bracket, by golden sections. A corner is found as a round top is.
 *
 * *Holds for*: one peak within; of several it finds one, and never less than it was given.
 * *Source*: J. Kiefer, Sequential minimax search for a maximum, Proc. Amer. Math. Soc. 4 (1953) 502–506 (from memory).
 *
 * @module
 */

/** The shorter part of a golden section [1]. */
const SHORTER = 0.5 * (3 - Math.sqrt(5));

/** Highest place found between `low` and `high`, f being no higher there than `value` at `at` between them, once the bracket is `tolerance` wide; f is not asked at the three. */
export function highest(
  f: (x: number) => number,
  low: number,
  at: number,
  value: number,
  high: number,
  tolerance: number,
): { readonly at: number; readonly value: number } {
  let [a, b, c] = [low, at, high];
  let most = value;
  while (c - a > tolerance) {
    const right = c - b > b - a;
    const x = right ? b + SHORTER * (c - b) : b - SHORTER * (b - a);
    // no number lies between
    if (!(x > a && x < c) || x === b) break;
    const found = f(x);
    if (found > most) {
      if (right) a = b;
      else c = b;
      b = x;
      most = found;
    } else if (right) c = x;
    else a = x;
  }
  return { at: b, value: most };
}
