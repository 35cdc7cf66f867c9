/**
 * Least squares, robust, in unknowns of which a little is known before: each is a deviate z, normal with mean 0 and deviation 1 before the data.
 *
 *   (1) minimise Σ s²·ρ(r/s) + Σ z²: Huber's ρ with c = 1.345, by weights w = min(1, c/|r/s|) found anew; r over its stated noise
 *   (2) s² = [ν₀ + Σ ψ(r/s)²·s²/β]/(ν₀ + n − h), one a channel: Huber's proposal 2; ν₀ = 4 says how much the stated noise is believed
 *   (3) covariance = (Σ JᵀJ/(s²·v·τ) + 1)⁻¹
 *   (4) τ = 1 + 2·Σ ρ_k, k up to the first autocorrelation in a channel's order that is not above 2/√n
 *   (5) singular values of J/(s·√(v·τ)): a direction whose value is above 1 is told more by the data than was known before; their number is the rank
 *
 * β = E ψ² and v = E ψ²/(E ψ')² of a standard normal r; h is the channel's share of the fitted unknowns.
 * *Holds for* residuals smooth in z; neighbours may be alike (4), channels not.
 * *Source* P. J. Huber & E. M. Ronchetti, Robust Statistics, 2nd ed., 2009, ch. 7 (1)–(3); D. W. Marquardt, J. SIAM 11, 1963, by the package
 * ml-levenberg-marquardt; (4) the initial sequence of C. J. Geyer, Statistical Science 7(4), 1992; all from memory.
 * @module
 */
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { informationOf, posterior, quadratic, type Rows, spectrum } from './information.js';

export interface FitProblem {
  /** How many unknowns. */
  readonly unknowns: number;
  /** How many residuals. */
  readonly count: number;
  /** First residual of each channel; within one they lie in the order in which they were read. */
  readonly channels: readonly number[];
  /** What s of (2) is at least, where the laws themselves are off by the stated noise; none unless said. */
  readonly leastScale?: number;
  /** Writes the residuals at deviates z, each over its stated noise. */
  readonly residuals: (z: ArrayLike<number>, out: Float64Array) => void;
}

export interface Fit {
  readonly deviates: readonly number[];
  /** (3), row by row. */
  readonly covariance: Rows;
  /** (5), the greatest first, and their directions in z. */
  readonly singular: readonly number[];
  readonly directions: Rows;
  readonly rank: number;
  /** Over their stated noise. */
  readonly residuals: Float64Array;
  /** w of each [1]. */
  readonly weights: Float64Array;
  /** s and τ of each channel. */
  readonly scales: readonly number[];
  readonly alike: readonly number[];
  /** Half-width of a 95 % interval in standard deviations: Student's for few residuals. */
  readonly quantile: number;
  readonly settled: boolean;
}

const HUBER = 1.345;
/** E ψ², and E ψ²/(E ψ')², of (1) for a standard normal. */
const BETA = 0.7102;
const VARIANCE = 1.0526;
const BELIEF = 4;
const STEP = 1e-4;
/** A residual that is not a number counts as this many times its noise; a deviate goes no further than this. */
const WORST = 1e4;
const FARTHEST = 12;
const MOST_PASSES = 14;
/** Of the library: careful at first, for the beginning may be far off. */
const CAREFUL = { damping: 3, steps: 12 } as const;
const NEAR = { damping: 0.03, steps: 2 } as const;
/** s at the beginning: far off, what is known before holds the unknowns, and the data get their weight as they are met. */
const FIRST_SCALE = 30;
/** Settled: the next step in standard deviations, and the change of a scale. */
const SMALL_STEP = 0.02;
const SMALL_CHANGE = 0.01;
const NORMAL_95 = 1.959963984540054;

/** Student's 97.5 % quantile, by the first terms of its expansion in 1/ν (Abramowitz & Stegun 26.7.5). */
const student = (nu: number): number => NORMAL_95 + 2.3722712 / nu + 2.8225 / (nu * nu);

/** Jacobian of the residuals by central differences, one row a residual. */
export function jacobianOf({ unknowns, count, residuals }: Omit<FitProblem, 'channels'>, z: readonly number[]): number[][] {
  const rows = Array.from({ length: count }, () => new Array<number>(unknowns).fill(0));
  const [above, below] = [new Float64Array(count), new Float64Array(count)];
  const at = [...z];
  for (let j = 0; j < unknowns; j++) {
    at[j] = z[j] + STEP;
    residuals(at, above);
    at[j] = z[j] - STEP;
    residuals(at, below);
    at[j] = z[j];
    for (let i = 0; i < count; i++) {
      const slope = (above[i] - below[i]) / (2 * STEP);
      rows[i][j] = Number.isFinite(slope) ? slope : 0;
    }
  }
  return rows;
}

