/**
 * Quasi-random points in the unit cube: a Sobol sequence, scrambled from a seed.
 *
 *   (1) coordinate j of point i = 0.(bits) with bits = XOR of v_{j,k} over the set bits k of i, then shifted by XOR with s_j
 *   (2) v_{j,k} = m_k / 2^k, m_k = 2a₁m_{k−1} ⊕ … ⊕ 2^{s−1}a_{s−1}m_{k−s+1} ⊕ 2^s m_{k−s} ⊕ m_{k−s}
 *   (3) scrambling: each v_j multiplied by a random lower triangular bit matrix with ones on its diagonal; s_j random
 *
 * Every block of 2^m points from a multiple of 2^m on fills each of the 2^m equal slices of each axis once; scrambling keeps that, and
 * makes each point uniform, so that means are unbiased and differently seeded sequences tell their error. Points are computed from
 * their number alone: workers may take any share. Take powers of two.
 *
 * *Holds for*: up to 256 dimensions and 2³² points; coordinates are never 0 or 1.
 * *Leaves out*: Owen's full nested scrambling; (3) has the same variance for single integrals.
 * *Source*: P. Bratley & B.L. Fox, "Algorithm 659", ACM Trans. Math. Softw. 14, 1988 (recurrence); S. Joe & F.Y. Kuo, SIAM J. Sci. Comput.
 * 30 (5), 2008 (numbers); J. Matoušek, "On the L2-discrepancy for anchored boxes", J. Complexity 14, 1998 (scrambling).
 *
 * @module
 */

import { seededRandom } from './seeded-random.js';
import { SOBOL_ROWS } from './sobol-direction-numbers.js';

const BITS = 32;
const TWO_32 = 2 ** BITS;
export const MOST_DIMENSIONS = SOBOL_ROWS.length + 1;

/** A sequence of points in so many dimensions [1]. */
export interface QuasiRandomSequence {
  readonly dimension: number;
  /** v — 32 numbers a dimension, the first bit of a coordinate in the highest place */
  readonly directions: Uint32Array;
  /** s — one a dimension */
  readonly shift: Uint32Array;
}

/** (2) for dimension j, from 0, written to directions[32 j …]. */
function writeDirections(j: number, directions: Uint32Array): void {
  const at = BITS * j;
  const row = SOBOL_ROWS[j - 1];
  for (let k = 0; k < BITS; k++) {
    if (row === undefined) directions[at + k] = 1 << (BITS - 1 - k);
    else if (k < row.degree) directions[at + k] = row.initial[k] << (BITS - 1 - k);
    else {
      const { degree, coefficients } = row;
      let v = directions[at + k - degree] ^ (directions[at + k - degree] >>> degree);
      for (let term = 1; term < degree; term++) {
        if ((coefficients >>> (degree - 1 - term)) & 1) v ^= directions[at + k - term];
      }
      directions[at + k] = v;
    }
  }
}

function requireDimension(dimension: number): void {
  if (!Number.isInteger(dimension) || dimension < 1 || dimension > MOST_DIMENSIONS) {
    throw new RangeError(`Quasi-random points have 1 to ${MOST_DIMENSIONS} dimensions, not ${dimension}.`);
  }
}

/** (2): the plain sequence, whose point 0 is the corner at 0. */
export function sobolSequence(dimension: number): QuasiRandomSequence {
  requireDimension(dimension);
  const directions = new Uint32Array(BITS * dimension);
  for (let j = 0; j < dimension; j++) writeDirections(j, directions);
  return { dimension, directions, shift: new Uint32Array(dimension) };
}

function parity(bits: number): number {
  let folded = bits ^ (bits >>> 16);
  folded ^= folded >>> 8;
  folded ^= folded >>> 4;
  return (0x6996 >>> (folded & 15)) & 1;
}

/** (2), (3): the sequence scrambled from a seed. Dimensions draw in turn, so that adding one at the end leaves the others as they were. */
export function scrambledSobolSequence(dimension: number, seed: number): QuasiRandomSequence {
  const { directions, shift } = sobolSequence(dimension);
  const matrix = new Uint32Array(BITS);
  const random = seededRandom(seed);
  for (let j = 0; j < dimension; j++) {
    // row b of the matrix: one for bit b, random for the bits of more weight, zero below
    for (let b = 0; b < BITS; b++) {
      const diagonal = (1 << (BITS - 1 - b)) >>> 0;
      const above = b === 0 ? 0 : (-1 << (BITS - b)) >>> 0;
      matrix[b] = (random.integer() & above) | diagonal;
    }
    for (let k = BITS * j; k < BITS * (j + 1); k++) {
      let scrambled = 0;
      for (let b = 0; b < BITS; b++) scrambled |= parity(matrix[b] & directions[k]) << (BITS - 1 - b);
      directions[k] = scrambled;
    }
    shift[j] = random.integer();
  }
  return { dimension, directions, shift };
}

/** (1): writes point number `index`, from 0, into `into`. Throws RangeError for an index that is no whole number in 0 … 2³² − 1. */
export function quasiRandomPoint(sequence: QuasiRandomSequence, index: number, into: Float64Array): void {
  if (!Number.isInteger(index) || index < 0 || index >= TWO_32) {
    throw new RangeError(`A point's number is a whole number from 0 to 4294967295, not ${index}.`);
  }
  const { dimension, directions, shift } = sequence;
  for (let j = 0; j < dimension; j++) {
    let bits = shift[j];
    for (let rest = index, k = BITS * j; rest !== 0; rest >>>= 1, k++) if (rest & 1) bits ^= directions[k];
    into[j] = ((bits >>> 0) + 0.5) / TWO_32;
  }
}
