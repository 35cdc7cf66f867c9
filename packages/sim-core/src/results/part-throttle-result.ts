/** Equilibrium across the throttle on the scenario's load: what part throttle does to motor and controller. All SI. @module */

import type { HeatLimitId } from '../drive/heat-limits.js';
export interface ThrottlePoint {
  readonly throttle: number;
  readonly vehicleSpeed: number;
  readonly shaftSpeed: number;
  readonly motorCurrent: number;
  readonly batteryCurrent: number;
  readonly controllerLoss: number;
  /** Equilibrium temperatures [K]; absent where there is no equilibrium. */
  readonly controllerTemperature?: number;
  readonly windingTemperature?: number;
}

export interface PartThrottleResult {
  readonly charge: number;
  readonly points: readonly ThrottlePoint[];
  /** Throttles whose controller loss is above that at full throttle, where there are such. */
  readonly lossier?: { readonly from: number; readonly to: number };
  /** Throttles that pass a limit in equilibrium although full throttle passes none, or fewer; empty where there are none. */
  readonly avoid: readonly { readonly from: number; readonly to: number; readonly limit: HeatLimitId }[];
}
