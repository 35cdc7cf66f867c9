/**
 * Residuals made independent: each freed of what those before it tell of it.
 *
 *   (1) covariance = L·Lᵀ,  r ← L⁻¹·r: of unit variance and no correlation
 *
 * *Source* G. H. Golub & C. F. Van Loan, Matrix Computations, 3rd ed., ch. 4.2.
 * @module
 */

/** Rows of the inverse of the lower triangle L of a covariance L·Lᵀ, one after another. */
export function inverseOfLower(covariance: readonly (readonly number[])[]): number[] {
  const size = covariance.length;
  const lower: number[][] = [];
  const inverse: number[][] = [];
  for (let a = 0; a < size; a++) {
    lower.push([]);
    inverse.push(new Array<number>(a + 1).fill(0));
    for (let b = 0; b <= a; b++) {
      let sum = covariance[a][b];
      for (let m = 0; m < b; m++) sum -= lower[a][m] * lower[b][m];
      lower[a].push(a === b ? Math.sqrt(Math.max(sum, LEAST_PART * covariance[a][a])) : sum / lower[b][b]);
    }
    for (let b = 0; b < a; b++) {
      let sum = 0;
      for (let m = b; m < a; m++) sum -= lower[a][m] * inverse[m][b];
      inverse[a][b] = sum / lower[a][a];
    }
    inverse[a][a] = 1 / lower[a][a];
  }
  return inverse.flat();
}
/** Part of a residual's variance that is its own at least, so that two that tell the same do not divide by nothing [1]. */
const LEAST_PART = 1e-4;
