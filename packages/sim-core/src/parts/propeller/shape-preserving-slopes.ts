/**
 * Slopes for a cubic Hermite interpolant that never overshoots its data.
 *
 * (1) s_i = (y_{i+1} − y_i)/h_i,  h_i = x_{i+1} − x_i
 * (2) p_i = (s_{i−1} h_i + s_i h_{i−1})/(h_{i−1} + h_i)            slope of the parabola through three points
 * (3) y'_i = (sgn s_{i−1} + sgn s_i) · min(|s_{i−1}|, |s_i|, ½|p_i|)
 * (4) at an end: the parabola's end slope, 0 where it opposes the first secant, at most twice that secant
 *
 * *Holds for*: strictly increasing x. *Leaves out*: a peak between two points (slope 0 is set at the higher point).
 * *Source*: M. Steffen, "A simple method for monotonic interpolation in one dimension", Astronomy and Astrophysics 239
 * (1990), eqs. 6–11, 24–26.
 *
 * @module
 */

/** Slopes y′ at every x, in the unit of y over that of x. Throws RangeError where x does not rise or fewer than two points are given. */
export function shapePreservingSlopes(x: Float64Array, y: Float64Array): Float64Array {
  const last = x.length - 1;
  const slopes = new Float64Array(x.length);
  if (last < 1) return slopes;
  const width = (i: number) => x[i + 1] - x[i];
  const secant = (i: number) => (y[i + 1] - y[i]) / width(i);
  if (last === 1) return slopes.fill(secant(0));

  for (let i = 1; i < last; i++) {
    const before = secant(i - 1);
    const after = secant(i);
    const parabola = (before * width(i) + after * width(i - 1)) / (width(i - 1) + width(i));
    const size = Math.min(Math.abs(before), Math.abs(after), Math.abs(parabola) / 2);
    slopes[i] = (Math.sign(before) + Math.sign(after)) * size;
  }
  slopes[0] = endSlope(secant(0), secant(1), width(0), width(1));
  slopes[last] = endSlope(secant(last - 1), secant(last - 2), width(last - 1), width(last - 2));
  return slopes;
}

/** Equation 4. */
function endSlope(nearSecant: number, farSecant: number, nearWidth: number, farWidth: number): number {
  const share = nearWidth / (nearWidth + farWidth);
  const parabola = nearSecant * (1 + share) - farSecant * share;
  if (parabola * nearSecant <= 0) return 0;
  return Math.abs(parabola) > 2 * Math.abs(nearSecant) ? 2 * nearSecant : parabola;
}
