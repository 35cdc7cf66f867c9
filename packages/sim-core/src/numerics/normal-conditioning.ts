/**
 * Independent standard normal unknowns z, conditioned on readings of a model h(z), each with a normal error of its own.
 *
 *   (1) y = h(z) + σ·e:  A = J/σ, J = ∂h/∂z by differences of the model's own answer;  innovation d = (y − h(z_k))/σ + A·z_k
 *   (2) z_(k+1) = Aᵀ·(I + A·Aᵀ)⁻¹·d, halved towards z_k while |z|² + |(y − h)/σ|² would grow (Gauss–Newton)
 *   (3) Σ = (I + AᵀA)⁻¹ = I − Σ_k (1 − c_k)·v_k·v_kᵀ:  A·Aᵀ = U·Λ·Uᵀ,  v_k = Aᵀ·u_k/√λ_k,  c_k = 1/(1 + λ_k)
 *   (4) each reading held against all others: α_i/√(S⁻¹)_ii, α = S⁻¹·d, S = I + A·Aᵀ; against the prior alone: d_i/√S_ii
 *   (5) where h bends by more than `BEND` of a reading's deviation within one deviation along some v_k: mean and variance along the v_k
 *       from draws weighted by posterior over proposal, in place of (3)
 *
 * As many directions as readings shrink; across them all stays as it was. An unknown whose column of A is all but nothing is left alone.
 * *Holds for* one posterior peak. *Leaves out* in (5) what bends across the directions.
 * *Source* (1)–(3) S. Särkkä, Bayesian Filtering and Smoothing, 2013, theorem 4.2 and algorithm 5.13 (iterated update; from memory);
 * (4) C.E. Rasmussen & C.K.I. Williams, Gaussian Processes for Machine Learning, 2006, eqs. 5.10–5.12; (5) importance sampling, Särkkä, section 7.1.
 *
 * @module
 */

import { EigenvalueDecomposition, inverse, Matrix } from 'ml-matrix';
import { inverseNormal } from './inverse-normal.js';
import { seededRandom } from './seeded-random.js';

/** Readings of one model. */
export interface Conditioning {
  /** Number of unknowns. */
  readonly dimension: number;
  /** h(z), as many as there are readings; NaN where the model has no answer. The array is kept and not changed. */
  readonly answers: (z: Float64Array) => readonly number[];
  /** y, and σ of each. */
  readonly read: readonly number[];
  readonly deviations: readonly number[];
}

/** z ~ N(mean, I − Σ_k (1 − variance_k)·v_k·v_kᵀ), the v_k at right angles and of length 1. */
export interface NormalPosterior {
  readonly mean: Float64Array;
  readonly directions: readonly { readonly along: Float64Array; readonly variance: number }[];
}

/** A normal distribution after what was observed. */
export interface Conditioned extends NormalPosterior {
  /** A at z = 0, whatever was read, and at the end, reading by reading. */
  readonly sensitivityBefore: readonly Float64Array[];
  readonly sensitivity: readonly Float64Array[];
  /** h at z = 0 [the reading's]. */
  readonly before: readonly number[];
  /** h at the end [the reading's]. */
  readonly after: readonly number[];
  /** (4) How far each reading is off. */
  readonly surprise: readonly {
    /** From what the prior and all others say [standard deviations]. */
    readonly amongAll: number;
    /** From what the prior alone says [standard deviations]. */
    readonly alone: number;
  }[];
  readonly settled: boolean;
  /** Effective number of draws [1], where (5) took the place of the straight line. */
  readonly effectiveDraws?: number;
}

/** Step of the differences, in standard deviations of an unknown. */
const STEP = 0.5;
/** An unknown with less than this squared in its column of A, all readings together, is left alone. */
const TRIFLE = 1e-4;
const MOST_ROUNDS = 8;
/** Settled where no unknown moves by more [standard deviations]. */
const SETTLED = 0.01;
const BEND = 0.3;
const DRAWS = 256;
const ROUNDS_OF_DRAWS = 2;
/** Proposals are this much wider along the directions. */
const WIDER = 1.3;

