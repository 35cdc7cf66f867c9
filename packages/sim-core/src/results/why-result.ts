/**
 * Why one candidate runs hotter, or longer, than another: the difference split over what differs between them, as plain data in SI.
 *
 * @module
 */

import type { Dimension } from '../quantities/index.js';

/** Parts that two candidates may differ in, in the order they are told. */
export const WHY_PARTS = ['speedConstant', 'motorConstant', 'lossTorque', 'heatPaths', 'heatCapacity', 'overrides'] as const;
/** One of `WHY_PARTS`. */
export type WhyPartId = (typeof WHY_PARTS)[number];

/** What the motor's own heat paths are made of. */
export const WAY_PARTS = ['inside', 'side', 'ends', 'elsewhere'] as const;
/** The name of such a way. */
export type WayPartId = (typeof WAY_PARTS)[number];

/** What one way for heat adds to a share. */
export interface WayPart {
  readonly id: WayPartId;
  readonly words: string;
  /** Its share of the difference [K]. */
  readonly value: number;
}

/** One part’s share of a difference. */
export interface WhyPart {
  readonly id: WhyPartId;
  readonly words: string;
  /** Share of the difference, `to` less `from` [SI]. */
  readonly value: number;
  /** Of the heat paths: what each of them gives, greatest first; they sum to it. */
  readonly ways?: readonly WayPart[];
}

/** One quantity's difference, `to` less `from`, and its parts, which sum to it. */
export interface WhySplit {
  readonly quantity: string;
  readonly words: string;
  readonly dimension: Dimension;
  /** Figure of the candidate that is taken for granted [K, or s]. */
  readonly from: number;
  /** Figure of the one that is explained [K, or s]. */
  readonly to: number;
  /** `to` less `from` [K, or s]. */
  readonly difference: number;
  /** Greatest in size first. */
  readonly parts: readonly WhyPart[];
  /** Greatest joint effect of two parts beyond their effects alone [SI]; where it exceeds every part, the split says little. */
  readonly interaction: { readonly between: readonly [WhyPartId, WhyPartId]; readonly value: number } | undefined;
  readonly interactionsExceedParts: boolean;
}

/** Why two candidates differ. */
export interface WhyResult {
  readonly schema: 'shaftwork.why/1';
  readonly from: string;
  readonly to: string;
  /** The peak temperature of the body whose limit is nearest first, then the run time where it differs. */
  readonly splits: readonly WhySplit[];
  /** Number of simulations that it took [1]. */
  readonly simulations: number;
  /** Mixtures of the two without an operating point, in words; their figure is capped and the split marked. */
  readonly capped: readonly string[];
  readonly sentence: string;
}
