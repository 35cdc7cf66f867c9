/** A number that nobody gave. @module */

import type { Dimension } from '../quantities/index.js';

/** A line of the list of what was assumed. */
export interface Assumption {
  readonly candidates: readonly string[];
  /** Path of the datum in the system ("motor.frictionTorque") and in words. */
  readonly path: string;
  readonly words: string;
  readonly dimension: Dimension;
  readonly value: number;
  /** 95 % interval [SI]. */
  readonly low: number;
  readonly high: number;
  readonly kind: 'given' | 'derived' | 'estimated' | 'default';
  /** Rule or place, in words, with the source. */
  readonly origin: string;
  readonly source: string;
}