/** Conditions. Throws RangeError where the model has no answer at z = 0. */
export function condition(problem: Conditioning): Conditioned {
  const { dimension: n, answers, read, deviations } = problem;
  const residuals = (h: readonly number[]): number[] => read.map((y, i) => (y - h[i]) / deviations[i]);
  const size = (x: ArrayLike<number>): number => Array.from(x).reduce((sum, each) => sum + each * each, 0);
  const cost = (z: Float64Array, h: readonly number[]): number => size(z) + size(residuals(h));
  const before = answers(new Float64Array(n));
  if (!before.every(Number.isFinite)) throw new RangeError('The model has no answer for a reading.');

  let z = new Float64Array(n);
  let h = before;
  let kept = Array.from({ length: n }, (_, j) => j);
  const sensitivityBefore = differences(false);
  let rows = sensitivityBefore;
  kept = kept.filter((j) => rows.reduce((sum, row) => sum + row[j] ** 2, 0) > TRIFLE);
  rows = rows.map((row) => row.map((each, j) => (kept.includes(j) ? each : 0)));

  /** (1) A at z over the kept unknowns, to one side or both; where the model has no answer on one side the other serves. */
  function differences(bothSides: boolean): Float64Array[] {
    const out = read.map(() => new Float64Array(n));
    const moved = z.slice();
    for (const j of kept) {
      moved[j] = z[j] + STEP;
      const upper = answers(moved);
      moved[j] = z[j] - STEP;
      const lower = bothSides || !upper.every(Number.isFinite) ? answers(moved) : undefined;
      moved[j] = z[j];
      for (let i = 0; i < read.length; i++) {
        const up = (upper[i] - h[i]) / STEP;
        const down = lower === undefined ? Number.NaN : (h[i] - lower[i]) / STEP;
        const slope = Number.isFinite(up) ? (Number.isFinite(down) ? 0.5 * (up + down) : up) : down;
        out[i][j] = Number.isFinite(slope) ? slope / deviations[i] : 0;
      }
    }
    return out;
  }
  const gram = (): Matrix => new Matrix(rows.map((a) => rows.map((b) => dot(a, b))));
  const innovation = (): number[] => residuals(h).map((r, i) => r + dot(rows[i], z));
  const whole = (): Matrix => Matrix.eye(read.length).add(gram());

  /** (2): where the whole step to the solution is small, where no part of it is better, or on. */
  function move(): 'settled' | 'stuck' | 'moved' {
    const alpha = inverse(whole()).mmul(Matrix.columnVector(innovation())).to1DArray();
    const target = new Float64Array(n);
    rows.forEach((row, i) => {
      for (const j of kept) target[j] += row[j] * alpha[i];
    });
    const now = cost(z, h);
    for (let share = 1; share > 1e-3; share *= 0.5) {
      const tried = z.map((each, j) => each + share * (target[j] - each));
      const there = answers(tried);
      const better = cost(tried, there) <= now;
      const small = tried.every((each, j) => Math.abs(each - z[j]) <= SETTLED);
      if (better) [z, h] = [tried, there];
      if (better || small) return share === 1 && small ? 'settled' : better ? 'moved' : 'stuck';
    }
    return 'stuck';
  }
  /** With A as it is, until z stays; what the first move was. */
  function settle(): ReturnType<typeof move> {
    const first = move();
    for (let round = 0, last = first; last === 'moved' && round < MOST_ROUNDS; round++) last = move();
    return first;
  }
  let last: ReturnType<typeof move> = kept.length === 0 ? 'settled' : 'moved';
  if (last === 'moved') settle();
  // stuck with A of where it stands, the next round would be the same
  for (let round = 0; last === 'moved' && round < MOST_ROUNDS; round++) {
    rows = differences(true);
    last = settle();
  }

  const s = inverse(whole());
  const d = innovation();
  const alpha = s.mmul(Matrix.columnVector(d)).to1DArray();
  const surprise = d.map((each, i) => ({
    amongAll: alpha[i] / Math.sqrt(s.get(i, i)),
    alone: each / Math.sqrt(1 + dot(rows[i], rows[i])),
  }));
  const told = { sensitivityBefore, sensitivity: rows, before, after: h, surprise, settled: last === 'settled' };
  const straight: NormalPosterior = { mean: z, directions: directionsOf(rows) };
  const bent = straight.directions.some(({ along, variance }) => {
    const ends = [1, -1].map((side) => answers(z.map((each, j) => each + side * Math.sqrt(variance) * along[j])));
    return read.some((_, i) => !(Math.abs(ends[0][i] + ends[1][i] - 2 * h[i]) / (2 * deviations[i]) <= BEND));
  });
  if (!bent) return { ...told, ...straight };
  let posterior = straight;
  let effectiveDraws = 0;
  for (let round = 1; round <= ROUNDS_OF_DRAWS; round++)
    ({ posterior, effectiveDraws } = weighted(posterior, kept, (at) => -0.5 * cost(at, answers(at)), round));
  // the mean of draws that have an answer may lie where there is none
  const after = answers(posterior.mean);
  return after.every(Number.isFinite) ? { ...told, ...posterior, after, effectiveDraws } : { ...told, ...straight, effectiveDraws: 0 };
}

const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, each, j) => sum + each * b[j], 0);

/** (3) From A: the directions that readings narrow. */
function directionsOf(rows: readonly Float64Array[]): NormalPosterior['directions'] {
  const { vectors, values } = symmetric(new Matrix(rows.map((a) => rows.map((b) => dot(a, b)))));
  return values.flatMap((value, k) => {
    if (!(value > 1e-12)) return [];
    const along = new Float64Array(rows[0].length);
    rows.forEach((row, i) => {
      const share = vectors.get(i, k) / Math.sqrt(value);
      for (let j = 0; j < along.length; j++) along[j] += share * row[j];
    });
    return [{ along, variance: 1 / (1 + value) }];
  });
}

