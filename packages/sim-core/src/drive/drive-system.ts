/**
 * Where the parts meet. One shape, two readings: DriveSystem<Datum> says where each number is from, DriveSystem is what the laws see.
 *
 * @module
 */

import type { HeatPaths } from '../heat/heat-paths.js';
import type { Battery } from '../parts/battery/battery.js';
import type { Controller } from '../parts/controller.js';
import type { Gearbox } from '../parts/gearbox.js';
import type { Magnet } from '../parts/magnets.js';
import type { Motor } from '../parts/motor.js';
import type { CoefficientTable } from '../parts/propeller/coefficient-table.js';
import type { TableFan } from '../parts/propeller/table-fan.js';
import type { Vehicle } from '../parts/vehicle.js';
import type { Wheel } from '../parts/wheel.js';
import type { Wiring } from '../parts/wiring.js';

/** Air and water about the drive. */
export interface Surroundings<N = number> {
  /** Of the air outside [K]. */
  readonly airTemperature: N;
  /** Of the air [Pa]. */
  readonly airPressure: N;
  /** Air round the motor: outside, or that of the compartment [K]. */
  readonly motorAirTemperature: N;
  /** Air round controller and cells [K]. */
  readonly compartmentTemperature: N;
  /** Of the water [K]. */
  readonly waterTemperature: N;
}

/** A propeller as load. */
export interface PropellerLoad<N = number> {
  readonly kind: 'propeller';
  /** D [m]. */
  readonly diameter: N;
  /** f_T — factor on the table’s thrust, nominally 1 [1]. */
  readonly thrustFactor: N;
  /** f_P — factor on the table’s power, nominally 1 [1]. */
  readonly powerFactor: N;
  /** ρ of the medium the propeller works in [kg/m³]. */
  readonly density: N;
  /** ν of that medium [m²/s]. */
  readonly kinematicViscosity: N;
  /** Speed of advance = (1 − w)·v [1]. */
  readonly wakeFraction: N;
  /** Force on the vehicle = (1 − t)·thrust [1]. */
  readonly thrustDeduction: N;
  /** Stern tube and shaft bearings, between gearbox and propeller [1]. */
  readonly shaftEfficiency: N;
  /** J — of all that turns with the load’s shaft [kg·m²]. */
  readonly inertia: N;
  /** Blades that fold when the motor is off give neither thrust nor torque then. */
  readonly folding: boolean;
  /** Where `shape` is known: its fan at its amount. */
  readonly table: CoefficientTable;
  /** What of its shape is not known exactly, as the angle of its blades [rad], and its tables over that. */
  readonly shape?: { readonly amount: N; readonly fan: TableFan };
  /** A screw in water whose blades are known: what tells whether they are too small. */
  readonly screw?: Screw<N>;
}

/** Blades of a screw in water. */
export interface Screw<N = number> {
  /** Z — number of blades [1]. */
  readonly blades: number;
  /** Area of the blades over that of the disc [1]. */
  readonly areaRatio: N;
  /** Depth of the shaft below the surface [m]. */
  readonly immersion: N;
  /** Of the water [Pa]. */
  readonly vapourPressure: N;
}

/** Wheels as load. */
export interface WheelLoad<N = number> extends Wheel<N> {
  readonly kind: 'wheel';
}

/** What the shaft turns. */
export type Load<N = number> = PropellerLoad<N> | WheelLoad<N>;

/** State at the start of a run. */
export interface Start<N = number> {
  /** State of charge [1]. */
  readonly charge: N;
  /** Of winding, stator, can and magnets [K]. */
  readonly motorTemperature: N;
  /** Of the controller [K]. */
  readonly controllerTemperature: N;
  /** Of the cells [K]. */
  readonly cellTemperature: N;
}

/** What must not be passed. Infinity (or 0 for a floor) where there is no such limit. */
export interface Limits<N = number> {
  /** Of the winding [K]. */
  readonly windingTemperature: N;
  /** Of the magnets [K]. */
  readonly magnetTemperature: N;
  /** Of the controller [K]. */
  readonly controllerTemperature: N;
  /** Of the cells [K]. */
  readonly cellTemperature: N;
  /** Makers' figures: motor current [A], input power [W], shaft speed [rad/s], bus voltage [V]. */
  readonly motorCurrent: N;
  /** Into the motor, the maker’s figure [W]. */
  readonly inputPower: N;
  /** Of the motor, the maker’s figure [rad/s]. */
  readonly shaftSpeed: N;
  /** At the controller’s input, the maker’s figure [V]. */
  readonly busVoltage: N;
  /** Battery current the cells are rated for [A]. */
  readonly batteryCurrent: N;
  /** Caps a rule book sets: battery power [W], energy out of the pack [J]. */
  readonly batteryPower: N;
  /** Energy out of the pack [J]. */
  readonly batteryEnergy: N;
  /** Loaded voltage of one cell at which the run ends [V]. */
  readonly cellVoltage: N;
  /** Charge that must be left [1]. */
  readonly reserve: N;
  /** Time that the profile, driven again and again, must last at least; 0 where there is no such limit [s]. */
  readonly runTime: N;
}

/** One drive, whole: parts, surroundings, limits. */
export interface DriveSystem<N = number> {
  readonly surroundings: Surroundings<N>;
  readonly battery: Battery<N>;
  readonly wiring: Wiring<N>;
  readonly controller: Controller<N>;
  readonly motor: Motor<N>;
  /** Where the magnets' thickness is known. */
  readonly magnet: Magnet<N> | undefined;
  readonly gearbox: Gearbox<N>;
  readonly load: Load<N>;
  readonly vehicle: Vehicle<N>;
  readonly heat: HeatPaths<N>;
  readonly start: Start<N>;
  readonly limits: Limits<N>;
  /** Constant power drawn from the pack beside the drives [W]. */
  readonly otherLoads: N;
  /** Number of equal drives on one pack [1]. */
  readonly drives: number;
  /** How the shaft's speed is found: from the balance of torques at once (where absent), or as a state with the inertia of rotor and load. */
  readonly shaftSpeed?: ShaftSpeed;
}

/** How the shaft’s speed is found. */
export type ShaftSpeed = 'quasi-steady' | 'with-inertia';
