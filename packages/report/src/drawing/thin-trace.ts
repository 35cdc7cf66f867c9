/** Fewer points for drawing only: what lies on a straight line is left out, and no peak is lost. @module */

/** One point of a line. */
import { lastOf } from '@shaftwork/sim-core/problems';
export interface DrawnPoint {
  readonly x: number;
  readonly y: number;
}

/** A point nearer to the line between its neighbours is not seen [px]. */
const UNSEEN = 0.2;

/**
 * The trace for a frame of `height` px, less what lies on straight lines: every dropped point is nearer than `UNSEEN` to the line that is drawn in its
 * place, so that a step stays upright and a ramp keeps its two ends; the lowest and the highest are never dropped.
 */
export function thinTrace(times: readonly number[], values: readonly number[], height: number): readonly DrawnPoint[] {
  const points = times.map((x, index) => ({ x, y: values[index] })).filter(({ x, y }) => Number.isFinite(x) && Number.isFinite(y));
  if (points.length < 3) return points;
  let lowest = 0;
  let highest = 0;
  points.forEach(({ y }, index) => {
    if (y < points[lowest].y) lowest = index;
    if (y > points[highest].y) highest = index;
  });
  const tolerance = ((points[highest].y - points[lowest].y) * UNSEEN) / height;
  const kept = [points[0]];
  let anchor = points[0];
  // Slopes that keep every point since the anchor within the tolerance.
  let steepest = Number.POSITIVE_INFINITY;
  let flattest = Number.NEGATIVE_INFINITY;
  for (let next = 1; next < points.length; next++) {
    const before = points[next - 1];
    const { x, y } = points[next];
    const slope = (y - anchor.y) / (x - anchor.x);
    const straight = x > anchor.x && slope <= steepest && slope >= flattest;
    const needed = next - 1 === lowest || next - 1 === highest;
    if (before !== anchor && (needed || !straight)) {
      anchor = before;
      kept.push(anchor);
      steepest = Number.POSITIVE_INFINITY;
      flattest = Number.NEGATIVE_INFINITY;
    }
    const run = x - anchor.x;
    // A jump: nothing after it is on one line with what was before.
    steepest = run > 0 ? Math.min(steepest, (y - anchor.y + tolerance) / run) : Number.NEGATIVE_INFINITY;
    if (run > 0) flattest = Math.max(flattest, (y - anchor.y - tolerance) / run);
  }
  kept.push(lastOf(points));
  return kept;
}