function symmetric(matrix: Matrix): { readonly vectors: Matrix; readonly values: readonly number[] } {
  if (matrix.rows === 0) return { vectors: matrix, values: [] };
  const found = new EigenvalueDecomposition(matrix, { assumeSymmetric: true });
  return { vectors: found.eigenvectorMatrix, values: found.realEigenvalues };
}

/** (5) Mean and variance along the directions from weighted draws; draws without an answer count as nothing. */
function weighted(
  { mean, directions }: NormalPosterior,
  kept: readonly number[],
  logPosterior: (z: Float64Array) => number,
  stream: number,
): { readonly posterior: NormalPosterior; readonly effectiveDraws: number } {
  const random = seededRandom(1, stream);
  const draws = Array.from({ length: DRAWS }, () => {
    const z = new Float64Array(mean.length);
    for (const j of kept) z[j] = inverseNormal(random.fraction());
    let log = 0.5 * dot(z, z);
    for (const { along, variance } of directions) {
      const part = dot(along, z);
      const stretch = WIDER * Math.sqrt(variance) - 1;
      for (const j of kept) z[j] += stretch * part * along[j];
    }
    for (const j of kept) z[j] += mean[j];
    log += logPosterior(z);
    return { z, log: Number.isFinite(log) ? log : Number.NEGATIVE_INFINITY };
  });
  const top = Math.max(...draws.map(({ log }) => log));
  // no draw has an answer: what is known stays, and nobody takes it for more
  if (top === Number.NEGATIVE_INFINITY) return { posterior: { mean, directions }, effectiveDraws: 0 };
  const weights = draws.map(({ log }) => Math.exp(log - top));
  const total = weights.reduce((sum, each) => sum + each, 0);
  const along = draws.map(({ z }) => directions.map((direction) => dot(direction.along, z)));
  const average = (f: (u: readonly number[]) => number): number => along.reduce((sum, u, k) => sum + weights[k] * f(u), 0) / total;
  const centre = directions.map((_, k) => average((u) => u[k]));
  const covariance = directions.map((_, a) => directions.map((_, b) => average((u) => (u[a] - centre[a]) * (u[b] - centre[b]))));
  const { vectors, values } = symmetric(new Matrix(covariance));
  const moved = new Float64Array(mean.length);
  directions.forEach((direction, k) => {
    const shift = centre[k] - dot(direction.along, mean);
    for (const j of kept) moved[j] += shift * direction.along[j];
  });
  return {
    posterior: {
      mean: mean.map((each, j) => each + moved[j]),
      directions: values.map((variance, k) => {
        const turned = new Float64Array(mean.length);
        directions.forEach((direction, a) => {
          for (const j of kept) turned[j] += vectors.get(a, k) * direction.along[j];
        });
        // draws of which one has all the weight have no spread, give or take rounding
        return { along: turned, variance: Math.max(0, variance) };
      }),
    },
    effectiveDraws: total ** 2 / weights.reduce((sum, each) => sum + each * each, 0),
  };
}

/**
 * Of the first `count` unknowns alone: z_j = mean_j + deviation_j·Σ_i share_i·ε_i with independent standard normal ε, from the symmetric square
 * root of their covariance, whose ε_j resemble the unknowns most. (The root: A. Kessy, A. Lewin, K. Strimmer, "Optimal whitening and
 * decorrelation", The American Statistician 72 (4), 2018.)
 */
export function rootOf(
  { mean, directions }: NormalPosterior,
  count: number,
): { readonly mean: number; readonly deviation: number; readonly shares: Float64Array }[] {
  // what is taken away, Σ_k (1 − c_k)·v·vᵀ over the first unknowns, in directions at right angles again
  const taken = directions.map(({ along, variance }) =>
    along.subarray(0, count).map((each) => each * Math.sqrt(Math.max(0, 1 - variance))),
  );
  const { vectors, values } = symmetric(new Matrix(taken.map((a) => taken.map((b) => dot(a, b)))));
  const narrowed = values.flatMap((value, k) => {
    if (!(value > 0)) return [];
    const along = new Float64Array(count);
    taken.forEach((row, a) => {
      for (let j = 0; j < count; j++) along[j] += (vectors.get(a, k) * row[j]) / Math.sqrt(value);
    });
    return [{ along, short: 1 - Math.sqrt(Math.max(0, 1 - value)) }];
  });
  return Array.from({ length: count }, (_, j) => {
    const row = new Float64Array(count);
    row[j] = 1;
    for (const { along, short } of narrowed) for (let i = 0; i < count; i++) row[i] -= short * along[j] * along[i];
    const deviation = Math.sqrt(dot(row, row));
    return { mean: mean[j], deviation, shares: row.map((each) => each / deviation) };
  });
}
