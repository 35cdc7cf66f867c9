/**
 * Integrates a stiff, nearly linear system (a heat network) in few large steps: exact for a linear one, whatever its time constants.
 *
 *   (1) u = x + h·φ₁(h·J)·f(x),  J = ∂f/∂x at x                 (2) D = f(u) − f(x) − J·(u − x)
 *   (3) x⁺ = u + 2h·φ₃(h·J)·D,  error told ≈ |x⁺ − u|           (4) φ₁(z) = (e^z − 1)/z,  φ₃(z) = (e^z − 1 − z − z²/2)/z³
 *   (5) propagator of a step: ∂x⁺/∂x ≈ e^(h·J)
 *
 * φ-functions times a vector are read off the exponential of a matrix with the vector beside it. J by forward differences, by
 * backward ones where those lead nowhere.
 * *Holds for* smooth autonomous f between the calls; third order. *Leaves out* events: the caller looks at each step's dense output, (1) with a
 * shorter h and D in proportion to its cube.
 * *Source* M. Hochbruck, A. Ostermann & J. Schweitzer, SIAM J. Numer. Anal. 47, 2009, method exprb32; the augmented matrix: A.H. Al-Mohy & N.J. Higham,
 * SIAM J. Sci. Comput. 33, 2011, theorem 2.1.
 *
 * @module
 */

import { type ExponentialWorkspace, exponentialWorkspace, matrixExponential, multiply } from './small-matrix.js';

const MOST_STEPS = 2000;
/** A step this short against the whole span is taken whatever its error: it crosses a kink of the laws, where no shorter one does better. */
const SHORTEST = 1e-5;
/** Beyond this error, in tolerances, not even such a step is believed: the difference quotients reach over a jump of the laws. */
const BELIEVED = 100;

export interface ExponentialStep {
  readonly from: number;
  readonly to: number;
  readonly start: Float64Array;
  readonly end: Float64Array;
  /** Rates at both ends. */
  readonly startRate: Float64Array;
  readonly endRate: Float64Array;
  /** Dense output, from ≤ t ≤ to. */
  at(t: number, into: Float64Array): void;
}

export interface ExponentialIntegrator {
  /** Jacobian at the start of the last step, n × n. */
  readonly jacobian: Float64Array;
  /** Writes f and J at x, for Newton's method on the same system. */
  linearise(x: Float64Array, rate: Float64Array): void;
  /**
   * Carries x from 0 to `duration` [s]; shows each step to `onStep`, which ends it by false; where `propagator` (n × n) is given, multiplies (5) onto it.
   * Returns the time reached: less than the duration where onStep ended it; NaN where the state left the laws' range or steps grew too many.
   */
  advance(x: Float64Array, duration: number, onStep?: (step: ExponentialStep) => boolean, propagator?: Float64Array): number;
}

/**
 * `f` writes the rates of n states; `increments` are the steps of the difference quotients, `tolerance` the error allowed per step, one a state, in
 * its own unit.
 */
