/** Which winding of one frame: the Kv that best serves the objective under the limits. Plain data, SI. @module */

import type { Objective } from '../provenance/given.js';
import type { LimitId } from './limits.js';

/** One winding, driven over the profile. */
export interface WindingPoint {
  /** K_v [rad/(s·V)]. */
  readonly speedConstant: number;
  /** Number of turns, where the reference's were given [1]. */
  readonly turns?: number;
  /** Of the winding between two leads, at 20 °C [Ω]. */
  readonly resistance: number;
  /** At the reference's no-load speed [A]. */
  readonly noLoadCurrent: number;
  /** Highest of the run [K]. */
  readonly peakWindingTemperature: number;
  /** Highest of the run [A]. */
  readonly peakMotorCurrent: number;
  /** Highest of the run [A]. */
  readonly peakBatteryCurrent: number;
  /** Highest speed of the vehicle [m/s]. */
  readonly topSpeed: number;
  /** State of charge at the end [1]. */
  readonly chargeLeft: number;
  /** Time that was driven [s]. */
  readonly runTime: number;
  /** What the objective looks at, in the unit of `objectiveUnit` [SI]. */
  readonly objective: number;
  readonly meetsLimits: boolean;
  /** The nearest limit, or the one passed, and what is left of it as a share of the way from start to bound [1]. */
  readonly binding?: { readonly limit: LimitId; readonly words: string; readonly marginShare: number };
  /** Where the run asks for more than full throttle gives. */
  readonly holdsProfile: boolean;
}

/** Windings of each candidate’s frame. */
export interface WindingResult {
  readonly schema: 'shaftwork.rewind/1';
  readonly candidates: readonly WindingCandidate[];
}

/** Windings of one frame. */
export interface WindingCandidate {
  readonly name: string;
  readonly objective: Objective;
  readonly objectiveWords: string;
  readonly objectiveUnit: string;
  /** By rising K_v. */
  readonly points: readonly WindingPoint[];
  readonly reference: WindingPoint;
  readonly best?: WindingPoint;
  /** Lowest and highest K_v that meet every limit [rad/(s·V)], and what binds beyond each; absent where none does. */
  readonly range?: {
    readonly from: number;
    readonly to: number;
    readonly below?: string;
    readonly above?: string;
  };
  readonly sentences: readonly string[];
}
