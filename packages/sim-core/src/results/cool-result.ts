/** The smallest cooling that reaches a chance of staying within the temperature limits, in sizes that can be bought or made. SI. @module */

import type { HeatLimitId } from '../drive/heat-limits.js';
import type { Si } from '../quantities/index.js';

export const REMEDIES = ['heat-sink', 'air', 'water', 'controller', 'cells'] as const;
/** A kind of cooling. */
export type Remedy = (typeof REMEDIES)[number];

/** A remedy in one size: what it is, and what to write into the candidate. */
export interface Fitting {
  readonly remedy: Remedy;
  readonly words: string;
  readonly entry: string;
}

/** Fittings and what a run with them comes to. */
export interface CoolingProposal {
  readonly fittings: readonly Fitting[];
  /** Share of the draws in which the limits that it is for are kept, and all temperature limits are [1]. */
  readonly chance: Si<'fraction'>;
  /** The same of all temperature limits [1]. */
  readonly chanceOfAll: Si<'fraction'>;
  /** Whether it is for all limits that fail, and keeps them with the chance asked for. */
  readonly keepsAll: boolean;
  /** With nominal data [K]. */
  readonly peaks: Readonly<Record<HeatLimitId, Si<'temperature'>>>;
}

/** What one kind of cooling can do. */
export type CoolingAnswer =
  /** What it is for stays within its limits as it is. */
  | { readonly kind: 'not-needed' }
  | { readonly kind: 'enough'; readonly proposal: CoolingProposal }
  /** The largest size that fits, and what it comes to. */
  | { readonly kind: 'not-enough'; readonly proposal: CoolingProposal }
  /** It would not touch what fails, or cannot be fitted. */
  | { readonly kind: 'useless'; readonly why: string };

/** The smallest cooling for one candidate. */
export interface CoolResult {
  readonly name: string;
  /** Chance that is asked for [1]. */
  readonly goal: Si<'fraction'>;
  /** Temperature limits that are kept with less than that chance, and the chance of each as it is [1]. */
  readonly failing: readonly { readonly limit: HeatLimitId; readonly chance: Si<'fraction'> }[];
  /** Failures that no cooling mends (cut-off, maker's current, …), in words. */
  readonly others: readonly string[];
  readonly remedies: readonly { readonly remedy: Remedy; readonly answer: CoolingAnswer }[];
  /** Two together that keep all temperature limits, where none does alone. */
  readonly pairs: readonly CoolingProposal[];
}
