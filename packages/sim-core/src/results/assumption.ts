/** What nobody gave: numbers, and what is no number. @module */

import type { Dimension } from '../quantities/index.js';

/** A line of the list of what was assumed. */
export type Assumption = AssumedNumber | AssumedChoice;

/** A kind, count or condition that was taken where nothing was said. */
export interface AssumedChoice {
  readonly candidates: readonly string[];
  /** Path of the key that says otherwise ("battery.chemistry"). */
  readonly path: string;
  readonly words: string;
  readonly kind: 'choice';
  readonly value: string;
  /** Its id, and why it is taken, in words. */
  readonly origin: string;
  readonly source: string;
}

/** A number that nobody gave, or that was given without its interval. */
export interface AssumedNumber {
  readonly candidates: readonly string[];
  /** Path of the datum in the system ("motor.frictionTorque") and in words. */
  readonly path: string;
  readonly words: string;
  readonly dimension: Dimension;
  /** The number that stood in [SI]. */
  readonly value: number;
  /** 95 % interval [SI]. */
  readonly low: number;
  /** Upper end of the 95 % interval [SI]. */
  readonly high: number;
  /** `given` without its interval; `narrowed`: given with it, and moved by readings. */
  readonly kind: 'given' | 'narrowed' | 'derived' | 'estimated' | 'default';
  /** Rule or place, in words, with the source. */
  readonly origin: string;
  readonly source: string;
  /** Where measurements narrowed or moved it: which, in words, and what it was before. */
  readonly narrowed?: {
    readonly by: readonly string[];
    /** Value before [SI]. */
    readonly value: number;
    /** Lower end of the 95 % interval before [SI]. */
    readonly low: number;
    /** Upper end of the 95 % interval before [SI]. */
    readonly high: number;
  };
}
