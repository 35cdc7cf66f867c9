/** Equilibrium across the throttle on the scenario's load: what part throttle does to motor and controller. All SI. @module */

import type { HeatLimitId } from '../drive/heat-limits.js';
/** Equilibrium at one throttle. */
export interface ThrottlePoint {
  /** Duty of the controller, 0 to 1 [1]. */
  readonly throttle: number;
  /** Of the vehicle [m/s]. */
  readonly vehicleSpeed: number;
  /** Of the motor [rad/s]. */
  readonly shaftSpeed: number;
  /** Of the motor [A]. */
  readonly motorCurrent: number;
  /** Out of the pack [A]. */
  readonly batteryCurrent: number;
  /** Heat of the controller [W]. */
  readonly controllerLoss: number;
  /** Equilibrium temperatures [K]; absent where there is no equilibrium. */
  readonly controllerTemperature?: number;
  /** Of the winding in equilibrium [K]. */
  readonly windingTemperature?: number;
}

/** Equilibrium over the throttle. */
export interface PartThrottleResult {
  /** State of charge at which the pack is held [1]. */
  readonly charge: number;
  readonly points: readonly ThrottlePoint[];
  /** Throttles [1] whose controller loss is above that at full throttle, where there are such. */
  readonly lossier?: { readonly from: number; readonly to: number };
  /** Throttles [1] that pass a limit in equilibrium although full throttle passes none, or fewer; empty where there are none. */
  readonly avoid: readonly { readonly from: number; readonly to: number; readonly limit: HeatLimitId }[];
}
