/** Equilibrium across the throttle on the scenario's load: what part throttle does to motor and controller. All SI. @module */

import type { HeatLimitId } from '../drive/heat-limits.js';
import type { Si } from '../quantities/index.js';
/** Equilibrium at one throttle. */
export interface ThrottlePoint {
  /** Duty of the controller, 0 to 1 [1]. */
  readonly throttle: Si<'fraction'>;
  /** Of the vehicle [m/s]. */
  readonly vehicleSpeed: Si<'speed'>;
  /** Of the motor [rad/s]. */
  readonly shaftSpeed: Si<'angularSpeed'>;
  /** Of the motor [A]. */
  readonly motorCurrent: Si<'current'>;
  /** Out of the pack [A]. */
  readonly batteryCurrent: Si<'current'>;
  /** Heat of the controller [W]. */
  readonly controllerLoss: Si<'power'>;
  /** Equilibrium temperatures [K]; absent where there is no equilibrium. */
  readonly controllerTemperature?: Si<'temperature'>;
  /** Of the winding in equilibrium [K]. */
  readonly windingTemperature?: Si<'temperature'>;
}

/** Equilibrium over the throttle. */
export interface PartThrottleResult {
  /** State of charge at which the pack is held [1]. */
  readonly charge: Si<'fraction'>;
  readonly points: readonly ThrottlePoint[];
  /** Throttles [1] whose controller loss is above that at full throttle, where there are such. */
  readonly lossier?: { readonly from: Si<'fraction'>; readonly to: Si<'fraction'> };
  /** Throttles [1] that pass a limit in equilibrium although full throttle passes none, or fewer; empty where there are none. */
  readonly avoid: readonly { readonly from: Si<'fraction'>; readonly to: Si<'fraction'>; readonly limit: HeatLimitId }[];
}
