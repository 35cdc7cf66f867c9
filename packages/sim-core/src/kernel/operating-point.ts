/** The record that every solve of a moment fills. @module */

/** What a solve finds; one record, written over by each solve. SI. All [SI]. */
export interface OperatingPoint {
  duty: number;
  /** Motor shaft speed [rad/s]. */
  speed: number;
  current: number;
  busVoltage: number;
  busCurrent: number;
  /** Current of the whole pack [A]. */
  packCurrent: number;
  torqueConstant: number;
  windingResistance: number;
  /** Loss of the current ripple, in motor and controller together [W]. */
  rippleLoss: number;
  /** Electrical power into the motor's wires [W]. */
  inputPower: number;
  pathResistance: number;
  /** Torque that the load takes at the motor's shaft [N·m]. */
  loadTorque: number;
  /** Force of one drive on the vehicle [N]. */
  force: number;
  thrust: number;
  /** Torque and speed at the propeller or wheel. */
  driverTorque: number;
  driverSpeed: number;
  /** Duty that would be needed; above 1 the demand is out of reach. */
  dutyAsked: number;
  /** Current that full use of the demand would draw without the limiter [A]. */
  currentUnlimited: number;
  /** Largest motor current that the controller's limits leave here; Infinity where none applies [A]. */
  limit: number;
  outsideTable: number;
  acceleration: number;
  /** Sine of the climb. */
  climb: number;
  drag: number;
  stalled: boolean;
  /** True where a small rise of speed would go on rising: torque grows faster than the load. */
  unstable: boolean;
  /** True where braking beyond what the drive can do is left to the profile. */
  braked: boolean;
  /** True where the ground takes less than the drive would give, and the current was eased to what it takes. */
  spinning: boolean;
  /** Grip that is left, as a share of all of it; negative where what the step holds needs more [1]. */
  gripLeft: number;
  openCircuit: number;
  cellVoltage: number;
  /** True where the pack cannot give what is drawn: its voltage collapses. */
  overloaded: boolean;
}

/** Duty beyond 1 that counts as out of reach, where rounding of an event's place does not [1]. */
const BEYOND_REACH = 1e-6;

/** Whether the point is what a hold would take and no throttle gives: met in trial states, and where a hold jumps out of reach. */
export const isBeyondReach = ({ duty }: Pick<OperatingPoint, 'duty'>): boolean => duty > 1 + BEYOND_REACH;

export const emptyOperatingPoint = (): OperatingPoint => ({
  duty: 0,
  speed: 0,
  current: 0,
  busVoltage: 0,
  busCurrent: 0,
  packCurrent: 0,
  torqueConstant: 0,
  windingResistance: 0,
  rippleLoss: 0,
  inputPower: 0,
  pathResistance: 0,
  loadTorque: 0,
  force: 0,
  thrust: 0,
  driverTorque: 0,
  driverSpeed: 0,
  dutyAsked: 0,
  currentUnlimited: 0,
  limit: Number.POSITIVE_INFINITY,
  outsideTable: 0,
  acceleration: 0,
  climb: 0,
  drag: 0,
  stalled: false,
  unstable: false,
  braked: false,
  spinning: false,
  gripLeft: 1,
  openCircuit: 0,
  cellVoltage: 0,
  overloaded: false,
});
