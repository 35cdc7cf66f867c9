/**
 * The greatest value of a function on an interval, and of a quantity over a step of an integrator: samples, then golden section and
 * parabolas between the neighbours of the best one.
 *
 * *Holds for*: functions whose peaks are no narrower than the samples' spacing.
 * *Source*: R.P. Brent, Algorithms for Minimization without Derivatives, Prentice-Hall 1973, chapter 5 (procedure localmin).
 *
 * @module
 */

import type { StepView } from './ode-system.js';

export interface Extreme {
  readonly at: number;
  readonly value: number;
}

const GOLDEN = (3 - Math.sqrt(5)) / 2;
const ROOT_EPSILON = Math.sqrt(Number.EPSILON);
const MOST_ITERATIONS = 200;
const SAMPLES = 4;
/** A peak is found to this share of the step: near a smooth peak the value is then good to its square. */
const SHARE_OF_STEP = 1e-6;

function defined(value: number, x: number): number {
  if (Number.isNaN(value)) throw new RangeError(`The function whose maximum is sought is not a number at ${x}.`);
  return value;
}

/** A local maximum of f inside lo … hi, the global one where f has one peak there; tolerance of x, absolute. Throws RangeError at NaN. */
export function localMaximum(f: (x: number) => number, lo: number, hi: number, tolerance: number): Extreme {
  if (!(lo <= hi) || !(tolerance > 0)) throw new RangeError(`No interval to search from ${lo} to ${hi} with tolerance ${tolerance}.`);
  let left = lo;
  let right = hi;
  // best, second best and the place that was second best before
  let best = left + GOLDEN * (right - left);
  let second = best;
  let third = best;
  let atBest = -defined(f(best), best);
  let atSecond = atBest;
  let atThird = atBest;
  let step = 0;
  let stepBefore = 0;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const middle = 0.5 * (left + right);
    const smallest = ROOT_EPSILON * Math.abs(best) * 1e-3 + tolerance / 3;
    if (Math.abs(best - middle) <= 2 * smallest - 0.5 * (right - left)) return { at: best, value: -atBest };
    let golden = true;
    if (Math.abs(stepBefore) > smallest) {
      const r = (best - second) * (atBest - atThird);
      let q = (best - third) * (atBest - atSecond);
      let p = (best - third) * q - (best - second) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      else q = -q;
      const allowed = stepBefore;
      stepBefore = step;
      if (Math.abs(p) < Math.abs(0.5 * q * allowed) && p > q * (left - best) && p < q * (right - best)) {
        step = p / q;
        const next = best + step;
        if (next - left < 2 * smallest || right - next < 2 * smallest) step = best < middle ? smallest : -smallest;
        golden = false;
      }
    }
    if (golden) {
      stepBefore = best < middle ? right - best : left - best;
      step = GOLDEN * stepBefore;
    }
    const x = Math.abs(step) >= smallest ? best + step : best + (step > 0 ? smallest : -smallest);
    const value = -defined(f(x), x);
    if (value <= atBest) {
      if (x < best) right = best;
      else left = best;
      third = second;
      atThird = atSecond;
      second = best;
      atSecond = atBest;
      best = x;
      atBest = value;
    } else {
      if (x < best) left = x;
      else right = x;
      if (value <= atSecond || second === best) {
        third = second;
        atThird = atSecond;
        second = x;
        atSecond = value;
      } else if (value <= atThird || third === best || third === second) {
        third = x;
        atThird = value;
      }
    }
  }
  throw new RangeError(`The search for a maximum between ${lo} and ${hi} did not settle in ${MOST_ITERATIONS} iterations.`);
}

/**
 * The greatest value on a step of a quantity of time and state; `state` is a work array. A step whose best sample is an end, and which
 * falls away from that end at once, costs the samples only. Throws RangeError where the quantity is not a number.
 */
export function maximumOnStep(step: StepView, quantity: (t: number, y: Float64Array) => number, state: Float64Array): Extreme {
  const { from, to } = step;
  const spacing = (to - from) / SAMPLES;
  const value = (t: number): number => {
    if (t === from) return defined(quantity(t, step.start), t);
    if (t === to) return defined(quantity(t, step.end), t);
    step.at(t, state);
    return defined(quantity(t, state), t);
  };
  let at = from;
  let greatest = value(from);
  for (let sample = 1; sample <= SAMPLES; sample++) {
    const t = sample === SAMPLES ? to : from + sample * spacing;
    const here = value(t);
    if (here > greatest) {
      greatest = here;
      at = t;
    }
  }
  const nearby = SHARE_OF_STEP * (to - from);
  const isPeakAtEnd = (at === from && value(from + nearby) <= greatest) || (at === to && value(to - nearby) <= greatest);
  if (isPeakAtEnd) return { at, value: greatest };
  const refined = localMaximum(value, Math.max(from, at - spacing), Math.min(to, at + spacing), nearby);
  return refined.value > greatest ? refined : { at, value: greatest };
}
