/**
 * Roots of a function of one variable: Brent's method on a bracket, Newton's method that may not leave one, and a search for a bracket.
 *
 * *Holds for*: continuous functions; at a jump the place of the sign change is returned.
 * *Leaves out*: roots at which the function only touches zero.
 * *Source*: R.P. Brent, Algorithms for Minimization without Derivatives, Prentice-Hall 1973, chapter 4 (procedure zero);
 * the guarded Newton step is textbook practice (bisection whenever Newton leaves the bracket or does not halve its step).
 *
 * @module
 */

/** What a residual writes at one point: its value and its slope there. */
export interface ValueAndSlope {
  value: number;
  slope: number;
}

/** Two places between which a function changes sign. */
export interface Bracket {
  readonly lo: number;
  readonly hi: number;
}

const MOST_ITERATIONS = 2000;

function defined(value: number, x: number): number {
  if (Number.isNaN(value)) throw new RangeError(`The function whose root is sought is not a number at ${x}.`);
  return value;
}

function notBracketed(lo: number, hi: number, atLo: number, atHi: number): RangeError {
  return new RangeError(`No root is bracketed between ${lo} and ${hi}: the function is ${atLo} at the one end and ${atHi} at the other.`);
}

function requireInterval(lo: number, hi: number, tolerance: number): void {
  if (!Number.isFinite(lo) || !Number.isFinite(hi)) throw new RangeError(`A root search needs finite ends, not ${lo} and ${hi}.`);
  if (!(tolerance >= 0)) throw new RangeError(`The tolerance of a root search must be zero or positive, not ${tolerance}.`);
}

/**
 * The root of f between lo and hi, within tolerance (of x, absolute) and rounding. Throws RangeError where f has one sign at both ends
 * or is not a number.
 */
export function brent(f: (x: number) => number, lo: number, hi: number, tolerance: number): number {
  requireInterval(lo, hi, tolerance);
  // best: the smaller residual; opposite: the other end of the bracket; previous: the best point before this one
  let previous = lo;
  let best = hi;
  let opposite = lo;
  let atPrevious = defined(f(lo), lo);
  let atBest = defined(f(hi), hi);
  let atOpposite = atPrevious;
  if (atPrevious === 0) return lo;
  if (atBest === 0) return hi;
  if (atPrevious > 0 === atBest > 0) throw notBracketed(lo, hi, atPrevious, atBest);
  let step = best - previous;
  let stepBefore = step;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    if (atBest > 0 === atOpposite > 0) {
      opposite = previous;
      atOpposite = atPrevious;
      step = best - previous;
      stepBefore = step;
    }
    if (Math.abs(atOpposite) < Math.abs(atBest)) {
      previous = best;
      best = opposite;
      opposite = previous;
      atPrevious = atBest;
      atBest = atOpposite;
      atOpposite = atPrevious;
    }
    const smallest = 2 * Number.EPSILON * Math.abs(best) + 0.5 * tolerance;
    const half = 0.5 * (opposite - best);
    if (Math.abs(half) <= smallest || atBest === 0) return best;
    let next = half;
    let bisected = true;
    if (Math.abs(stepBefore) >= smallest && Math.abs(atPrevious) > Math.abs(atBest)) {
      const s = atBest / atPrevious;
      let p: number;
      let q: number;
      if (previous === opposite) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const r = atBest / atOpposite;
        q = atPrevious / atOpposite;
        p = s * (2 * half * q * (q - r) - (best - previous) * (r - 1));
        q = (q - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      // a comparison with NaN (infinite residuals) is false, so that the step falls back to bisection
      if (2 * p < Math.min(3 * half * q - Math.abs(smallest * q), Math.abs(stepBefore * q))) {
        next = p / q;
        bisected = false;
      }
    }
    stepBefore = bisected ? half : step;
    step = next;
    previous = best;
    atPrevious = atBest;
    best += Math.abs(step) > smallest ? step : half > 0 ? smallest : -smallest;
    atBest = defined(f(best), best);
  }
  throw new RangeError(`The root search between ${lo} and ${hi} did not settle in ${MOST_ITERATIONS} iterations.`);
}

