/** Which winding of one frame: the Kv that best serves the objective under the limits. Plain data, SI. @module */

import type { Objective } from '../provenance/given.js';
import type { LimitId } from './limits.js';

export interface WindingPoint {
  /** K_v [rad/(s·V)]. */
  readonly speedConstant: number;
  /** Turns where the reference's were given. */
  readonly turns?: number;
  readonly resistance: number;
  /** At the reference's no-load speed [A]. */
  readonly noLoadCurrent: number;
  readonly peakWindingTemperature: number;
  readonly peakMotorCurrent: number;
  readonly peakBatteryCurrent: number;
  readonly topSpeed: number;
  readonly chargeLeft: number;
  readonly runTime: number;
  /** What the objective looks at, in the unit of `objectiveUnit`. */
  readonly objective: number;
  readonly meetsLimits: boolean;
  /** The nearest limit, or the one passed. */
  readonly binding?: { readonly limit: LimitId; readonly words: string; readonly marginShare: number };
  /** Where the run asks for more than full throttle gives. */
  readonly holdsProfile: boolean;
}

export interface WindingResult {
  readonly schema: 'shaftwork.rewind/1';
  readonly candidates: readonly WindingCandidate[];
}

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
