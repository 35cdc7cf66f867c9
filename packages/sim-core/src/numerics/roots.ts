/**
 * Roots of a function of one variable by Brent's method on a bracket.
 *
 * *Holds for*: continuous functions; at a jump the place of the sign change is returned.
 * *Leaves out*: roots at which the function only touches zero.
 * *Source*: R.P. Brent, Algorithms for Minimization without Derivatives, Prentice-Hall 1973, chapter 4 (procedure zero).
 *
 * @module
 */

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
  let opposite = hi;
  let atPrevious = defined(f(lo), lo);
  let atBest = defined(f(hi), hi);
  let atOpposite = atBest;
  if (atPrevious === 0) return lo;
  if (atBest === 0) return hi;
  if (atPrevious > 0 === atBest > 0) throw notBracketed(lo, hi, atPrevious, atBest);
  let step = 0;
  let stepBefore = 0;
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
