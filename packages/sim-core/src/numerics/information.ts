/**
 * What data tell of unknowns that have a normal prior of deviation 1: information matrices and what is left open.
 *
 *   (1) information = JᵀWJ        (2) covariance = (information + 1)⁻¹        (3) more data add their information to it
 *
 * *Source* linear algebra by the package ml-matrix; A. Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 14.8 (from memory).
 * @module
 */
import { CholeskyDecomposition, EigenvalueDecomposition, Matrix } from 'ml-matrix';

export type Rows = readonly (readonly number[])[];

/** JᵀWJ for weights of each row. */
export function informationOf(jacobian: Rows, weights: ArrayLike<number>, unknowns: number): number[][] {
  const sum = Array.from({ length: unknowns }, () => new Array<number>(unknowns).fill(0));
  for (let i = 0; i < jacobian.length; i++) {
    const row = jacobian[i];
    for (let a = 0; a < unknowns; a++) {
      const left = row[a] * weights[i];
      if (left === 0) continue;
      const into = sum[a];
      for (let b = a; b < unknowns; b++) into[b] += left * row[b];
    }
  }
  for (let a = 0; a < unknowns; a++) for (let b = 0; b < a; b++) sum[a][b] = sum[b][a];
  return sum;
}

/** (information + 1)⁻¹: what is known with the prior. Throws RangeError where a number of it is beyond all measure. */
export function posterior(information: Rows): number[][] {
  const size = information.length;
  const whole = new Matrix(information.map((row, a) => row.map((each, b) => each + (a === b ? 1 : 0))));
  const factor = new CholeskyDecomposition(whole);
  if (!factor.isPositiveDefinite())
    throw new RangeError(
      'One row is beyond all measure beside the others: look for a number with too many digits, and mend it or take its row out.',
    );
  const found = factor.solve(Matrix.eye(size));
  return Matrix.add(found, found.transpose()).mul(0.5).to2DArray();
}

/**
 * The covariance once `more` information is added to what a fit's `covariance` holds; its rows and columns stand at `places` among the unknowns, where a
 * place beyond the last is an unknown that the fit did not have. Of the fit's own unknowns only.
 */
export function withInformation(covariance: Rows, more: Rows, places: readonly number[]): number[][] {
  const own = covariance.length;
  const size = Math.max(own, ...places.map((place) => place + 1));
  const precision = new CholeskyDecomposition(new Matrix(covariance.map((row) => [...row]))).solve(Matrix.eye(own));
  const sum = Array.from({ length: size }, (_, a) =>
    Array.from({ length: size }, (_, b) =>
      a < own && b < own ? 0.5 * (precision.get(a, b) + precision.get(b, a)) - (a === b ? 1 : 0) : 0,
    ),
  );
  places.forEach((a, row) => {
    places.forEach((b, column) => {
      sum[a][b] += more[row][column];
    });
  });
  return posterior(sum)
    .slice(0, own)
    .map((row) => row.slice(0, own));
}

/** The covariance once the unknowns `held` are known: C − C_h·C_hh⁻¹·C_hᵀ; theirs is 0. */
export function heldCovariance(covariance: Rows, held: readonly number[]): number[][] {
  const inner = new Matrix(held.map((a) => held.map((b) => covariance[a][b])));
  const across = new Matrix(covariance.map((row) => held.map((b) => row[b])));
  const known = across.mmul(new CholeskyDecomposition(inner).solve(across.transpose()));
  return covariance.map((row, a) => row.map((each, b) => (held.includes(a) || held.includes(b) ? 0 : each - known.get(a, b))));
}

/** xᵀ·M·x. */
export function quadratic(matrix: Rows, row: readonly number[]): number {
  let sum = 0;
  for (let a = 0; a < row.length; a++) for (let b = 0; b < row.length; b++) sum += row[a] * matrix[a][b] * row[b];
  return sum;
}

/** Eigenvalues of a symmetric matrix, the greatest first, and their directions. */
export function spectrum(matrix: Rows): { readonly values: number[]; readonly vectors: number[][] } {
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(new Matrix(matrix.map((row) => [...row])), {
    assumeSymmetric: true,
  });
  const order = realEigenvalues.map((_, k) => k).sort((a, b) => realEigenvalues[b] - realEigenvalues[a]);
  return { values: order.map((k) => realEigenvalues[k]), vectors: order.map((k) => eigenvectorMatrix.getColumn(k)) };
}
