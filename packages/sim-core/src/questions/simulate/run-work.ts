/** How far a run is followed, and what it may cost. @module */

import { SECONDS_PER_HOUR } from '../../quantities/constants.js';

/** A step whose way of driving changes more often than this has none that lasts [1]. */
export const MOST_CHANGES = 500;
/** Between two breaks an implicit method needs some hundreds of steps at most; one that takes more meets a jump of the laws again and again [1]. */
export const MOST_STEPS_OF_CALL = 20_000;

/**
 * Evaluations of the laws that a run is given, and more for each step of its profile: tens of times what a run of its length needs. Beyond it the laws jump
 * to and fro without end, or a short profile is driven again and again from a pack that outlasts it.
 */
const MOST_EVALUATIONS = 100_000;
const MOST_EVALUATIONS_OF_STEP = 500;
/** Rounds of a profile after which a stiff step is no longer begun with a method that has to find that out [1]. */
export const OFTEN = 8;
/** As many times more where the profile is driven again and again. */
const AGAIN = 3;
/** How long that is done where nobody asks for more [s]. */
const LONGEST = 24 * SECONDS_PER_HOUR;

/** Most evaluations [1] of a run of `steps` steps, driven once or `again` and again. */
export const mostEvaluations = (steps: number, again: boolean): number =>
  (again ? AGAIN : 1) * (MOST_EVALUATIONS + MOST_EVALUATIONS_OF_STEP * steps);

/** How long a profile is driven again and again [s] where it must last for `runTime` [s]. */
export const followedFor = (runTime: number): number => Math.max(LONGEST, runTime);