/**
 * The root of f between lo and hi by Newton's method from start, within tolerance (of x, absolute) and rounding.
 *
 * f writes value and slope into the record, which may be passed in to be reused. The ends are evaluated only when Newton misbehaves
 * (leaves the bracket, meets a slope of zero, or takes a step longer than half of the step before last), so that a good start costs
 * nothing beyond Newton's own iterations. Convergence is tested before the guard: at a root that lies on an end, or within rounding of
 * it, the last tiny step may point outside. Throws RangeError where the ends have one sign, or f is not a number.
 */
export function safeguardedNewton(
  f: (x: number, out: ValueAndSlope) => void,
  lo: number,
  hi: number,
  start: number,
  tolerance: number,
  record: ValueAndSlope = { value: 0, slope: 0 },
): number {
  requireInterval(lo, hi, tolerance);
  if (lo > hi) throw new RangeError(`The lower end of a root search, ${lo}, lies above the upper end, ${hi}.`);
  if (!(start >= lo && start <= hi)) throw new RangeError(`The start ${start} of a root search lies outside ${lo} to ${hi}.`);
  let left = lo;
  let right = hi;
  let guarded = false; // whether the ends are known to have opposite signs
  let risesToRight = true;
  let x = start;
  let step = hi - lo;
  let stepBefore = step;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    f(x, record);
    const value = defined(record.value, x);
    if (value === 0) return x;
    const newton = -value / record.slope;
    const smallest = tolerance + 2 * Number.EPSILON * Math.abs(x);
    if (Math.abs(newton) <= smallest) return Math.min(hi, Math.max(lo, x + newton));
    if (guarded) {
      if (value > 0 === risesToRight) right = x;
      else left = x;
      if (right - left <= smallest) return x;
    }
    let next = x + newton;
    // a root on an end may be aimed at from outside by a rounding
    if (next < lo && next >= lo - smallest) next = lo;
    else if (next > hi && next <= hi + smallest) next = hi;
    if (!(next >= left && next <= right && Math.abs(newton) <= 0.5 * Math.abs(stepBefore))) {
      if (!guarded) {
        f(lo, record);
        const atLo = defined(record.value, lo);
        f(hi, record);
        const atHi = defined(record.value, hi);
        if (atLo === 0) return lo;
        if (atHi === 0) return hi;
        if (atLo > 0 === atHi > 0) throw notBracketed(lo, hi, atLo, atHi);
        guarded = true;
        risesToRight = atHi > 0;
        if (value > 0 === risesToRight) right = x;
        else left = x;
      }
      if (!(next > left && next < right && Math.abs(newton) <= 0.5 * Math.abs(stepBefore))) next = 0.5 * (left + right);
    }
    stepBefore = step;
    step = next - x;
    x = next;
  }
  throw new RangeError(`The root search between ${lo} and ${hi} did not settle in ${MOST_ITERATIONS} iterations.`);
}

/**
 * Widens lo to hi, by steps that grow by 1.6, towards the end with the smaller residual until f changes sign, never beyond lowest and
 * highest. Throws RangeError where no sign change is met on the way or f is not a number.
 */
export function expandBracket(f: (x: number) => number, lo: number, hi: number, lowest: number, highest: number): Bracket {
  if (!(lowest <= lo && lo < hi && hi <= highest)) {
    throw new RangeError(`A bracket search needs lowest ≤ lo < hi ≤ highest, not ${lowest}, ${lo}, ${hi}, ${highest}.`);
  }
  let left = lo;
  let right = hi;
  let atLeft = defined(f(left), left);
  let atRight = defined(f(right), right);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    if (atLeft === 0 || atRight === 0 || atLeft > 0 !== atRight > 0) return { lo: left, hi: right };
    if (left <= lowest && right >= highest) break;
    const growth = 1.6 * (right - left);
    if (right >= highest || (left > lowest && Math.abs(atLeft) < Math.abs(atRight))) {
      left = Math.max(lowest, left - growth);
      atLeft = defined(f(left), left);
    } else {
      right = Math.min(highest, right + growth);
      atRight = defined(f(right), right);
    }
    if (!Number.isFinite(right - left)) break;
  }
  throw notBracketed(left, right, atLeft, atRight);
}
