/**
 * How sure the figures and the choice are, as plain data in SI: bands, chances and two sensitivities.
 *
 * Bands are 5–95 % of the samples. Every chance carries its 95 % interval. Shares are of a variance, first order.
 *
 * @module
 */

import type { Dimension } from '../quantities/index.js';
import type { Chance } from './chance.js';
import type { TemperatureChannel } from './channels.js';
import type { LimitId } from './limits.js';

/** Lower and upper edge and median of a curve, on the time grid beside it [K]. */
export interface CurveBand {
  readonly p05: readonly number[];
  readonly p50: readonly number[];
  readonly p95: readonly number[];
}

/** Temperature curves as bands on one time grid, common to all candidates as far as most samples still run. */
export interface CurveBands {
  /** Times at which the bands stand [s]. */
  readonly time: readonly number[];
  /** Share of the samples that still run at each time [1]; the bands are of those. */
  readonly running: readonly number[];
  readonly channels: Readonly<Record<TemperatureChannel, CurveBand>>;
}

/** One group of unknowns and its share of a variance. */
export interface SensitivityShare {
  /** Key of the group: the place of a given datum ("boat.yaml:51:19"), a rule ("rule:press-fit"), or the own parts of its error ("rule:press-fit@own"). */
  readonly group: string;
  readonly words: string;
  /** Whose datum it is; empty where one value is common to all. */
  readonly candidates: readonly string[];
  /** Share of the variance [1], never negative, and its sampling error. */
  readonly share: number;
  /** Standard error of the share [1]. */
  readonly error: number;
}

/** What drives the spread of one number. */
export interface Sensitivity {
  readonly words: string;
  readonly dimension: Dimension;
  /** Of the figure over the draws [K, or s]. */
  readonly standardDeviation: number;
  /** Greatest first; only those that stand out from the sampling noise. */
  readonly shares: readonly SensitivityShare[];
  /** What the shares above leave: small ones, interactions and noise [1]. */
  readonly rest: number;
}

/** Peak temperatures draw by draw, for drawings whose dots can be counted. */
export interface PeakDraws {
  readonly channel: TemperatureChannel;
  readonly words: string;
  readonly candidates: readonly {
    readonly name: string;
    /** The peak of every draw [K], rising. */
    readonly draws: readonly number[];
    /** The candidate's limit of this body [K], where it has one. */
    readonly bound?: number;
  }[];
}

/** How often a limit is passed. */
export interface LimitDoubt {
  readonly id: LimitId;
  readonly words: string;
  readonly passed: Chance;
  /** Of a temperature that some draws bring past its limit: what the largest part of its spread comes from, and that part [1]. */
  readonly spreadBy?: Pick<SensitivityShare, 'words' | 'share'>;
}

/** How sure one candidate’s figures are. */
export interface CandidateDoubt {
  readonly name: string;
  /** Chance that the run ends as planned within every limit, and that this candidate comes first. */
  readonly feasible: Chance;
  readonly first: Chance;
  readonly limits: readonly LimitDoubt[];
  /** Samples without an operating point, or ended by cut-off or empty cells. */
  readonly ended: Chance;
  readonly curves: CurveBands;
  /** What a thermometer on the can reads one minute after the stop [K]; absent where a draw has no stop. */
  readonly canAfterStop?: { readonly p05: number; readonly p50: number; readonly p95: number };
  /** First sensitivity: of this candidate's own figures, the peak of the body in question (that of `peaks`) first. */
  readonly sensitivities: readonly Sensitivity[];
}

/** One candidate against another, sample by sample on common unknowns. */
export interface Comparison {
  readonly better: string;
  readonly worse: string;
  /** Chance that the first ranks before the second. */
  readonly wins: Chance;
  /** False where the lower end of that chance falls short of `DISTINGUISHABLE`: not distinguishable on these data. */
  readonly distinguishable: boolean;
  /** Difference of the objective's figure, worse less better in the sense of the objective (positive: the first is better). */
  readonly difference: {
    readonly words: string;
    readonly dimension: Dimension;
    /** With nominal data [SI, as the figure]. */
    readonly nominal: number;
    /** Lower end of the band, 5 of 100 draws are below [SI, as the figure]. */
    readonly p05: number;
    /** Middle of the draws [SI, as the figure]. */
    readonly p50: number;
    /** Upper end of the band, 5 of 100 draws are above [SI, as the figure]. */
    readonly p95: number;
  };
}

/** A candidate that beats another with less than this chance is not told apart from it. */
export const DISTINGUISHABLE = 0.8;

/** What a measurement takes. */
export type Effort = 'minutes' | 'an hour' | 'an afternoon';

/** How sure a run is. */
export interface DoubtResult {
  readonly schema: 'shaftwork.doubt/1';
  /** Number of draws [1]. */
  readonly samples: number;
  /** The whole number that decided the draws [1]. */
  readonly seed: number;
  /** Number of unknowns drawn [1], and those of them that share the quasi-random points; the rest are seeded random. */
  readonly unknowns: number;
  /** Number of those that share the quasi-random points; the rest are seeded random [1]. */
  readonly quasiRandom: number;
  /** The stated error of the model itself: 95 % half-width as a share of each body's rise [1], and how much of its variance is common to all [1]. */
  readonly modelError: { readonly halfWidth: number; readonly common: number; readonly words: string; readonly source: string };
  /** In the order of the scenario. */
  readonly candidates: readonly CandidateDoubt[];
  /** Every ordered pair along the ranking. */
  readonly comparisons: readonly Comparison[];
  readonly peaks: PeakDraws;
  /** Second sensitivity: of the difference between the two leaders; absent with one candidate. */
  readonly leaders?: { readonly better: string; readonly worse: string; readonly sensitivity: Sensitivity };
}
