/** What was read, what the model expected there before it was told, and what it answers since. SI. @module */

import type { Dimension } from '../quantities/index.js';

export interface ReadingLine {
  /** Whose drive. */
  readonly candidate: string;
  /** “battery current at 100 % throttle”, and “31.0 A” as it is told beside the numbers it narrowed. */
  readonly words: string;
  readonly told: string;
  /** “boat.yaml line 12”. */
  readonly origin: string;
  readonly source?: string;
  readonly dimension: Dimension;
  /** What was read, with its 95 % interval. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** What the data gave before any reading, and within what 95 % of such readings were to be expected. */
  readonly expected: { readonly value: number; readonly low: number; readonly high: number };
  /** What the data give since. */
  readonly since: number;
  /** Standard deviations that it is off: from what the data alone say, and from what they say with all other readings. */
  readonly off: { readonly alone: number; readonly amongAll: number };
}

export interface ReadingsResult {
  readonly lines: readonly ReadingLine[];
  /** False where no values were found that make all readings as true as can be: the numbers then stand where the search ended. */
  readonly settled: boolean;
  /** Effective number of weighted draws, where the model bends too much for a straight line. */
  readonly effectiveDraws?: number;
}
