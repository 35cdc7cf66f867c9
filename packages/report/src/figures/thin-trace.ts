/** Fewer points for drawing only: no peak is lost, and what lies on a straight line is left out. */
export interface DrawnPoint {
  readonly x: number;
  readonly y: number;
}

/** A point nearer than this share of the range to the line between its neighbours is not seen. */
const UNSEEN = 1 / 1500;

/**
 * The trace in at most about `most` points: the range of time is cut into equal parts, of each the first, lowest, highest
 * and last point are kept in their order; then points on straight lines are dropped.
 */
export function thinTrace(times: readonly number[], values: readonly number[], most: number): readonly DrawnPoint[] {
  const points = times.map((x, index) => ({ x, y: values[index]! })).filter(({ x, y }) => Number.isFinite(x) && Number.isFinite(y));
  return withoutStraight(points.length <= most ? points : extremes(points, Math.max(1, Math.floor(most / 4))));
}

function extremes(points: readonly DrawnPoint[], parts: number): readonly DrawnPoint[] {
  const start = points[0]!.x;
  const span = points.at(-1)!.x - start;
  const partOf = ({ x }: DrawnPoint): number => Math.min(parts - 1, Math.floor(((x - start) / span) * parts));
  const kept: DrawnPoint[] = [];
  for (let from = 0, to = 0; from < points.length; from = to) {
    const part = partOf(points[from]!);
    let lowest = from;
    let highest = from;
    for (to = from; to < points.length && partOf(points[to]!) === part; to++) {
      if (points[to]!.y < points[lowest]!.y) lowest = to;
      if (points[to]!.y > points[highest]!.y) highest = to;
    }
    const places = [...new Set([from, lowest, highest, to - 1])].sort((a, b) => a - b);
    kept.push(...places.map((place) => points[place]!));
  }
  return kept;
}

/** Every dropped point lies within the tolerance of the line that is drawn in its place; the lowest and the highest are never dropped. */
function withoutStraight(points: readonly DrawnPoint[]): readonly DrawnPoint[] {
  if (points.length < 3) return points;
  let lowest = 0;
  let highest = 0;
  points.forEach(({ y }, index) => {
    if (y < points[lowest]!.y) lowest = index;
    if (y > points[highest]!.y) highest = index;
  });
  const tolerance = (points[highest]!.y - points[lowest]!.y) * UNSEEN;
  const kept = [points[0]!];
  let anchor = points[0]!;
  // Slopes that keep every point since the anchor within the tolerance.
  let steepest = Number.POSITIVE_INFINITY;
  let flattest = Number.NEGATIVE_INFINITY;
  for (let next = 1; next < points.length; next++) {
    const before = points[next - 1]!;
    const { x, y } = points[next]!;
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
  kept.push(points.at(-1)!);
  return kept;
}
