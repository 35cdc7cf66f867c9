/** The numbers that cost the answer most, where each of them tips it, and how to firm it up. Plain data, SI. @module */

import type { Dimension, UnitOf } from '../quantities/index.js';
import type { Effort } from './doubt-result.js';
import type { LimitId } from './limits.js';

/** A cheap way to measure one datum. */
export interface MeasurementAdvice {
  /** How, as a sentence without its capital and full stop. */
  readonly how: string;
  readonly effort: Effort;
  readonly needsTheMotor: boolean;
  /** What it gets the number down to: 95 % half-width as a share of the value [1]. */
  readonly accuracy: number;
  /** The key that takes the result. */
  readonly key: string;
}

/** What an unknown does to one candidate's limit that it tries most, at the ends of its 95 % interval, all else nominal. */
export interface CostlyEffect {
  readonly candidate: string;
  readonly limit: LimitId;
  readonly words: string;
  readonly dimension: Dimension;
  /** Unit people see. */
  readonly shown: UnitOf;
  /** Worst value of the run: nominal, and with the unknown at its lower and its upper end [SI]. */
  readonly nominal: number;
  /** The same with the unknown at its lower end [SI]. */
  readonly low: number;
  /** The same with the unknown at its upper end [SI]. */
  readonly high: number;
  /** Half of the span: now, and once the number is measured [SI]. */
  readonly before: number;
  /** Half of the span once the number is measured; absent where it cannot be [SI]. */
  readonly after?: number;
}

/** A place within a number's 95 % interval beyond which the answer is another. */
export interface Tip {
  /** The number there [SI]. */
  readonly at: number;
  /** Beyond it `candidate` leads; or `candidate`, the leader, fails its limits, or meets them. */
  readonly kind: 'leads' | 'fails' | 'meets';
  readonly candidate: string;
  /** The limit that is passed there. */
  readonly limit?: LimitId;
  readonly words?: string;
}

/** One number, and what its doubt costs. */
export interface CostlyNumber {
  /** The given datum's path of keys ("motor.resistance"), or the name of the rule that stood in. */
  readonly subject: string;
  readonly words: string;
  /** Whose it is; empty where it is common to all. */
  readonly candidates: readonly string[];
  /** "missing" where a rule stood in, "doubtful" where it was given with a tolerance, written or usual. */
  readonly standing: 'missing' | 'doubtful';
  readonly dimension: Dimension;
  /** The number, and its 95 % interval [SI]; of a rule's that of the first candidate it stands for. */
  readonly value: number;
  /** Lower end of its 95 % interval [SI]. */
  readonly low: number;
  /** Upper end of its 95 % interval [SI]. */
  readonly high: number;
  /** The most that it takes of what is left of a limit, or changes of the objective's figure [1]. */
  readonly cost: number;
  /** The two leading candidates as far as it concerns them. */
  readonly effects: readonly CostlyEffect[];
  /** At most one below and one above the value, within the interval. */
  readonly tips: readonly Tip[];
  /** True where it is a line that nearly every sheet has, and this one lacks. */
  readonly lacksOnSheet?: true;
  /** Where it can be measured, and written down. */
  readonly advice?: MeasurementAdvice;
}

/** The numbers that cost the answer most. */
export interface CostlyResult {
  /** Five to eight; lines that the sheet lacks come first, then what tips the answer soonest. */
  readonly numbers: readonly CostlyNumber[];
  /** Half-widths' effects on the winding's peak of all that was drawn [K], the largest first, of the `candidate` among `leading` that it moves most. */
  readonly all: readonly { readonly subject: string; readonly words: string; readonly candidate: string; readonly before: number }[];
  /** Names, the best first, with nominal data. */
  readonly ranking: readonly string[];
  /** Of these the first two, or the first where the second fails its limits by far: whose effects are told. */
  readonly leading: readonly string[];
  /** Number of simulations that it took [1]. */
  readonly simulations: number;
}
