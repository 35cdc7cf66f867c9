/** How well the motor turns electricity into shaft power, over its speeds and torques, and where the run has been; where the pack gives out. SI. */

export interface EfficiencyMap {
  /** Winding and magnet temperature at which the map holds [K]. */
  readonly windingTemperature: number;
  readonly magnetTemperature: number;
  /** Shaft speeds [rad/s] and torques [N·m] of the grid, rising. */
  readonly speed: readonly number[];
  readonly torque: readonly number[];
  /** Shaft power over electrical power [1], [torque][speed]. */
  readonly efficiency: readonly (readonly number[])[];
  /** Time the run spent about each speed and torque, the longest first. */
  readonly visits: readonly { readonly speed: number; readonly torque: number; readonly time: number }[];
  readonly best: { readonly efficiency: number; readonly speed: number; readonly torque: number };
}

/** Torque at full throttle against speed: above it the sagging pack or a current limit forbids. */
export interface SagRegion {
  readonly speed: readonly number[];
  readonly torque: readonly number[];
  /** What the same motor would give on a pack without resistance [N·m]. */
  readonly withoutSag: readonly number[];
  /** Torque at the controller's current limit [N·m]; absent where there is none. */
  readonly currentLimit?: number;
}
