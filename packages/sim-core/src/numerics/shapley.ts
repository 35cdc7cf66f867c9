/**
 * Shares of a joint result: Shapley values of a game whose players are the parts that differ.
 *
 *   (1) φᵢ = Σ over S without i of |S|!·(n − |S| − 1)!/n! · (v(S ∪ i) − v(S));   Σ φᵢ = v(all) − v(none)
 *   (2) Iᵢⱼ = Σ over S without i, j of |S|!·(n − |S| − 2)!/(n − 1)! · (v(S ∪ ij) − v(S ∪ i) − v(S ∪ j) + v(S))
 *
 * (2) is what i and j do together beyond what each does alone.
 * *Source*: L.S. Shapley, "A value for n-person games", Contributions to the Theory of Games II, Princeton 1953; (2) M. Grabisch &
 * M. Roubens, "An axiomatic approach to the concept of interaction among players", Int. J. Game Theory 28, 1999.
 *
 * @module
 */

/** The shares of a game, part by part, in the unit of its values. */
export interface ShapleyValues {
  readonly parts: readonly number[];
  /** Iᵢⱼ by pair, i < j. */
  readonly interactions: readonly { readonly pair: readonly [number, number]; readonly value: number }[];
}

const MOST_PLAYERS = 12;

/** (1), (2) of `players` players; `values` holds v by the bits of S, 2ⁿ of them. Throws RangeError for too many players or missing values. */
export function shapleyValues(players: number, values: ArrayLike<number>): ShapleyValues {
  if (!Number.isInteger(players) || players < 0 || players > MOST_PLAYERS)
    throw new RangeError(`Shares are told of 0 to 12 parts, not ${players}.`);
  const subsets = 2 ** players;
  if (values.length !== subsets) throw new RangeError(`${players} parts have ${subsets} mixtures, not ${values.length}.`);
  const factorial = [1];
  for (let k = 1; k <= players; k++) factorial.push(factorial[k - 1] * k);
  const size = (set: number): number => {
    let count = 0;
    for (let rest = set; rest > 0; rest &= rest - 1) count++;
    return count;
  };
  const parts = Array.from({ length: players }, (_, i) => {
    let sum = 0;
    for (let set = 0; set < subsets; set++) {
      if (set & (1 << i)) continue;
      const s = size(set);
      sum += ((factorial[s] * factorial[players - s - 1]) / factorial[players]) * (values[set | (1 << i)] - values[set]);
    }
    return sum;
  });
  const interactions: { pair: [number, number]; value: number }[] = [];
  for (let i = 0; i < players; i++) {
    for (let j = i + 1; j < players; j++) {
      const [a, b] = [1 << i, 1 << j];
      let sum = 0;
      for (let set = 0; set < subsets; set++) {
        if (set & (a | b)) continue;
        const s = size(set);
        const weight = (factorial[s] * factorial[players - s - 2]) / factorial[players - 1];
        sum += weight * (values[set | a | b] - values[set | a] - values[set | b] + values[set]);
      }
      interactions.push({ pair: [i, j], value: sum });
    }
  }
  return { parts, interactions };
}
