/** A bench day planned: what is to be decided, and the runs that tell most of it, in order. @module */

import type { Si } from '../quantities/index.js';

/** One run of the plan. */
export interface PlannedRun {
  /** What to do. */
  readonly words: string;
  /** Standard deviation of what is to be decided once this and all before it are done, as a share of that before any [1]. */
  readonly left: number;
  /** The numbers that it narrows most for the decision, and what of each interval is left [1]. */
  readonly narrows: readonly { readonly words: string; readonly left: number }[];
  /** Winding at its hottest in this run [K]. */
  readonly winding: Si<'temperature'>;
  /** How long it lasts at most [s]. */
  readonly duration: Si<'time'>;
}

/** A planned bench day. */
export interface BenchPlan {
  /** Whose drive it is. */
  readonly candidate: string;
  /** The limit that is least sure, in words. */
  readonly decides: string;
  /** What is left of the way to that limit [1]; its standard deviation before any run is the next. */
  readonly margin: number;
  /** [1] */
  readonly deviation: number;
  readonly runs: readonly PlannedRun[];
  /** Standard deviation after six throttles evenly spread with the propeller on, over that after the plan [1]. */
  readonly better: number;
  /** Limit of the winding [K]. */
  readonly limit: Si<'temperature'>;
}
