/**
 * Small dense matrices, row by row in one Float64Array: exponential and linear equations, for the few states of a drive.
 *
 *   (1) e^A = (e^(A/2^s))^(2^s), s so that ‖A/2^s‖₁ ≤ ¼; the inner one by Taylor's series to degree 8, grouped in fours
 *   (2) A·x = b by elimination with row pivots
 *
 * *Holds for* finite entries; (1) to about 1e-11 of the largest entry, more with many squarings of a matrix that grows.
 * *Source* (1) C. Moler & C. Van Loan, "Nineteen dubious ways to compute the exponential of a matrix", SIAM Review 45, 2003, method 3;
 * (2) G.H. Golub & C.F. Van Loan, Matrix Computations, 3rd ed., algorithm 3.4.1.
 *
 * @module
 */

/** c = a·b, all n × n; c must be another array than a and b. */
export function multiply(n: number, a: Float64Array, b: Float64Array, c: Float64Array): void {
  for (let i = 0; i < n; i++) {
    const row = i * n;
    for (let j = 0; j < n; j++) c[row + j] = 0;
    for (let k = 0; k < n; k++) {
      const x = a[row + k];
      if (x === 0) continue;
      const other = k * n;
      for (let j = 0; j < n; j++) c[row + j] += x * b[other + j];
    }
  }
}

export interface ExponentialWorkspace {
  readonly n: number;
  readonly powers: readonly [Float64Array, Float64Array, Float64Array, Float64Array];
  readonly spare: Float64Array;
}

export function exponentialWorkspace(n: number): ExponentialWorkspace {
  const make = (): Float64Array => new Float64Array(n * n);
  return { n, powers: [make(), make(), make(), make()], spare: make() };
}

/** (1) e^(A·scale) written into `out`; entries that are not finite give entries that are not finite. */
export function matrixExponential(a: Float64Array, scale: number, out: Float64Array, work: ExponentialWorkspace): void {
  const { n, powers, spare } = work;
  const [a1, a2, a3, a4] = powers;
  let norm = 0;
  for (let j = 0; j < n; j++) {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += Math.abs(a[i * n + j]);
    norm = Math.max(norm, sum);
  }
  norm *= Math.abs(scale);
  const squarings = norm > 0.25 && norm < Number.POSITIVE_INFINITY ? Math.ceil(Math.log2(norm / 0.25)) : 0;
  const factor = scale / 2 ** squarings;
  const size = n * n;
  for (let k = 0; k < size; k++) a1[k] = a[k] * factor;
  multiply(n, a1, a1, a2);
  multiply(n, a2, a1, a3);
  multiply(n, a2, a2, a4);
  for (let k = 0; k < size; k++) spare[k] = a1[k] / 120 + a2[k] / 720 + a3[k] / 5040 + a4[k] / 40320;
  for (let k = 0; k < size; k += n + 1) spare[k] += 1 / 24;
  multiply(n, a4, spare, out);
  for (let k = 0; k < size; k++) out[k] += a1[k] + a2[k] / 2 + a3[k] / 6;
  for (let k = 0; k < size; k += n + 1) out[k] += 1;
  for (let k = 0; k < squarings; k++) {
    multiply(n, out, out, spare);
    out.set(spare);
  }
}

/** (2) Solves A·x = b in place: `a` is destroyed, `b` becomes x. False where A is singular. */
export function solveLinear(n: number, a: Float64Array, b: Float64Array): boolean {
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let i = column + 1; i < n; i++) if (Math.abs(a[i * n + column]) > Math.abs(a[pivot * n + column])) pivot = i;
    const top = a[pivot * n + column];
    if (!(Math.abs(top) > 0)) return false;
    if (pivot !== column) {
      for (let j = 0; j < n; j++) {
        const held = a[column * n + j];
        a[column * n + j] = a[pivot * n + j];
        a[pivot * n + j] = held;
      }
      const held = b[column];
      b[column] = b[pivot];
      b[pivot] = held;
    }
    for (let i = column + 1; i < n; i++) {
      const share = a[i * n + column] / top;
      if (share === 0) continue;
      for (let j = column; j < n; j++) a[i * n + j] -= share * a[column * n + j];
      b[i] -= share * b[column];
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i];
    for (let j = i + 1; j < n; j++) sum -= a[i * n + j] * b[j];
    b[i] = sum / a[i * n + i];
  }
  return true;
}
