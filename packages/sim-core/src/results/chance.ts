/**
 * A probability found by counting draws, with its 95 % interval, and how it is told.
 *
 *   (1) 0 < k < n:  ( p + z²/2n ± z·√( p(1 − p)/n + z²/4n² ) ) / (1 + z²/n),  z = 1.96
 *   (2) k = n: from 0.05^(1/n) on;  k = 0: up to 1 − 0.05^(1/n)
 *
 * *Holds for* independent draws; quasi-random draws scatter no more.
 * *Source*: (1) E.B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209; (2) C.J. Clopper & E.S. Pearson, Biometrika 26 (1934) 404, one-sided.
 *
 * @module
 */

import { formatNumber, STANDARD_DEVIATIONS_95 } from '../quantities/index.js';

/** How often something was so among the draws. */
export interface Chance {
  /** Number of draws in which it was so [1]. */
  readonly count: number;
  /** Number of draws [1]. */
  readonly of: number;
  /** count / of [1], and the ends of its 95 % interval. */
  readonly probability: number;
  /** Lower end of the chance’s own 95 % interval [1]. */
  readonly low: number;
  /** Upper end of it [1]. */
  readonly high: number;
}

/** `count` of `of` draws. */
export function chanceOf(count: number, of: number): Chance {
  const p = count / of;
  const one = { count, of, probability: p };
  if (count === of) return { ...one, low: 0.05 ** (1 / of), high: 1 };
  if (count === 0) return { ...one, low: 0, high: 1 - 0.05 ** (1 / of) };
  const z2 = STANDARD_DEVIATIONS_95 ** 2 / of;
  const half = Math.sqrt(z2 * (p * (1 - p) + z2 / 4));
  return { ...one, low: (p + z2 / 2 - half) / (1 + z2), high: (p + z2 / 2 + half) / (1 + z2) };
}

/** A share in percent; what is not all or nothing never reads 100 or 0. */
export function percent(share: number): string {
  for (let decimals = 0; ; decimals++) {
    const text = formatNumber(100 * share, { decimals });
    const told = Number(text);
    if (decimals === 3 || share === 0 || share === 1 || (told > 0 && told < 100)) return `${text}\u202f%`;
  }
}
const atLeast = ({ low }: Chance): string => `${formatNumber(Math.floor(100 * low), { decimals: 0 })}\u202f%`;
const atMost = ({ high }: Chance): string => `${formatNumber(Math.ceil(100 * high), { decimals: 0 })}\u202f%`;

/** "in all 64 draws, so at least 95 %", "in none of the 64 draws, so at most 5 %", "in 58 of 64 draws, 91 % (81 to 96 %)". */
export function inDraws(chance: Chance): string {
  const { count, of, probability, low, high } = chance;
  if (count === of) return `in all ${of} draws, so at least ${atLeast(chance)}`;
  if (count === 0) return `in none of the ${of} draws, so at most ${atMost(chance)}`;
  return `in ${count} of ${of} draws, ${percent(probability)} (${percent(low).replace(/\D+$/, '')} to ${percent(high)})`;
}

/** For a cell: "≥ 95 %", "≤ 5 %", "91 %". */
export function chanceFigure(chance: Chance): string {
  if (chance.count === chance.of) return `≥\u202f${atLeast(chance)}`;
  return chance.count === 0 ? `≤\u202f${atMost(chance)}` : percent(chance.probability);
}
