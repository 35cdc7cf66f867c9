/** How a run stands to each limit. @module */

import type { Dimension, Si, UnitOf } from '../quantities/index.js';
import type { LimitId } from './limits.js';

/** How the run stands to one limit. */
export interface LimitResult {
  readonly id: LimitId;
  readonly words: string;
  readonly dimension: Dimension;
  /** Unit people see. */
  readonly shown: UnitOf;
  /** What must not be passed, always a number: a limit that nobody set has no result [SI]. */
  readonly bound: number;
  /** Where the bound came from, in words ("scenario line 40", "insulation class B"). */
  readonly origin: string;
  /** True where nobody gave it, nor a class or grade it follows from. */
  readonly assumed?: true;
  /** A ceiling is passed upwards, a floor downwards. */
  readonly sense: 'ceiling' | 'floor';
  /** Value at the start, and the worst value with its time [s]. */
  readonly start: number;
  /** Worst value of the run [SI]. */
  readonly worst: number;
  /** When it was [s]. */
  readonly worstTime: Si<'time'>;
  /** What is left in the limit's own unit, negative when passed [SI], and the same as a share of the way from start to bound. */
  readonly margin: number;
  /** What is left as a share of the way from start to bound [1]. */
  readonly marginShare: number;
  /** When it was passed; absent where it was kept. */
  readonly passed?: LimitPassed;
}

/** When a limit was passed. */
export interface LimitPassed {
  /** The first time [s]. */
  readonly at: Si<'time'>;
  /** How long in all, where the curves tell [s]. */
  readonly lasting?: Si<'time'>;
}
