/**
 * Pseudo-random numbers from a seed: PCG32, a 64-bit linear congruential generator whose output is shifted, folded and rotated (XSH RR).
 *
 * *Source*: M.E. O'Neill, "PCG: a family of simple fast space-efficient statistically good algorithms for random number generation",
 * Harvey Mudd College HMC-CS-2014-0905, 2014, section 6.3; multiplier 6364136223846793005 (Knuth, TAOCP vol. 2, 3.3.4).
 *
 * @module
 */

export interface SeededRandom {
  /** next whole number in 0 … 2³² − 1 */
  readonly integer: () => number;
  /** next number in the open interval 0 … 1, a multiple of 2⁻³² plus half of one */
  readonly fraction: () => number;
}

const MULTIPLIER_HIGH = 0x5851f42d;
const MULTIPLIER_LOW = 0x4c957f2d;
const TWO_32 = 2 ** 32;

/** The upper 32 bits of the product of two unsigned 32-bit numbers. */
function upperProduct(a: number, b: number): number {
  const [a1, a0, b1, b0] = [a >>> 16, a & 0xffff, b >>> 16, b & 0xffff];
  const cross = a1 * b0 + ((a0 * b0) >>> 16);
  const other = a0 * b1 + (cross & 0xffff);
  return (a1 * b1 + Math.floor(cross / 0x10000) + Math.floor(other / 0x10000)) >>> 0;
}

/** A generator with its own state: equal seeds give equal numbers; different streams of a seed are unrelated. Throws RangeError. */
export function seededRandom(seed: number, stream = 0): SeededRandom {
  for (const each of [seed, stream]) {
    if (!Number.isInteger(each) || each < 0 || each >= TWO_32) {
      throw new RangeError(`Seeds and streams are whole numbers from 0 to 4294967295, not ${each}.`);
    }
  }
  const incrementLow = ((stream << 1) | 1) >>> 0;
  const incrementHigh = stream >>> 31;
  let high = 0;
  let low = 0;
  const advance = (): void => {
    const nextHigh = (upperProduct(low, MULTIPLIER_LOW) + Math.imul(low, MULTIPLIER_HIGH) + Math.imul(high, MULTIPLIER_LOW)) >>> 0;
    const sum = (Math.imul(low, MULTIPLIER_LOW) >>> 0) + incrementLow;
    high = (nextHigh + incrementHigh + (sum >= TWO_32 ? 1 : 0)) >>> 0;
    low = sum >>> 0;
  };
  advance();
  high = (high + (low + seed >= TWO_32 ? 1 : 0)) >>> 0;
  low = (low + seed) >>> 0;
  advance();
  const integer = (): number => {
    // ((state >> 18) ^ state) >> 27, its lower 32 bits, rotated right by the upper 5 bits of the state
    const foldedHigh = (high >>> 18) ^ high;
    const foldedLow = ((low >>> 18) | (high << 14)) ^ low;
    const shifted = ((foldedHigh << 5) | (foldedLow >>> 27)) >>> 0;
    const rotation = high >>> 27;
    advance();
    return ((shifted >>> rotation) | (shifted << (-rotation & 31))) >>> 0;
  };
  return { integer, fraction: () => (integer() + 0.5) / TWO_32 };
}
