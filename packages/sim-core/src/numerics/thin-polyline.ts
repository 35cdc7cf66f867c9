/**
 * Fewer points for several curves over one time: straight pieces between points that are kept, never farther from a dropped point than a
 * tolerance.
 *
 * (1) from a kept point each dropped one leaves a cone of slopes, (y_k ± ε − y_0)/(t_k − t_0); a point inside all cones so far may end a piece
 *
 * *Holds for* times that increase. One pass, in which no look ahead is longer than `LONGEST_LOOK` points.
 * *Source*: the "cone intersection" of J. Sklansky & V. Gonzalez, "Fast polygonal approximation of digitized curves", Pattern Recognition 12,
 * 1980 (from memory).
 *
 * @module
 */

const LONGEST_LOOK = 4000;

/**
 * Indices kept, first and last among them. `tolerances` has one ε a curve, in its unit; points that `keep` marks (not 0) are never dropped.
 * Throws RangeError where there are fewer than two points.
 */
export function thinPolyline(
  time: Float64Array,
  curves: readonly Float64Array[],
  tolerances: readonly number[],
  keep?: Uint8Array,
): Int32Array {
  const count = time.length;
  if (count < 2) throw new RangeError('a curve has two points at least');
  const kept: number[] = [0];
  const low = new Float64Array(curves.length);
  const high = new Float64Array(curves.length);
  let start = 0;
  while (start < count - 1) {
    low.fill(Number.NEGATIVE_INFINITY);
    high.fill(Number.POSITIVE_INFINITY);
    let end = start + 1;
    const last = Math.min(count - 1, start + LONGEST_LOOK);
    for (let k = start + 1; k <= last; k++) {
      const passed = time[k] - time[start];
      let inside = true;
      let open = true;
      for (let c = 0; c < curves.length; c++) {
        const rise = curves[c][k] - curves[c][start];
        const slope = rise / passed;
        // a billionth of ε covers the rounding of points that lie on a line
        const slack = (1e-9 * (tolerances[c] + Math.abs(rise))) / passed;
        if (slope < low[c] - slack || slope > high[c] + slack) inside = false;
        low[c] = Math.max(low[c], (rise - tolerances[c]) / passed);
        high[c] = Math.min(high[c], (rise + tolerances[c]) / passed);
        if (low[c] > high[c]) open = false;
      }
      if (inside) end = k;
      if (!open || keep?.[k]) break;
    }
    kept.push(end);
    start = end;
  }
  return Int32Array.from(kept);
}

/** Largest deviation of a curve from its kept points joined by lines, and its mean over time (signed), both in its unit. */
export function polylineDeviation(
  time: Float64Array,
  curve: Float64Array,
  kept: Int32Array,
): { readonly largest: number; readonly mean: number } {
  let largest = 0;
  let area = 0;
  for (let piece = 1; piece < kept.length; piece++) {
    const [from, to] = [kept[piece - 1], kept[piece]];
    const slope = (curve[to] - curve[from]) / (time[to] - time[from]);
    let before = 0;
    for (let k = from + 1; k <= to; k++) {
      const off = curve[from] + slope * (time[k] - time[from]) - curve[k];
      if (Math.abs(off) > largest) largest = Math.abs(off);
      area += 0.5 * (off + before) * (time[k] - time[k - 1]);
      before = off;
    }
  }
  return { largest, mean: area / (time[time.length - 1] - time[0]) };
}
