/**
 * A sum of functions of one variable each, fitted to samples: what each independent input does to an output, alone.
 *
 *   (1) y ≈ mean + Σ_j f_j(u_j),   f_j(u) = β_j·z(u) + Σ_k a_jk·√(2k + 1)·P_k(2u − 1),   k = 1 … K,   K ≈ n^⅓
 *   (2) first-order share of a group G = Var(Σ_{j∈G} f_j)/Var(y), less what noise alone would give: (terms fitted)·s²/n
 *   (3) standard error of a share S ≈ √( 4·S·ρ/n + 2·(terms)·ρ²/n² ), ρ = s²/Var(y), s² = variance that the sum leaves; for independent
 *       samples, and less for quasi-random ones
 *
 * Inputs are independent and uniform in 0 … 1 (u), z their normal scores. The straight part comes first, term by term by least squares,
 * as long as a term gains more than the best of as many useless ones would (2·ln d); then the bent parts, the greatest first. What one input
 * explains is taken out before the next is judged, so that the samples needed grow with the inputs that matter, not with all of them. K
 * grows with the sample, so that any smooth f_j is found in the end. Inputs that move together belong in one group: (2) is of their sum.
 *
 * *Holds for*: some tens of samples or more; a share far below its standard error is noise and comes out as 0.
 * *Leaves out*: interactions, which stay in the rest.
 * *Source*: the share Var(E[y|x])/Var(y): A. Saltelli et al., Global Sensitivity Analysis: The Primer, Wiley 2008, ch. 1.2; given-data
 * estimation by orthogonal functions: E. Plischke, "An effective algorithm for computing global sensitivity indices (EASI)", Reliab. Eng.
 * Syst. Saf. 95, 2010 (cosines there); stepwise choice of terms: Y.C. Pati et al., "Orthogonal matching pursuit", Asilomar 1993.
 *
 * @module
 */
import { entryOf } from '../problems/certain.js';
import { inverseNormal } from './inverse-normal.js';

export interface AdditiveFit {
  readonly mean: number;
  readonly variance: number;
  /** s² — what the sum of all f_j leaves. */
  readonly noise: number;
  /** f_j at every sample, for the inputs that stand out. */
  readonly effects: ReadonlyMap<number, Float64Array>;
  /** Terms fitted for each of them. */
  readonly terms: ReadonlyMap<number, number>;
}

export interface Share {
  readonly share: number;
  readonly error: number;
}

const MOST_DEGREE = 10;
const MOST_BENT = 12;

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
};
const add = (to: Float64Array, factor: number, what: Float64Array): void => {
  for (let i = 0; i < to.length; i++) to[i] += factor * what[i];
};

function centred(values: ArrayLike<number>): { mean: number; centred: Float64Array } {
  let mean = 0;
  for (let i = 0; i < values.length; i++) mean += values[i] / values.length;
  return { mean, centred: Float64Array.from({ length: values.length }, (_, i) => values[i] - mean) };
}

/** The straight part: chosen columns with their coefficients; `residual` is left as what they do not explain. */
function straightPart(scores: readonly Float64Array[], residual: Float64Array): Map<number, number> {
  const n = residual.length;
  const left = scores.map((column) => column.slice());
  const chosen: { readonly j: number; readonly direction: Float64Array; readonly along: number }[] = [];
  const most = Math.min(scores.length, Math.floor(n / 3));
  const threshold = 2 * Math.log(Math.max(2, scores.length)) + 2;
  const total = dot(residual, residual);
  while (chosen.length < most) {
    let best = -1;
    let gain = 0;
    for (let j = 0; j < left.length; j++) {
      const size = dot(left[j], left[j]);
      // a column that the chosen ones span already has nothing of its own
      if (size < 1e-9 * n) continue;
      const along = dot(left[j], residual);
      if ((along * along) / size > gain) {
        gain = (along * along) / size;
        best = j;
      }
    }
    const sum = dot(residual, residual);
    if (best < 0 || sum <= 1e-20 * total || gain < (threshold * (sum - gain)) / (n - chosen.length - 2)) break;
    const direction = left[best].slice();
    const scale = 1 / Math.sqrt(dot(direction, direction));
    for (let i = 0; i < n; i++) direction[i] *= scale;
    const along = dot(direction, residual);
    add(residual, -along, direction);
    for (const column of left) add(column, -dot(direction, column), direction);
    left[best].fill(0);
    chosen.push({ j: best, direction, along });
  }
  // the directions are the columns made orthogonal in turn: from the last to the first, each leaves its column's own coefficient
  const coefficients = new Map<number, number>();
  for (let m = chosen.length - 1; m >= 0; m--) {
    const { j, direction, along } = chosen[m];
    let value = along;
    for (let k = m + 1; k < chosen.length; k++) value -= dot(direction, scores[chosen[k].j]) * entryOf(coefficients, chosen[k].j);
    coefficients.set(j, value / dot(direction, scores[j]));
  }
  return coefficients;
}

/** √(2k + 1)·P_k(2u − 1), k = 1 … degree: mean square 1 and orthogonal over 0 … 1. */
function bentColumns(u: ArrayLike<number>, degree: number): Float64Array[] {
  const n = u.length;
  const columns = Array.from({ length: degree }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    const x = 2 * u[i] - 1;
    let before = 1;
    let here = x;
    for (let k = 1; k <= degree; k++) {
      columns[k - 1][i] = here * Math.sqrt(2 * k + 1);
      const next = ((2 * k + 1) * x * here - k * before) / (k + 1);
      before = here;
      here = next;
    }
  }
  return columns;
}

