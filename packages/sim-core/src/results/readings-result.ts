/** What was read, what the model expected there before it was told, and what it answers since. SI. @module */

import type { Dimension } from '../quantities/index.js';

/** One reading. */
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
  /** What was read [SI]. */
  readonly value: number;
  /** Lower end of its 95 % interval [SI]. */
  readonly low: number;
  /** Upper end of its 95 % interval [SI]. */
  readonly high: number;
  /** What the data gave before any reading, and within what 95 % of such readings were to be expected. */
  readonly expected: {
    /** Nominal [SI]. */
    readonly value: number;
    /** Lower end [SI]. */
    readonly low: number;
    /** Upper end [SI]. */
    readonly high: number;
  };
  /** What the data give since [SI]. */
  readonly since: number;
  /** How far it is off. */
  readonly off: {
    /** From what the data alone say [standard deviations]. */
    readonly alone: number;
    /** From what they say with all other readings [standard deviations]. */
    readonly amongAll: number;
  };
}

/** The readings of a scenario beside what was foretold of them, and what they narrowed. */
export interface ReadingsResult {
  readonly lines: readonly ReadingLine[];
  /** False where no values were found that make all readings as true as can be: the numbers then stand where the search ended. */
  readonly settled: boolean;
  /** Effective number of weighted draws [1], where the model bends too much for a straight line. */
  readonly effectiveDraws?: number;
}