/** The same to one side, which is enough to find the way. */
function slopesOf({ unknowns, count, residuals }: Omit<FitProblem, 'channels'>, z: readonly number[]): number[][] {
  const rows = Array.from({ length: count }, () => new Array<number>(unknowns).fill(0));
  const [here, there] = [new Float64Array(count), new Float64Array(count)];
  residuals(z, here);
  const at = [...z];
  for (let j = 0; j < unknowns; j++) {
    at[j] = z[j] + STEP;
    residuals(at, there);
    at[j] = z[j];
    for (let i = 0; i < count; i++) rows[i][j] = (there[i] - here[i]) / STEP;
  }
  return rows;
}

/** The residuals with `WORST` for what is no number. */
const counted =
  ({ count, residuals }: FitProblem): FitProblem['residuals'] =>
  (z, out) => {
    residuals(z, out);
    for (let i = 0; i < count; i++) if (!(Math.abs(out[i]) < WORST)) out[i] = WORST;
  };

/** (1)–(5), begun at z = 0, or at a `start` that is near. */
export function fitRobustly(problem: FitProblem, start?: readonly number[]): Fit {
  const { unknowns, count, channels, leastScale = 0 } = problem;
  const ends = [...channels.slice(1), count];
  const residuals = new Float64Array(count);
  const finite = counted(problem);
  const weights = new Float64Array(count).fill(1);
  let alike = channels.map(() => 1);
  const scales: number[] = channels.map(() => (start === undefined ? FIRST_SCALE : 1));
  let z: readonly number[] = start ?? new Array<number>(unknowns).fill(0);
  let jacobian: number[][] = [];
  let covariance: Rows = posterior(informationOf([], [], unknowns));
  let settled = false;
  let left = Number.POSITIVE_INFINITY;
  const each = (over: (channel: number, from: number, to: number) => void): void => {
    channels.forEach((from, c) => {
      over(c, from, ends[c]);
    });
  };
  for (let pass = 0; pass < MOST_PASSES && !settled; pass++) {
    const noise = new Float64Array(count).fill(1);
    each((c, from, to) => {
      for (let i = from; i < to; i++) noise[i] = scales[c] * Math.sqrt(alike[c] / weights[i]);
    });
    const precision = Float64Array.from({ length: count }, (_, i) => 1 / (noise[i] * noise[i]));
    const problemHere = { unknowns, count, residuals: finite };
    const knownAt = (here: readonly number[]): number[][] => {
      jacobian = slopesOf(problemHere, here);
      return posterior(informationOf(jacobian, precision, unknowns));
    };
    z = leastOf(problemHere, z, noise, pass === 0 ? knownAt(z) : covariance, left > SMALL_STEP ? CAREFUL : NEAR);
    finite(z, residuals);
    covariance = knownAt(z);
    let largest = 0;
    each((c, from, to) => {
      const before = scales[c];
      let squares = 0;
      let used = 0;
      for (let i = from; i < to; i++) {
        const psi = Math.min(HUBER, Math.abs(residuals[i]) / before);
        squares += psi * psi;
        used += precision[i] * quadratic(covariance, jacobian[i]);
      }
      scales[c] = Math.max(leastScale, Math.sqrt((BELIEF + (squares * before * before) / BETA) / (BELIEF + Math.max(0, to - from - used))));
      largest = Math.max(largest, Math.abs(scales[c] / before - 1));
      for (let i = from; i < to; i++) weights[i] = Math.min(1, (HUBER * scales[c]) / Math.max(1e-300, Math.abs(residuals[i])));
    });
    left = stepLeft(covariance, jacobian, residuals, precision, z);
    settled = largest < SMALL_CHANGE && left < SMALL_STEP;
    if (pass > 0) alike = channels.map((from, c) => likeness(residuals, weights, from, ends[c]));
  }
  const precision = new Float64Array(count);
  let free = BELIEF;
  each((c, from, to) => {
    precision.fill(1 / (scales[c] ** 2 * VARIANCE * alike[c]), from, to);
    free += (to - from) / alike[c];
  });
  const information = informationOf(jacobianOf({ unknowns, count, residuals: finite }, z), precision, unknowns);
  covariance = posterior(information);
  const { values, vectors } = spectrum(information);
  const singular = values.map((value) => Math.sqrt(Math.max(0, value)));
  const rank = singular.filter((value) => value > 1).length;
  return {
    deviates: z,
    covariance,
    singular,
    directions: vectors,
    rank,
    residuals,
    weights,
    scales,
    alike,
    quantile: student(Math.max(1, free - rank)),
    settled,
  };
}

/**
 * The least of Σ(r/noise)² + Σz² near z, by the library: in coordinates y, z = z₀ + L·y with L·Lᵀ the covariance there, so that every direction
 * weighs the same and its plain damping is Marquardt's. Its own weights are not used: version 5.1.0 divides by them in one place.
 */