/** What the columns explain of the residual, by inner products: they are orthogonal but for sampling. */
function explained(columns: readonly Float64Array[], residual: Float64Array): Float64Array {
  const effect = new Float64Array(residual.length);
  for (const column of columns) add(effect, dot(column, residual) / dot(column, column), column);
  return effect;
}

/** Degree K of the bent parts for n samples. */
export const bentDegree = (n: number): number => Math.max(2, Math.min(MOST_DEGREE, Math.floor(Math.cbrt(n))));

/** Inputs made ready once for the fits of many outputs. */
export interface FitInputs {
  readonly samples: number;
  readonly scores: readonly Float64Array[];
  readonly bent: readonly (readonly Float64Array[])[];
}

/** Ready inputs of `u`, one column an input, each in 0 … 1. Throws RangeError for fewer than 16 samples or columns of unequal length. */
export function fitInputs(u: readonly ArrayLike<number>[]): FitInputs {
  const n = u[0]?.length ?? 0;
  if (n < 16) throw new RangeError(`Sensitivities need 16 samples or more, not ${n}.`);
  for (const column of u) if (column.length !== n) throw new RangeError(`An input has ${column.length} samples, another ${n}.`);
  const degree = bentDegree(n);
  return {
    samples: n,
    scores: u.map((column) => centred(Float64Array.from({ length: n }, (_, i) => inverseNormal(column[i]))).centred),
    bent: u.map((column) => bentColumns(column, degree)),
  };
}

/**
 * (1) fitted to the outputs `y`, of the inputs in `among` (all of them unless said otherwise). Throws RangeError for another number of
 * outputs than samples, or one that is not finite.
 */
export function additiveFit(
  { samples: n, scores: allScores, bent: allColumns }: FitInputs,
  y: ArrayLike<number>,
  among: readonly number[] = allScores.map((_, j) => j),
): AdditiveFit {
  if (y.length !== n) throw new RangeError(`${n} samples have ${y.length} outputs.`);
  for (let i = 0; i < n; i++) if (!Number.isFinite(y[i])) throw new RangeError(`Output ${i + 1} is not a finite number.`);
  const scores = among.map((j) => allScores[j]);
  const columns = among.map((j) => allColumns[j]);
  const { mean, centred: residual } = centred(y);
  const variance = dot(residual, residual) / n;
  const effects = new Map<number, Float64Array>();
  const terms = new Map<number, number>();
  if (variance === 0) return { mean, variance, noise: 0, effects, terms };
  for (const [j, coefficient] of straightPart(scores, residual)) {
    effects.set(
      j,
      scores[j].map((z) => coefficient * z),
    );
    terms.set(j, 1);
  }
  const degree = bentDegree(n);
  const bent = new Map<number, Float64Array>();
  for (let round = 0; round < MOST_BENT; round++) {
    let best = -1;
    let found = 0;
    let effect: Float64Array | undefined;
    const noise = dot(residual, residual) / n;
    for (let j = 0; j < columns.length; j++) {
      if (bent.has(j)) continue;
      const candidate = explained(columns[j], residual);
      const size = dot(candidate, candidate) / n;
      if (size > found) {
        found = size;
        best = j;
        effect = candidate;
      }
    }
    // noise alone explains degree·s²/n, give or take √(2·degree)·s²/n; the best of many inputs some deviations more
    const deviations = 2 + Math.sqrt(2 * Math.log(Math.max(2, columns.length)));
    if (effect === undefined || found < ((degree + deviations * Math.sqrt(2 * degree)) * noise) / n || noise <= 1e-20 * variance) break;
    add(residual, -1, effect);
    bent.set(best, effect);
  }
  for (let sweep = 0; sweep < 2; sweep++) {
    for (const [j, effect] of bent) {
      add(residual, 1, effect);
      const again = explained(columns[j], residual);
      add(residual, -1, again);
      bent.set(j, again);
    }
  }
  let count = 0;
  for (const [j, effect] of bent) {
    const straight = effects.get(j);
    if (straight !== undefined) add(effect, 1, straight);
    effects.set(j, effect);
    terms.set(j, (terms.get(j) ?? 0) + degree);
  }
  for (const each of terms.values()) count += each;
  const named = <V>(map: ReadonlyMap<number, V>): Map<number, V> => new Map([...map].map(([j, value]) => [among[j], value]));
  return { mean, variance, noise: dot(residual, residual) / Math.max(1, n - 1 - count), effects: named(effects), terms: named(terms) };
}

/** (2), (3) for the inputs of one group; 0 where none of them stands out. */
export function firstOrderShare({ variance, noise, effects, terms }: AdditiveFit, group: readonly number[], n: number): Share {
  const sum = new Float64Array(n);
  let fitted = 0;
  for (const j of group) {
    const effect = effects.get(j);
    if (effect === undefined) continue;
    add(sum, 1, effect);
    fitted += entryOf(terms, j);
  }
  if (fitted === 0 || variance === 0) return { share: 0, error: 0 };
  const { centred: about } = centred(sum);
  const left = noise / variance;
  const share = Math.max(0, dot(about, about) / n / variance - (fitted * left) / n);
  return { share, error: Math.sqrt((4 * share * left) / n + (2 * fitted * left * left) / (n * n)) };
}
