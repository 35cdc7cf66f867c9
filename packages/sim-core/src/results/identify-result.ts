/** What was learnt from a bench log: numbers with intervals, what the log does not tell, and how well the laws fit. @module */
import type { Dimension } from '../quantities/index.js';

/** A number found, SI, with its 95 % interval. */
export interface FoundNumber {
  /** Short name, the same in every result. */
  readonly key: string;
  /** Its name in words. */
  readonly words: string;
  /** Which propeller or the like it is of, and where it holds. */
  readonly of?: string;
  /** The condition [SI]. */
  readonly at?: { readonly dimension: Dimension; readonly value: number };
  /** Of value and interval. */
  readonly dimension: Dimension;
  /** The number found [SI of its dimension]. */
  readonly value: number;
  /** Ends of the 95 % interval [SI]. */
  readonly low: number;
  /** [SI] */
  readonly high: number;
  /** Whether the log told it: better than a sheet or a rule would. What it did not tell has `instead`. */
  readonly told: boolean;
  readonly instead?: NotTold;
}

/** Why a log does not tell a number, and which run would. */
export interface NotTold {
  /** What a number on a sheet is usually worth, or a rule: half-width as a share [1]. */
  readonly usual: number;
  /** What it cannot be parted from, where one thing stands out, and how alike they are: correlation, −1 to 1 [1]. */
  readonly from?: { readonly words: string; readonly correlation: number };
  /** The run that would tell most of it, and the half-width that would be left, as a share [1]. */
  readonly run?: { readonly words: string; readonly left: number };
}

/** One kind of reading against the laws. */
export interface ReadingFit {
  readonly key: string;
  readonly words: string;
  readonly dimension: Dimension;
  /** Rows that have it [1]. */
  readonly count: number;
  /** Root of the mean square of what is left [SI]. */
  readonly left: number;
  /** Rows that count less than half because they stand off [1]. */
  readonly outliers: number;
  /** The pattern that is left along `alongWords`: how strong against chance, in standard deviations [1]; above 4 the laws leave something out. */
  readonly pattern: number;
  readonly alongWords: string;
  /** Points for a figure: where (SI), what was read, what the laws say, and which group. */
  readonly points: readonly FittedPoint[];
}

/** One reading against the laws. */
export interface FittedPoint {
  /** Where it lies on the figure's axis [SI]. */
  readonly along: number;
  /** What was read [SI]. */
  readonly read: number;
  /** What the laws say [SI]. */
  readonly law: number;
  readonly group: string;
  /** Weight that the fit left it [1]. */
  readonly weight: number;
}

/** What bench logs tell of a motor, its heat or a pack. */
export interface IdentifyResult {
  readonly kind: 'motor' | 'heat' | 'pack';
  /** What was identified from: file names. */
  readonly sources: readonly string[];
  /** Sentences on what was taken for what, and which rows were left out. */
  readonly taken: readonly string[];
  /** Rows that the fit stands on [1]. */
  readonly rows: number;
  readonly numbers: readonly FoundNumber[];
  readonly fits: readonly ReadingFit[];
  /** What axis the fits are drawn along. */
  readonly along: { readonly words: string; readonly dimension: Dimension };
  /** Pairs of told numbers that belong together, their correlation above 0.8 [1]. */
  readonly together: readonly { readonly a: string; readonly b: string; readonly correlation: number }[];
  /** Unknowns of the fit, instruments included [1]. */
  readonly unknowns: number;
  /** Singular values of the scaled Jacobian, the greatest first: above 1, the log tells more of that direction than was known before [1]. */
  readonly singular: readonly number[];
  /** How many of them are above 1 [1]. */
  readonly rank: number;
  readonly settled: boolean;
  /** Part files by name, ready to be written; only what was told stands in them. */
  readonly parts: readonly { readonly file: string; readonly text: string }[];
}
