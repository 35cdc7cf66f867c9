/**
 * Finds the first event within an accepted step: the place where a margin falls through zero, by root-finding on the dense output.
 *
 * Margins are taken at both ends and the middle of a step; where all three are positive but a parabola through them dips towards zero,
 * at its lowest point too, so that a margin that falls and recovers within a step is seen. An event whose margin is not positive at the
 * start cannot fire before it has been positive, nor one that has just fired at that very instant.
 *
 * @module
 */

import { IntegrationFailure } from './integration-failure.js';
import type { OdeSystem, StepView } from './ode-system.js';
import { brent } from './roots.js';

export interface EventFound {
  /** first time at which the margin is no longer positive, to the root search's tolerance [s] */
  readonly time: number;
  readonly state: Float64Array;
  /** the event, then any others that fell through zero by that time in the same step */
  readonly crossed: readonly number[];
}

/** A root of the dense output is found to this share of the step, and to this time [s], whichever is the finer. */
const SHARE_OF_STEP = 1e-10;
const SECONDS = 1e-9;
/** A parabola whose lowest value lies below this share of the smallest sample earns one more sample. */
const DIP = 0.5;

/** Watches the events of one system, step by step; made once, used from integration to integration. */
export interface EventWatch {
  /** An integration begins at (time, state). Throws IntegrationFailure where a margin is not a number. */
  begin(time: number, state: Float64Array): void;
  /** The first event within the next step, if any. Throws as `begin`. */
  find(step: StepView): EventFound | undefined;
  /** That step is taken again: what was found in it has not been. */
  forget(step: StepView): void;
}

const NOTHING: EventWatch = { begin: () => {}, find: () => undefined, forget: () => {} };

export function eventWatch(system: OdeSystem): EventWatch {
  const { eventCount: count, margins } = system;
  if (count === 0 || margins === undefined) return NOTHING;
  const point = new Float64Array(system.dimension);
  const [middle, extra] = [new Float64Array(count), new Float64Array(count)];
  let before = new Float64Array(count);
  let after = new Float64Array(count);
  const firedAt = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  const firedBefore = firedAt.slice();
  const inside = system.watchInside !== false;

  const marginsAt = (t: number, y: Float64Array, out: Float64Array): void => {
    margins(t, y, out);
    for (let i = 0; i < count; i++) if (Number.isNaN(out[i])) throw new IntegrationFailure('margin-not-finite', t);
  };
  const stateAt = (step: StepView, t: number): Float64Array => {
    if (t === step.from) return step.start;
    if (t === step.to) return step.end;
    step.at(t, point);
    return point;
  };

  /** The fall of margin `event` between lo (positive) and hi (not positive), on the side where it is no longer positive: a restart there does not fire again. */
  const locate = (step: StepView, event: number, lo: number, hi: number): number => {
    const margin = (t: number): number => {
      marginsAt(t, stateAt(step, t), extra);
      return extra[event];
    };
    // a margin that is solved for may come out another way by rounding when it is asked again: the fall is then at that very end
    const [atLo, atHi] = [margin(lo), margin(hi)];
    if (atLo <= 0) return lo;
    if (atHi > 0) return hi;
    const tolerance = Math.min(SECONDS, SHARE_OF_STEP * (step.to - step.from));
    let t = brent((at) => (at === lo ? atLo : at === hi ? atHi : margin(at)), lo, hi, tolerance);
    for (let nudge = Math.max(tolerance, 2 * Number.EPSILON * Math.abs(t)); t < hi && margin(t) > 0; nudge *= 2)
      t = Math.min(hi, t + nudge);
    return t;
  };

  const firstFall = (step: StepView, event: number, half: number): number => {
    const a = before[event];
    const b = after[event];
    if (!inside) return a > 0 && b <= 0 ? locate(step, event, step.from, step.to) : Number.POSITIVE_INFINITY;
    const m = middle[event];
    if (a > 0 && m <= 0) return locate(step, event, step.from, half);
    if (m > 0 && b <= 0) return locate(step, event, half, step.to);
    if (a > 0) {
      const slope = 0.5 * (b - a);
      const bend = a - 2 * m + b;
      if (Math.abs(slope) < bend && m - (0.5 * slope * slope) / bend < DIP * Math.min(a, m, b)) {
        const lowest = half - (slope / bend) * (half - step.from);
        marginsAt(lowest, stateAt(step, lowest), extra);
        if (extra[event] <= 0) return locate(step, event, slope > 0 ? step.from : half, lowest);
      }
    }
    return Number.POSITIVE_INFINITY;
  };

  const pass = (): undefined => {
    [before, after] = [after, before];
  };

  function find(step: StepView): EventFound | undefined {
    // the end first: it is the place evaluated last
    marginsAt(step.to, step.end, after);
    firedBefore.set(firedAt);
    const half = step.from + 0.5 * (step.to - step.from);
    if (inside) marginsAt(half, stateAt(step, half), middle);
    let first = Number.POSITIVE_INFINITY;
    let winner = -1;
    for (let event = 0; event < count; event++) {
      const fall = firstFall(step, event, half);
      // what fired at this very instant stands at zero, and rounding may show it on either side
      if (fall < first && fall > firedAt[event] + SECONDS) {
        first = fall;
        winner = event;
      }
    }
    if (winner < 0) return pass();
    const found = Float64Array.from(stateAt(step, first));
    marginsAt(first, found, extra);
    const crossed = [winner];
    for (let event = 0; event < count; event++) {
      const wasPositive = before[event] > 0 || (inside && first > half && middle[event] > 0);
      if (event !== winner && wasPositive && extra[event] <= 0) crossed.push(event);
    }
    for (const event of crossed) firedAt[event] = first;
    return { time: first, state: found, crossed };
  }

  const begin = (time: number, state: Float64Array): void => marginsAt(time, state, before);
  const forget = ({ from, start }: StepView): void => {
    firedAt.set(firedBefore);
    begin(from, start);
  };
  return { begin, find, forget };
}
