/** The missing or doubtful numbers that cost the answer most, and how to firm each of them up. Plain data, SI. */
import type { Dimension } from '../quantities/index.js';
import type { Effort } from './doubt-result.js';
import type { LimitId } from './run-result.js';

/** A cheap way to measure one datum. */
export interface MeasurementAdvice {
  /** How, in a sentence or two. */
  readonly how: string;
  readonly effort: Effort;
  readonly needsTheMotor: boolean;
  /** What it gets the number down to: 95 % half-width as a share of the value. */
  readonly accuracy: number;
  /** "common practice, no published source" and the like. */
  readonly source: string;
}

/** What one unknown does to one candidate's binding figure when it goes to the ends of its 95 % interval, all else nominal. */
export interface CostlyEffect {
  readonly candidate: string;
  /** The figure: the peak of the body nearest to its temperature limit. */
  readonly limit: LimitId;
  readonly words: string;
  readonly nominal: number;
  /** With the unknown at its lower and its upper end [K]. */
  readonly low: number;
  readonly high: number;
}

export interface CostlyNumber {
  /** Key of the unknown: a place in the scenario ("boat.yaml:51:19") or a rule ("rule:press-fit"). */
  readonly key: string;
  readonly words: string;
  /** Path of a datum it stands for ("motor.resistance"). */
  readonly path: string;
  readonly candidates: readonly string[];
  /** "missing" where a rule stood in, "doubtful" where it was given with a wide tolerance. */
  readonly standing: 'missing' | 'doubtful';
  readonly dimension: Dimension;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly effects: readonly CostlyEffect[];
  /** Half the largest span of the effects [K]: now, and once it is measured. */
  readonly before: number;
  readonly after: number;
  /** The candidate that would lead, where either end of the interval changes the choice. */
  readonly changesChoiceTo?: string;
  readonly advice: MeasurementAdvice;
}

export interface CostlyResult {
  /** The costliest first. */
  readonly numbers: readonly CostlyNumber[];
  /** Half-spans of all unknowns that were drawn [K], by path, the largest first; for leaving out what does not matter. */
  readonly all: readonly { readonly key: string; readonly path: string; readonly before: number }[];
  readonly simulations: number;
}
