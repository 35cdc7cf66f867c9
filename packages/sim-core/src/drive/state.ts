/** The state of a drive by name, as people and tests write it. @module */

/** What a drive's run carries from moment to moment, in plain words; the kernel keeps the same in an array. */
export interface DriveState {
  /** Temperatures [K]. */
  readonly winding: number;
  readonly stator: number;
  readonly can: number;
  readonly magnets: number;
  readonly controller: number;
  readonly cells: number;
  /** State of charge [1]. */
  readonly charge: number;
  /** Voltage of one cell's RC pair [V]. */
  readonly polarisation: number;
  /** Speed of the vehicle along its path [m/s]. */
  readonly speed: number;
}

/** What a step asks for at one moment. */
export interface Demand {
  readonly hold: import('./profile.js').Held;
  readonly value: number;
  /** Acceleration that a held vehicle speed imposes [m/s²]. */
  readonly acceleration: number;
  /** Whether the vehicle's speed is imposed by the profile rather than a state. */
  readonly speedImposed: boolean;
  /** Sine of the path's climb, where the profile sets it; NaN where a flown climb is the result. */
  readonly climb: number;
}
