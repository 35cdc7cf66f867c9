/** The missing or doubtful numbers that cost the answer most, and how to firm each of them up. Plain data, SI. */
import type { Dimension } from '../quantities/index.js';
import type { Effort } from './doubt-result.js';
import type { LimitId } from './run-result.js';

/** A cheap way to measure one datum. */
export interface MeasurementAdvice {
  /** How, in a sentence. */
  readonly how: string;
  readonly effort: Effort;
  readonly needsTheMotor: boolean;
  /** What it gets the number down to: 95 % half-width as a share of the value. */
  readonly accuracy: number;
}

/** What an unknown does to one candidate's binding figure when it goes to the ends of its 95 % interval, all else nominal. */
export interface CostlyEffect {
  readonly candidate: string;
  /** The figure: the peak of the body nearest to its temperature limit. */
  readonly limit: LimitId;
  readonly words: string;
  /** Peak [K]: nominal, and with the unknown at its lower and its upper end. */
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  /** Half of the span [K]: now, and once the number is measured. */
  readonly before: number;
  readonly after: number;
}

export interface CostlyNumber {
  /** The given datum's path of keys ("motor.resistance"), or the name of the rule that stood in. */
  readonly subject: string;
  readonly words: string;
  /** "missing" where a rule stood in, "doubtful" where it was given with a wide tolerance. */
  readonly standing: 'missing' | 'doubtful';
  /** Half-width of its 95 % interval: a share of the value [1], or an amount in the SI unit of `dimension`. */
  readonly dimension: Dimension;
  readonly tolerance: { readonly in: 'share' | 'amount'; readonly halfWidth: number };
  /** The two leading candidates as far as it concerns them, the most moved first. */
  readonly effects: readonly CostlyEffect[];
  /** Those of the largest effect [K]. */
  readonly before: number;
  readonly after: number;
  /** The candidate that would lead at one end of the interval, where the choice changes there. */
  readonly changesChoiceTo?: string;
  /** True where the first of the ranking meets every limit at one end of the interval and not at the other. */
  readonly decidesLimits: boolean;
  readonly advice: MeasurementAdvice;
}

export interface CostlyResult {
  /** The costliest first. */
  readonly numbers: readonly CostlyNumber[];
  /** Half-spans of all that was drawn [K], the largest first; for leaving out what does not matter. */
  readonly all: readonly { readonly subject: string; readonly words: string; readonly before: number }[];
  /** Names, the best first, with nominal data. */
  readonly ranking: readonly string[];
  readonly simulations: number;
}
