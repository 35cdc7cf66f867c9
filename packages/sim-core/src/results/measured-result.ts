/** What was measured on a run against what is predicted for it, as plain data in SI; absent where there is no log of it. @module */
import type { MeasurableId } from '../provenance/measurables.js';
import type { Dimension } from '../quantities/index.js';

/** Lower and upper edge and median over the draws [SI]. */
export interface Band {
  readonly p05: number;
  readonly p50: number;
  readonly p95: number;
}

/** One column of the log and the prediction for it, at the moments that are compared. */
export interface MeasuredChannel {
  readonly id: MeasurableId;
  /** Time of the run [s], rising. */
  readonly time: readonly number[];
  /** What the log says [SI]. */
  readonly measured: readonly number[];
  /** With nominal data [SI]. */
  readonly predicted: readonly number[];
  /** Which of the samples count below: those next to a jump of the profile are only shown. */
  readonly counts: readonly boolean[];
  /** 5, 50 and 95 % of the draws [SI]; NaN where fewer than half of them still run. Absent where nothing was sampled. */
  readonly bands?: { readonly p05: readonly number[]; readonly p50: readonly number[]; readonly p95: readonly number[] };
  /** Mean of measured less predicted [SI]. */
  readonly bias: number;
  /** Root of the mean of its square [SI]. */
  readonly rms: number;
  /** Mean of the log [SI]. */
  readonly meanMeasured: number;
  /** Mean of the prediction with nominal data [SI]. */
  readonly meanPredicted: number;
  /** Mean of the prediction over the draws. */
  readonly meanBand?: Band;
  /** Share of the samples between 5 and 95 % of the draws [1]. */
  readonly inside?: number;
  /** Deviation of the instrument, a 95 % half-width over 1.96, by which residuals are weighed [SI]. */
  readonly deviation: number;
}

/** One uncertain number, moved alone to where the prediction comes nearest to the log. */
export interface MeasuredMove {
  readonly subject: string;
  readonly words: string;
  readonly dimension: Dimension;
  /** The number as it stands [SI]. */
  readonly value: number;
  /** The number moved [SI]. */
  readonly moved: number;
  /** How far that is, in deviations of the number itself [1]. */
  readonly deviations: number;
  /** Share of the weighed squares that the move takes away [1]. */
  readonly explains: number;
}

/** What would explain the residuals. */
export type MeasuredExplanation =
  /** The residuals are no larger than what such instruments err by. */
  | { readonly kind: 'nothing-to-explain' }
  /** One number explains most, `alike` nearly as much: the log cannot tell them apart. */
  | { readonly kind: 'one'; readonly best: MeasuredMove; readonly alike: readonly MeasuredMove[] }
  /** None does; `best` comes nearest, where any helps at all. */
  | { readonly kind: 'none'; readonly best?: MeasuredMove };

/** One sensor whose scale alone would explain the misfit. */
export interface SensorScale {
  readonly id: MeasurableId;
  /** What it shows over what is predicted [1]. */
  readonly factor: number;
  /** Share of the squared residuals that it takes away [1]. */
  readonly explains: number;
}

/** How the log's clock was laid on the run's. */
export interface ClockShift {
  readonly by: 'profile' | 'given' | 'first-row' | 'column';
  /** Time of the log at which the run begins [s]. */
  readonly begins: number;
  /** By which column it was found, and how well the two follow one another then [1]. */
  readonly column?: MeasurableId;
  /** Correlation of the two then [1]. */
  readonly correlation?: number;
  /** Another beginning that would fit nearly as well, as laps do [s]. */
  readonly alike?: number;
  /** Where the beginning was only assumed: one that would fit far better. */
  readonly better?: {
    /** Time of the log at which the run would begin [s]. */
    readonly begins: number;
    readonly column: MeasurableId;
    /** Correlation there [1]. */
    readonly correlation: number;
    /** Correlation as it is laid now [1]. */
    readonly now: number;
  };
}

/** A run laid against a log. */
export interface MeasuredResult {
  readonly schema: 'shaftwork.measured/1';
  readonly file: string;
  /** Rows that were compared [1]. */
  readonly rows: number;
  readonly candidate: string;
  /** Whether the scenario or the person said whose run it is; else it is the leader's. */
  readonly named: boolean;
  /** Where nobody said: another candidate that comes much nearer to the log, with this share of the squared residuals [1]. */
  readonly nearer?: { readonly name: string; readonly share: number };
  /** Whether the profile is this log. */
  readonly driven: boolean;
  readonly clock: ClockShift;
  /** Part of the run that the log covers [s]. */
  readonly from: number;
  /** Its end [s]. */
  readonly to: number;
  readonly taken: readonly string[];
  readonly channels: readonly MeasuredChannel[];
  /** Mean over the channels of the mean square of residuals over the instrument's deviation [1]. */
  readonly squares: number;
  /** How many uncertain numbers were moved, one at a time [1]. */
  readonly moved: number;
  readonly explanation: MeasuredExplanation;
  readonly sensor?: SensorScale;
  /** What is said of all this, plain text. */
  readonly sentences: readonly string[];
}
