/** Bursts at full throttle and rests between them: how hot the settled cycle gets, and the shortest rest that keeps every limit. @module */

import { HEAT_LIMITS } from '../../drive/heat-limits.js';
import type { RatingResult } from '../../results/rating-result.js';
import type { HeldDrive } from './held-drive.js';
import { ratedPoint } from './rated-point.js';
import { settleCycle } from './settled-cycle.js';

/** Seconds on and off that the map holds. */
const BURSTS = [5, 10, 20, 45, 100, 240];
const RESTS = [5, 15, 45, 120, 360, 1200];
/** Share of a rest to which it is searched [1]. */
const LENGTH = 0.02;

/** The map of one drive; leaves the drive in some state. */
export function burstMap(drive: HeldDrive): RatingResult['bursts'] {
  const peaks = new Float64Array(HEAT_LIMITS.length);
  const all: (Float64Array | undefined)[][] = RESTS.map(() => []);
  drive.cold();
  drive.hold(1);
  drive.settleSpeed();
  const { motorCurrent } = ratedPoint(drive);
  for (let r = 0; r < RESTS.length; r++) {
    drive.cold();
    for (let k = 0; k < BURSTS.length; k++) {
      const fine = settleCycle(drive, 1, BURSTS[k], RESTS[r], peaks);
      if (!fine) drive.cold();
      all[r].push(fine ? peaks.slice() : undefined);
    }
  }
  // the limit that the map shows is the one that the middle of it comes nearest
  let nearestLimit = 0;
  let least = Number.POSITIVE_INFINITY;
  const middle = all[RESTS.length >> 1][BURSTS.length >> 1];
  HEAT_LIMITS.forEach((id, k) => {
    const margin = middle === undefined ? 0 : drive.bounds[id] - middle[k];
    if (margin < least) {
      least = margin;
      nearestLimit = k;
    }
  });
  const worst = (cell: Float64Array | undefined): number =>
    cell === undefined ? Number.NEGATIVE_INFINITY : Math.min(...HEAT_LIMITS.map((id, k) => drive.bounds[id] - cell[k]));
  /** Shortest rest, between one that is too short and one that is not, to within LENGTH of it. */
  const searched = (on: number, tooShort: number, enough: number): number => {
    let [low, high] = [tooShort, enough];
    while (high - low > LENGTH * high) {
      const middle = Math.sqrt(low * high);
      drive.cold();
      if (settleCycle(drive, 1, on, middle, peaks) && worst(peaks) >= 0) high = middle;
      else low = middle;
    }
    return high;
  };
  const leastRest = BURSTS.map((on, column) => {
    const margins = all.map((row) => worst(row[column]));
    const first = margins.findIndex((margin) => margin >= 0);
    if (first < 0) return { on };
    if (first === 0) return { on, rest: RESTS[0] };
    return { on, rest: searched(on, RESTS[first - 1], RESTS[first]) };
  });
  return {
    throttle: 1,
    motorCurrent,
    on: BURSTS,
    rest: RESTS,
    binding: HEAT_LIMITS[nearestLimit],
    limit: drive.bounds[HEAT_LIMITS[nearestLimit]],
    settled: all.flatMap((row, r) =>
      row.flatMap((cell, k) => (cell === undefined ? [] : [{ on: BURSTS[k], rest: RESTS[r], peak: cell[nearestLimit] }])),
    ),
    leastRest,
  };
}
