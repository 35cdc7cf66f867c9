/**
 * When the run began by a log's clock: the shift at which a column of the log follows the prediction best.
 *
 *   (1) r(b) = correlation of m(t + b) and p(t) over all t that both have, at least half of the shorter
 *
 * The correlation asks for the same ups and downs, not for the same size: a sensor with a wrong scale aligns as well.
 * *Leaves out* clocks that run at another pace. *Source* of r: K. Pearson's product-moment correlation, in any textbook of statistics.
 * @module
 */

/** A curve over time [s], rising; NaN where it has no value. */
export interface Curve {
  readonly time: ArrayLike<number>;
  readonly values: ArrayLike<number>;
}

export interface Alignment {
  /** Time of the log at which the run begins [s]. */
  readonly begins: number;
  /** r there [1]. */
  readonly correlation: number;
  /** Another beginning, apart from that one, that fits nearly as well. */
  readonly alike?: number;
}

/** Steps of the search over the longer of log and run, and of the finer look about what it found. */
const COARSE = 400;
const FINE = 4000;
/** Share of a coarse step to which the beginning is found. */
const FOUND = 0.025;
/** Least r that is called following. */
const LEAST = 0.5;
/** A rival lies at least this share of the run away, and is worse by less than this. */
const APART = 0.03;
const NEARLY = 0.02;

const lengthOf = ({ time }: Curve): number => time[time.length - 1] - time[0];

/** (1) where the run begins at `begins` of the log's clock; NaN where that cannot be told. */
export function correlationAt(log: Curve, run: Curve, begins: number): number {
  const span = run.time[run.time.length - 1];
  const step = Math.max(span, lengthOf(log)) / FINE;
  const count = Math.round(span / step) + 1;
  const least = (0.5 * Math.min(span, lengthOf(log))) / step;
  return correlation(evenly(run, 0, step, count), evenly(log, begins, step, count), least);
}

/** The best shift, the first of equals; undefined where neither curve changes enough to tell, or nothing follows. */
export function alignClocks(log: Curve, run: Curve): Alignment | undefined {
  const span = run.time[run.time.length - 1];
  const from = log.time[0];
  const length = lengthOf(log);
  const step = Math.max(span, length) / COARSE;
  const least = (0.5 * Math.min(span, length)) / step;
  const offset = Math.round(span / step);
  const predicted = evenly(run, 0, step, offset + 1);
  const shifts = offset + Math.floor(length / step);
  const logged = evenly(log, from - offset * step, step, shifts + predicted.length);
  const places: { readonly begins: number; readonly r: number }[] = [];
  for (let k = 0; k <= shifts; k++) {
    const r = correlation(predicted, logged.subarray(k, k + predicted.length), least);
    if (!Number.isNaN(r)) places.push({ begins: from + (k - offset) * step, r });
  }
  if (places.length === 0) return undefined;
  const coarse = places.reduce((a, b) => (b.r > a.r ? b : a));
  const rival = places
    .filter(({ begins }) => Math.abs(begins - coarse.begins) > APART * span)
    .reduce<{ readonly begins: number; readonly r: number } | undefined>((a, b) => (a === undefined || b.r > a.r ? b : a), undefined);
  let best = { begins: coarse.begins, r: correlationAt(log, run, coarse.begins) };
  for (let width = step / 2; width > FOUND * step; width /= 2) {
    for (const begins of [best.begins - width, best.begins + width]) {
      const r = correlationAt(log, run, begins);
      if (r > best.r) best = { begins, r };
    }
  }
  if (!(best.r >= LEAST)) return undefined;
  return {
    begins: best.begins,
    correlation: best.r,
    ...(rival !== undefined && rival.r > coarse.r - NEARLY ? { alike: rival.begins } : {}),
  };
}

/** The curve at `count` even times from `from` on, straight between its points; NaN outside them. */
function evenly({ time, values }: Curve, from: number, step: number, count: number): Float64Array {
  const out = new Float64Array(count);
  let before = -1;
  let next = 0;
  for (let k = 0; k < count; k++) {
    const t = from + k * step;
    while (next < time.length && (time[next] < t || Number.isNaN(values[next]))) {
      if (!Number.isNaN(values[next])) before = next;
      next++;
    }
    // outside the curve there is nothing on one side, and of nothing comes NaN
    out[k] =
      time[next] === t
        ? values[next]
        : values[before] + ((values[next] - values[before]) * (t - time[before])) / (time[next] - time[before]);
  }
  return out;
}

/** (1) of two as long as each other; NaN where fewer than `least` points have both, or one of them never changes. */
function correlation(a: Float64Array, b: Float64Array, least: number): number {
  let count = 0;
  let [sa, sb, aa, bb, ab] = [0, 0, 0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    const [x, y] = [a[k], b[k]];
    if (Number.isNaN(x) || Number.isNaN(y)) continue;
    count++;
    sa += x;
    sb += y;
    aa += x * x;
    bb += y * y;
    ab += x * y;
  }
  if (count < Math.max(3, least)) return Number.NaN;
  const [va, vb] = [aa - (sa * sa) / count, bb - (sb * sb) / count];
  // what is left of rounding is no change
  if (!(va > 1e-9 * aa && vb > 1e-9 * bb)) return Number.NaN;
  return (ab - (sa * sb) / count) / Math.sqrt(va * vb);
}
