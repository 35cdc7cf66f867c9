/** How well the motor turns electricity into shaft power over its speeds and torques, and where the run has been. SI. @module */

export interface EfficiencyMap {
  /** Winding and magnet temperature at which the map holds [K]. */
  readonly windingTemperature: number;
  /** Of the magnets [K]. */
  readonly magnetTemperature: number;
  /** Lines of equal efficiency [1] over shaft speed [rad/s] and torque [N·m], each in the order in which it is drawn. */
  readonly contours: readonly { readonly efficiency: number; readonly speed: readonly number[]; readonly torque: readonly number[] }[];
  /** Time [s] the run spent about each speed [rad/s] and torque [N·m], the longest first. */
  readonly visits: readonly { readonly speed: number; readonly torque: number; readonly time: number }[];
}