export function exponentialRosenbrock(
  n: number,
  f: (x: Float64Array, rate: Float64Array) => void,
  increments: Float64Array,
  tolerance: Float64Array,
): ExponentialIntegrator {
  const jacobian = new Float64Array(n * n);
  const rate = new Float64Array(n);
  const moved = new Float64Array(n);
  const other = new Float64Array(n);
  const middle = new Float64Array(n);
  const defect = new Float64Array(n);
  const end = new Float64Array(n);
  const endRate = new Float64Array(n);
  const start = new Float64Array(n);
  const one = n + 1;
  const three = n + 3;
  const withOne = new Float64Array(one * one);
  const grownOne = new Float64Array(one * one);
  const workOne: ExponentialWorkspace = exponentialWorkspace(one);
  const withThree = new Float64Array(three * three);
  const grownThree = new Float64Array(three * three);
  const workThree: ExponentialWorkspace = exponentialWorkspace(three);
  const kept = new Float64Array(n * n);
  const product = new Float64Array(n * n);
  let lastStep = 0;
  /** To which side the difference quotients are taken: 1 forward, −1 back. */
  let side = 1;

  function linearise(x: Float64Array, into: Float64Array): void {
    f(x, into);
    moved.set(x);
    for (let j = 0; j < n; j++) {
      const increment = side * increments[j];
      moved[j] = x[j] + increment;
      f(moved, other);
      for (let i = 0; i < n; i++) jacobian[i * n + j] = (other[i] - into[i]) / increment;
      moved[j] = x[j];
    }
  }

  // every state is counted in tolerances, and the vector beside the matrix as one, so that the exponential's scaling follows the rates alone
  /** (1) from x over h, into `into`; leaves e^(hJ), in tolerances, in the corner of grownOne. */
  function exponentialEuler(x: Float64Array, h: number, into: Float64Array): void {
    let size = 0;
    for (let i = 0; i < n; i++) size += Math.abs(rate[i] / tolerance[i]);
    if (h === 0) {
      into.set(x);
      return;
    }
    if (size === 0) size = 1;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) withOne[i * one + j] = (jacobian[i * n + j] * tolerance[j]) / tolerance[i];
      withOne[i * one + n] = rate[i] / (tolerance[i] * size * h);
    }
    matrixExponential(withOne, h, grownOne, workOne);
    for (let i = 0; i < n; i++) into[i] = x[i] + grownOne[i * one + n] * tolerance[i] * size * h;
  }

  /** φ₃(hJ)·v added `factor` times onto `into`. */
  function addThird(v: Float64Array, h: number, factor: number, into: Float64Array): void {
    withThree.fill(0);
    let size = 0;
    for (let i = 0; i < n; i++) size += Math.abs(v[i] / tolerance[i]);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) withThree[i * three + j] = (jacobian[i * n + j] * h * tolerance[j]) / tolerance[i];
      withThree[i * three + n] = v[i] / (tolerance[i] * size);
    }
    withThree[n * three + n + 1] = 1;
    withThree[(n + 1) * three + n + 2] = 1;
    matrixExponential(withThree, 1, grownThree, workThree);
    for (let i = 0; i < n; i++) into[i] += factor * grownThree[i * three + n + 2] * tolerance[i] * size;
  }

  const step: { -readonly [K in keyof ExponentialStep]: ExponentialStep[K] } = {
    from: 0,
    to: 0,
    start,
    end,
    startRate: rate,
    endRate,
    at(t, into) {
      const share = (t - step.from) / (step.to - step.from);
      exponentialEuler(start, t - step.from, into);
      for (let i = 0; i < n; i++) into[i] += share ** 3 * (end[i] - middle[i]);
    },
  };

  const leave = (): number => {
    side = 1;
    return Number.NaN;
  };

  return {
    jacobian,
    linearise,
    advance(x, duration, onStep, propagator) {
      let time = 0;
      let h = lastStep > 0 ? lastStep : duration;
      let known = false;
      let tries = 0;
      while (time < duration) {
        if (++tries > MOST_STEPS) return leave();
        if (!known) {
          linearise(x, rate);
          // a last step may be a little longer than the error asks for, but never one that was refused
          if (duration - time < 1.2 * h) h = duration - time;
        }
        known = true;
        h = Math.min(h, duration - time);
        exponentialEuler(x, h, middle);
        f(middle, endRate);
        let largest = 0;
        for (let i = 0; i < n; i++) {
          let linear = 0;
          for (let j = 0; j < n; j++) linear += jacobian[i * n + j] * (middle[j] - x[j]);
          defect[i] = endRate[i] - rate[i] - linear;
          largest = Math.max(largest, (h * Math.abs(defect[i])) / tolerance[i]);
        }
        end.set(middle);
        if (!(largest < Number.POSITIVE_INFINITY)) {
          h *= 0.25;
          if (h < 1e-6 * duration) return leave();
          continue;
        }
        let error = 0;
        if (largest > 0.1) {
          for (let i = 0; i < n; i++) defect[i] *= h;
          addThird(defect, h, 2, end);
          for (let i = 0; i < n; i++) error = Math.max(error, Math.abs(end[i] - middle[i]) / tolerance[i]);
          // the told error is that of the second-order solution; the third-order one is carried on
          if (error > 4 && h > SHORTEST * duration) {
            h *= Math.max(0.1, 0.9 * Math.cbrt(4 / error));
            continue;
          }
          if (!(error <= BELIEVED)) {
            if (side < 0) return leave();
            side = -1;
            known = false;
            continue;
          }
        }
        start.set(x);
        step.from = time;
        step.to = time + h;
        f(end, endRate);
        if (propagator !== undefined) {
          for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) kept[i * n + j] = (grownOne[i * one + j] * tolerance[i]) / tolerance[j];
          multiply(n, kept, propagator, product);
          propagator.set(product);
        }
        const goesOn = onStep === undefined || onStep(step);
        x.set(end);
        time = time + h >= duration * (1 - 1e-14) ? duration : time + h;
        known = false;
        side = 1;
        lastStep = h;
        h *= Math.min(5, 0.9 * Math.cbrt(4 / Math.max(error, 0.01)));
        if (!goesOn) return time;
      }
      return time;
    },
  };
}
