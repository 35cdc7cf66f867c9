/**
 * A coefficient table from polynomials in the advance ratio.
 *
 * (1) CT = c0 + c1·J + c2·J² (+ c3·J³),  CP = d0 + d1·J + d2·J² (+ d3·J³)
 *
 * Up to the third power the table's Hermite pieces, given the exact slopes, reproduce the polynomial to rounding, so that two
 * rows are enough for each piece.
 * *Holds for*: the range that the polynomials were fitted on; beyond it the table's rule stands.
 *
 * @module
 */

import { type CoefficientTable, withPieces } from './coefficient-table.js';

/** Coefficients by rising power. */
export type Polynomial = readonly number[];

/** One stretch of the table, up to `to`, with its own polynomials. J [1]. */
export interface PolynomialPiece {
  readonly to: number;
  readonly thrust: Polynomial;
  readonly power: Polynomial;
}

/** Value of c0 + c1·x + … (Horner). */
export function evaluatePolynomial(polynomial: Polynomial, x: number): number {
  let sum = 0;
  for (let power = polynomial.length - 1; power >= 0; power--) sum = sum * x + polynomial[power];
  return sum;
}

/** Its first derivative. */
export function polynomialSlope(polynomial: Polynomial, x: number): number {
  let sum = 0;
  for (let power = polynomial.length - 1; power >= 1; power--) sum = sum * x + power * polynomial[power];
  return sum;
}

/** Smallest zero of the polynomial in (0, limit], where it first falls from positive values; undefined where it stays positive. */
export function firstZero(polynomial: Polynomial, limit: number): number | undefined {
  const steps = 400;
  let low = 0;
  if (!(evaluatePolynomial(polynomial, low) > 0)) return undefined;
  for (let i = 1; i <= steps; i++) {
    let high = (limit * i) / steps;
    if (evaluatePolynomial(polynomial, high) <= 0) {
      for (let halving = 0; halving < 60; halving++) {
        const middle = (low + high) / 2;
        if (evaluatePolynomial(polynomial, middle) > 0) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    }
    low = high;
  }
  return undefined;
}

/** The largest advance ratio searched for the zero of the thrust; no propeller of a model flies faster for its speed. */
const LARGEST_ADVANCE_RATIO = 5;

/**
 * Equation 1 as a table, from 0 to `upTo` or, left out, to where the thrust vanishes.
 * Throws RangeError for a coefficient that is not finite, a fourth power, or a thrust that never vanishes.
 * J [1].
 */
export function tableFromPolynomial(fit: {
  readonly thrust: Polynomial;
  readonly power: Polynomial;
  readonly upTo?: number;
}): CoefficientTable {
  const upTo = fit.upTo ?? firstZero(fit.thrust, LARGEST_ADVANCE_RATIO);
  if (upTo === undefined) {
    throw new RangeError(
      `the thrust polynomial does not fall to zero below an advance ratio of ${LARGEST_ADVANCE_RATIO}; say up to which advance ratio it holds`,
    );
  }
  return tableFromPieces([{ to: upTo, thrust: fit.thrust, power: fit.power }], upTo);
}

/** Pieces end to end from an advance ratio of 0, each with exact slopes at its ends; `supportedTo` is where the data end. */
export function tableFromPieces(pieces: readonly PolynomialPiece[], supportedTo: number): CoefficientTable {
  let from = 0;
  const rows: { at: number; piece: PolynomialPiece }[] = [];
  for (const [index, piece] of pieces.entries()) {
    if (!(piece.to > from) || !Number.isFinite(piece.to)) {
      throw new RangeError(`a polynomial holds up to an advance ratio above ${from}, not up to ${piece.to}`);
    }
    for (const polynomial of [piece.thrust, piece.power]) {
      if (polynomial.length === 0 || polynomial.length > 4 || !polynomial.every(Number.isFinite)) {
        throw new RangeError('a polynomial in the advance ratio has one to four finite coefficients, c0 + c1·J + c2·J² + c3·J³');
      }
    }
    if (index === 0) rows.push({ at: 0, piece });
    rows.push({ at: piece.to, piece });
    from = piece.to;
  }
  const column = (take: (row: { at: number; piece: PolynomialPiece }) => number) => Float64Array.from(rows, take);
  return withPieces({
    advanceRatio: column((row) => row.at),
    logReynolds: Float64Array.of(0),
    thrust: column((row) => evaluatePolynomial(row.piece.thrust, row.at)),
    power: column((row) => evaluatePolynomial(row.piece.power, row.at)),
    thrustSlope: column((row) => polynomialSlope(row.piece.thrust, row.at)),
    powerSlope: column((row) => polynomialSlope(row.piece.power, row.at)),
    evenRows: rows.length === 2 ? 1 / from : 0,
    supported: { from: 0, to: supportedTo },
  });
}
