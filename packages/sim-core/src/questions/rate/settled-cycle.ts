/**
 * Bursts and rests for ever: the cycle that repeats itself, by Newton's method on the state at its beginning.
 *
 *   (1) x(end of cycle) − x(its beginning) = 0          (2) (I − M)·δ = x_end − x_begin,  M — propagator of the cycle
 *
 * Hull and wheels stand while the drive rests and gather way in each burst; a wing keeps the speed that the throttle gives. *Leaves out* coasting to
 * a stand, in which the driver turns the motor.
 *
 * Where (2) goes round, the cycles are driven as they come, which settles whatever has a stable cycle. Two that follow each other in turn, as where a
 * pack that was warmed by one burst warms less in the next, are settled too: the peaks are those of both.
 * *Source* shooting for periodic solutions: R. Seydel, Practical Bifurcation and Stability Analysis, 3rd ed., ch. 7 (from memory).
 *
 * @module
 */

import { HEAT_LIMIT_BODY, HEAT_LIMITS } from '../../drive/heat-limits.js';
import { bodyPlaces } from '../../kernel/state-places.js';
import type { ExponentialStep } from '../../numerics/exponential-rosenbrock.js';
import { solveLinear } from '../../numerics/small-matrix.js';
import type { HeldDrive } from './held-drive.js';

/** A cycle counts as settled when (2) puts its beginning no farther away than this [K]; and where Newton's method went round, than that: a slow body's cycle may end close to where it began and still be far from settled. */
const CLOSE = 0.2;
const CLOSE_DRIVEN = 1;
/** Turns of Newton's method, and cycles driven one after the other where it goes round without coming nearer. */
const TURNS = 25;
const MOST_CYCLES = 3000;
/** Speed from which a vehicle gathers way [m/s]: the laws of wheels have a corner at rest, where no difference quotient is worth anything. */
const CREEP = 0.01;
/** Hotter than any part survives [K]. */
const HOTTEST = 900;

/**
 * Carries the drive to its settled cycle of `on` seconds at `throttle` and `rest` seconds off, begun at the burst, from the state it has; writes the
 * highest temperature of each limit's body over that cycle [K] into `peaks`. False where there is no settled cycle: it runs away. Throws where it
 * neither settles nor runs away: that would be an error of the program, and no rating.
 */
export function settleCycle(drive: HeldDrive, throttle: number, on: number, rest: number, peaks: Float64Array): boolean {
  const { live, state, kernel } = drive;
  const m = live.length;
  const propagator = new Float64Array(m * m);
  const matrix = new Float64Array(m * m);
  const begun = new Float64Array(m);
  const miss = new Float64Array(m);
  const glides = drive.system.vehicle.carriedBy === 'wing';
  const speedIndex = kernel.at.speed;
  const bodies = new Set<number>(bodyPlaces(kernel.at));
  const at = HEAT_LIMITS.map((id) => live.indexOf(kernel.at[HEAT_LIMIT_BODY[id]]));
  const dense = new Float64Array(m);
  const begunBefore = new Float64Array(m);
  const peaksBefore = new Float64Array(peaks.length);
  const watch = (step: ExponentialStep): boolean => {
    for (let k = 0; k < at.length; k++) {
      const place = at[k];
      if (place < 0) continue;
      peaks[k] = Math.max(peaks[k], step.end[place]);
      // a peak inside a step lies about where a straight line through the slopes at both ends is zero
      const [rise, fall] = [step.startRate[place], step.endRate[place]];
      if (rise > 0 && fall < 0) {
        step.at(step.from + (rise / (rise - fall)) * (step.to - step.from), dense);
        peaks[k] = Math.max(peaks[k], dense[place]);
      }
    }
    return true;
  };
  for (let turn = 0; turn < TURNS + MOST_CYCLES; turn++) {
    begunBefore.set(begun);
    peaksBefore.set(peaks);
    for (let k = 0; k < m; k++) begun[k] = state[live[k]];
    propagator.fill(0);
    for (let k = 0; k < m * m; k += m + 1) propagator[k] = 1;
    for (let k = 0; k < at.length; k++) peaks[k] = drive.temperature(HEAT_LIMITS[k]);
    drive.hold(throttle);
    // a wing has the speed that the throttle gives, all the while; hull and wheels stand between bursts and gather it anew
    if (!drive.settleSpeed()) return false;
    if (!glides && rest > 0) state[speedIndex] = Math.min(CREEP, state[speedIndex]);
    if (Number.isNaN(drive.advance(on, watch, propagator))) return false;
    if (rest > 0) {
      drive.hold(0);
      if (!glides) state[speedIndex] = 0;
      if (Number.isNaN(drive.advance(rest, watch, propagator))) return false;
    }
    // the speed at the start of a burst is no state of the cycle: it is rest, or follows from the temperatures
    for (let k = 0; k < m; k++) miss[k] = live[k] === speedIndex ? 0 : state[live[k]] - begun[k];
    for (let k = 0; k < m * m; k++) matrix[k] = k % m === m - 1 && live[m - 1] === speedIndex ? 0 : -propagator[k];
    for (let k = 0; k < m * m; k += m + 1) matrix[k] += 1;
    if (!solveLinear(m, matrix, miss)) return false;
    let largest = 0;
    for (let k = 0; k < m; k++) if (bodies.has(live[k])) largest = Math.max(largest, Math.abs(miss[k]));
    if (largest < (turn < TURNS ? CLOSE : CLOSE_DRIVEN)) return true;
    if (turn >= TURNS) {
      // the state is the cycle's end: the next one begins there
      if (HEAT_LIMITS.some((id) => !(drive.temperature(id) < HOTTEST))) return false;
      continue;
    }
    for (let k = 0; k < m; k++) {
      const next = begun[k] + miss[k];
      if (bodies.has(live[k]) && !(next > 150 && next < HOTTEST)) return false;
      state[live[k]] = next;
    }
  }
  if (live.every((at, k) => !bodies.has(at) || Math.abs(state[at] - begunBefore[k]) < CLOSE)) {
    for (let k = 0; k < peaks.length; k++) peaks[k] = Math.max(peaks[k], peaksBefore[k]);
    return true;
  }
  throw new Error(`A cycle of ${on} s at ${throttle} throttle and ${rest} s off neither settles nor runs away.`);
}