function leastOf(
  { unknowns, count, residuals }: Omit<FitProblem, 'channels'>,
  z: readonly number[],
  noise: Float64Array,
  covariance: Rows,
  { damping, steps }: { readonly damping: number; readonly steps: number },
): number[] {
  const lower = new CholeskyDecomposition(new Matrix(covariance.map((row) => [...row]))).lowerTriangularMatrix;
  const within = (y: readonly number[]): number[] =>
    z.map((each, a) => {
      let sum = each;
      for (let b = 0; b <= a; b++) sum += lower.get(a, b) * y[b];
      return Math.min(FARTHEST, Math.max(-FARTHEST, sum));
    });
  const all = Array.from({ length: count + unknowns }, (_, k) => k);
  const { parameterValues } = levenbergMarquardt(
    { x: all, y: new Float64Array(count + unknowns) },
    (y) => {
      const at = within(y);
      const now = new Float64Array(count);
      residuals(at, now);
      return (k) => (k < count ? now[k] / noise[k] : at[k - count]);
    },
    {
      initialValues: new Array<number>(unknowns).fill(0),
      damping,
      maxIterations: steps,
      errorTolerance: 1e-9,
      jacobianFunction: (y) => {
        const rows = slopesOf({ unknowns, count, residuals }, within(y));
        const turned = (row: readonly number[], over: number): number[] =>
          Array.from({ length: unknowns }, (_, b) => {
            let sum = 0;
            for (let a = b; a < unknowns; a++) sum += row[a] * lower.get(a, b);
            return sum / over;
          });
        return (k) => (k < count ? turned(rows[k], noise[k]) : Array.from({ length: unknowns }, (_, b) => lower.get(k - count, b)));
      },
    },
  );
  return within(parameterValues);
}

/** Keeps a triangle from dividing by nothing. */
const NOTHING = 1e-12;

/** F of profile-interval.ts (1) with z_j held at `value`, all others as well as they can. */
export function followedAt(problem: FitProblem, fit: Fit, j: number, value: number): number {
  const { unknowns, count, channels } = problem;
  const residuals = counted(problem);
  const noise = new Float64Array(count);
  channels.forEach((from, c) => {
    const to = channels[c + 1] ?? count;
    for (let i = from; i < to; i++) noise[i] = fit.scales[c] * Math.sqrt((VARIANCE * fit.alike[c]) / fit.weights[i]);
  });
  const whole = (others: ArrayLike<number>): number[] => Array.from(others).toSpliced(j, 0, value);
  const followed = (others: ArrayLike<number>, out: Float64Array): void => residuals(whole(others), out);
  // the others begin where the straight law of the fit has them
  const pull = (value - fit.deviates[j]) / fit.covariance[j][j];
  const start = fit.deviates.map((z, a) => z + pull * fit.covariance[a][j]).filter((_, a) => a !== j);
  const kept = fit.deviates.map((_, a) => a).filter((a) => a !== j);
  const { covariance: c } = fit;
  const covariance = kept.map((a) => kept.map((b) => c[a][b] - (c[a][j] * c[b][j]) / c[j][j] + (a === b ? NOTHING : 0)));
  const z = whole(leastOf({ unknowns: unknowns - 1, count, residuals: followed }, start, noise, covariance, CAREFUL));
  const out = new Float64Array(count);
  residuals(z, out);
  return out.reduce((sum, r, i) => sum + (r / noise[i]) ** 2, 0) + z.reduce((sum, each) => sum + each * each, 0);
}

/** Longest coordinate of the step that is left, in standard deviations. */
function stepLeft(covariance: Rows, jacobian: Rows, residuals: Float64Array, precision: Float64Array, z: readonly number[]): number {
  const gradient = [...z];
  for (let i = 0; i < jacobian.length; i++) {
    const pull = precision[i] * residuals[i];
    for (let a = 0; a < gradient.length; a++) gradient[a] += pull * jacobian[i][a];
  }
  let longest = 0;
  for (let a = 0; a < gradient.length; a++) {
    let step = 0;
    for (let b = 0; b < gradient.length; b++) step += covariance[a][b] * gradient[b];
    longest = Math.max(longest, Math.abs(step) / Math.sqrt(covariance[a][a]));
  }
  return longest;
}

/** (4) of the weighted residuals of one channel. */
function likeness(residuals: Float64Array, weights: Float64Array, from: number, to: number): number {
  const n = to - from;
  if (n < 8) return 1;
  const at = (k: number): number => residuals[from + k] * weights[from + k];
  let variance = 0;
  for (let k = 0; k < n; k++) variance += at(k) ** 2;
  let sum = 1;
  for (let lag = 1; lag < n / 4; lag++) {
    let product = 0;
    for (let k = lag; k < n; k++) product += at(k) * at(k - lag);
    if (!(product / variance > 2 / Math.sqrt(n))) break;
    sum += (2 * product) / variance;
  }
  return sum;
}
