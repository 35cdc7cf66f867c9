/**
 * Interpolation in a table by a cubic that keeps the table's rises, falls and extremes.
 *
 *   (1) on interval k, s = (x − x_k)/h: y = y_k + h·s·[d_k + s·(2(δ − d_k) − (d_{k+1} − δ)) + s²·(d_k + d_{k+1} − 2δ)], δ = (y_{k+1} − y_k)/h
 *   (2) d_k = 0 where the slopes δ_{k−1}, δ_k differ in sign, otherwise their harmonic mean weighted by 2h_k + h_{k−1} and h_k + 2h_{k−1}
 *   (3) ends: the slope there of the parabola through three points, limited so that monotony holds
 *
 * *Holds for*: two points or more (the cubic), strictly rising x.
 * *Leaves out*: extrapolation: a place outside the table is a RangeError.
 * *Source*: F.N. Fritsch & R.E. Carlson, "Monotone piecewise cubic interpolation", SIAM J. Numer. Anal. 17, 1980; slopes (2) of F.N. Fritsch &
 * J. Butland, "A method for constructing local monotone piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5, 1984, in the
 * weighted form of Brodlie; ends (3) as in C. Moler, Numerical Computing with MATLAB, SIAM 2004, section 3.6.
 *
 * @module
 */

export interface MonotoneCubic {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** d — slope at each point [unit of y per unit of x] */
  readonly slope: Float64Array;
}

function requireTable(x: ArrayLike<number>, y: ArrayLike<number>): void {
  if (x.length !== y.length || x.length < 2) {
    throw new RangeError(`A table needs two points or more, as many x as y; it has ${x.length} x and ${y.length} y.`);
  }
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i]) || !Number.isFinite(y[i])) throw new RangeError(`Point ${i + 1} of a table is (${x[i]}, ${y[i]}).`);
    if (i > 0 && !(x[i] > x[i - 1])) throw new RangeError(`The x of a table must rise, but ${x[i]} follows ${x[i - 1]}.`);
  }
}

/** The interval k with x[k] ≤ at ≤ x[k + 1], by bisection; throws RangeError outside the table. */
export function intervalAt(x: ArrayLike<number>, at: number): number {
  let low = 0;
  let high = x.length - 1;
  if (!(at >= x[low] && at <= x[high])) throw new RangeError(`${at} lies outside the table, which runs from ${x[low]} to ${x[high]}.`);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle] <= at) low = middle;
    else high = middle;
  }
  return low;
}

/** (3): h and delta of the interval at the end, then of the next one in. */
function endSlope(h: number, delta: number, nextH: number, nextDelta: number): number {
  const slope = ((2 * h + nextH) * delta - h * nextDelta) / (h + nextH);
  if (Math.sign(slope) !== Math.sign(delta)) return 0;
  return Math.sign(delta) !== Math.sign(nextDelta) && Math.abs(slope) > 3 * Math.abs(delta) ? 3 * delta : slope;
}

/** (2), (3): makes the cubic of a table; throws RangeError where x does not rise or a number is missing. */
export function monotoneCubic(x: ArrayLike<number>, y: ArrayLike<number>): MonotoneCubic {
  requireTable(x, y);
  const last = x.length - 1;
  const h = (k: number) => x[k + 1] - x[k];
  const delta = (k: number) => (y[k + 1] - y[k]) / h(k);
  const slope = new Float64Array(x.length);
  if (last === 1) {
    slope.fill(delta(0));
  } else {
    slope[0] = endSlope(h(0), delta(0), h(1), delta(1));
    slope[last] = endSlope(h(last - 1), delta(last - 1), h(last - 2), delta(last - 2));
    for (let k = 1; k < last; k++) {
      const left = delta(k - 1);
      const right = delta(k);
      const weightLeft = 2 * h(k) + h(k - 1);
      const weightRight = h(k) + 2 * h(k - 1);
      slope[k] = left * right > 0 ? (weightLeft + weightRight) / (weightLeft / left + weightRight / right) : 0;
    }
  }
  return { x: Float64Array.from(x), y: Float64Array.from(y), slope };
}

/** (1): the value of the cubic; throws RangeError outside the table. */
export function monotoneCubicAt({ x, y, slope }: MonotoneCubic, at: number): number {
  const k = intervalAt(x, at);
  const h = x[k + 1] - x[k];
  const s = (at - x[k]) / h;
  const delta = (y[k + 1] - y[k]) / h;
  const excessLeft = delta - slope[k];
  const excessRight = slope[k + 1] - delta;
  return y[k] + h * s * (slope[k] + s * (2 * excessLeft - excessRight + s * (excessRight - excessLeft)));
}
