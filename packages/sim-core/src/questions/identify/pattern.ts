/**
 * Whether what a fit leaves has a pattern along something, against chance, in standard deviations.
 *
 *   (1) along time: r₁·√n, r₁ = Σ e_k·e_(k+1)/Σ e_k²
 *   (2) along what was read itself: rows that lie together are one point; χ² = Σ n_b·ē_b²/s² over B points, (χ² − B)/√(2·B)
 *
 * (2), since rows sorted by a reading with scatter are alike by that scatter alone. *Holds for* ten residuals, or three points, or more.
 * *Source* (1) J. Durbin & G. S. Watson, Biometrika 37, 1950; (2) the test for lack of fit, N. R. Draper & H. Smith, Applied Regression Analysis,
 * 3rd ed., ch. 2; both from memory.
 * @module
 */
export interface Left {
  readonly along: number;
  readonly group: string;
  readonly left: number;
}

const LEAST = 10;

/** (1) of residuals in the order of time. 0 for fewer than ten. */
export function patternInTime(left: readonly number[]): number {
  if (left.length < LEAST) return 0;
  let [product, squares] = [0, 0];
  left.forEach((each, k) => {
    squares += each * each;
    if (k > 0) product += each * left[k - 1];
  });
  return squares === 0 ? 0 : (product / squares) * Math.sqrt(left.length);
}

/** Rows nearer than this lie together, as far as a point is wide at most; shares of the greatest. */
const GAP = 0.008;
const WIDEST = 0.05;

/** (2) of residuals over their noise; `scale` is s. 0 for fewer than ten rows or three points. */
export function patternAlong(all: readonly Left[], scale: number): number {
  if (all.length < LEAST) return 0;
  const most = Math.max(...all.map(({ along }) => Math.abs(along)));
  const sorted = [...all].sort((a, b) => (a.group === b.group ? a.along - b.along : a.group < b.group ? -1 : 1));
  let [sum, points, from] = [0, 0, 0];
  for (let k = 1; k <= sorted.length; k++) {
    const here = sorted[k];
    const before = sorted[k - 1];
    const ends =
      here === undefined ||
      here.group !== before.group ||
      here.along - before.along > GAP * most ||
      here.along - sorted[from].along > WIDEST * most;
    if (!ends) continue;
    const size = k - from;
    let mean = 0;
    for (let m = from; m < k; m++) mean += sorted[m].left / size;
    sum += (size * mean * mean) / (scale * scale);
    points++;
    from = k;
  }
  return points < 3 ? 0 : (sum - points) / Math.sqrt(2 * points);
}
