/** Which winding of one frame: the Kv that best serves the objective under the limits. Plain data, SI. @module */

import type { Objective } from '../provenance/given.js';
import type { Si } from '../quantities/index.js';
import type { LimitId } from './limits.js';

/** One winding, driven over the profile. */
export interface WindingPoint {
  /** K_v [rad/(s·V)]. */
  readonly speedConstant: Si<'speedConstant'>;
  /** Number of turns, where the reference's were given [1]. */
  readonly turns?: number;
  /** Of the winding between two leads, at 20 °C [Ω]. */
  readonly resistance: Si<'resistance'>;
  /** At the reference's no-load speed [A]. */
  readonly noLoadCurrent: Si<'current'>;
  /** Highest of the run [K]. */
  readonly peakWindingTemperature: Si<'temperature'>;
  /** Highest of the run [A]. */
  readonly peakMotorCurrent: Si<'current'>;
  /** Highest of the run [A]. */
  readonly peakBatteryCurrent: Si<'current'>;
  /** Highest speed of the vehicle [m/s]. */
  readonly topSpeed: Si<'speed'>;
  /** State of charge at the end [1]. */
  readonly chargeLeft: Si<'fraction'>;
  /** Time that was driven [s]. */
  readonly runTime: Si<'time'>;
  /** What the objective looks at, in the unit of `objectiveUnit` [SI]. */
  readonly objective: number;
  readonly meetsLimits: boolean;
  /** The nearest limit, or the one passed, and what is left of it as a share of the way from start to bound [1]. */
  readonly binding?: { readonly limit: LimitId; readonly words: string; readonly marginShare: number };
  /** Steps of the profile that ask for more than it gives, or that it does not drive to their end [1]; 0 where it holds every step. */
  readonly stepsNotHeld: number;
  /** Of what it gives less than 95 % of the present winding’s; absent where of nothing. */
  readonly less?: 'thrust' | 'top speed';
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
  /** Lowest and highest K_v that meet every limit, hold every step and give what the present one gives [rad/(s·V)], and what binds beyond each; absent where none does. */
  readonly range?: {
    readonly from: Si<'speedConstant'>;
    readonly to: Si<'speedConstant'>;
    readonly below?: string;
    readonly above?: string;
  };
  readonly sentences: readonly string[];
}
