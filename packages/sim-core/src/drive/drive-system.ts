/**
 * Where the parts meet. One shape, two readings: DriveSystem<Data> says where each number is from, DriveSystem is what the laws see.
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
import type { PlainNumbers, Quantities } from '../quantities/index.js';

/** Air and water about the drive. */
export interface Surroundings<N extends Quantities = PlainNumbers> {
  /** Of the air outside [K]. */
  readonly airTemperature: N['temperature'];
  /** Of the air [Pa]. */
  readonly airPressure: N['pressure'];
  /** Air round the motor: outside, or that of the compartment [K]. */
  readonly motorAirTemperature: N['temperature'];
  /** Air round controller and cells [K]. */
  readonly compartmentTemperature: N['temperature'];
  /** Of the water [K]. */
  readonly waterTemperature: N['temperature'];
}

/** A propeller as load. */
export interface PropellerLoad<N extends Quantities = PlainNumbers> {
  readonly kind: 'propeller';
  /** D [m]. */
  readonly diameter: N['length'];
  /** f_T — factor on the table’s thrust, nominally 1 [1]. */
  readonly thrustFactor: N['ratio'];
  /** f_P — factor on the table’s power, nominally 1 [1]. */
  readonly powerFactor: N['ratio'];
  /** ρ of the medium the propeller works in [kg/m³]. */
  readonly density: N['density'];
  /** ν of that medium [m²/s]. */
  readonly kinematicViscosity: N['kinematicViscosity'];
  /** Speed of advance = (1 − w)·v [1]. */
  readonly wakeFraction: N['fraction'];
  /** Force on the vehicle = (1 − t)·thrust [1]. */
  readonly thrustDeduction: N['fraction'];
  /** Stern tube and shaft bearings, between gearbox and propeller [1]. */
  readonly shaftEfficiency: N['fraction'];
  /** J — of all that turns with the load’s shaft [kg·m²]. */
  readonly inertia: N['inertia'];
  /** Blades that fold when the motor is off give neither thrust nor torque then. */
  readonly folding: boolean;
  /** Where `shape` is known: its fan at its amount. */
  readonly table: CoefficientTable;
  /** What of its shape is not known exactly, as the angle of its blades [rad], and its tables over that. */
  readonly shape?: { readonly amount: N['angle'] | N['ratio']; readonly fan: TableFan };
  /** A screw in water whose blades are known: what tells whether they are too small. */
  readonly screw?: Screw<N>;
}

/** Blades of a screw in water. */
export interface Screw<N extends Quantities = PlainNumbers> {
  /** Z — number of blades [1]. */
  readonly blades: number;
  /** Area of the blades over that of the disc [1]. */
  readonly areaRatio: N['ratio'];
  /** Depth of the shaft below the surface [m]. */
  readonly immersion: N['length'];
  /** Of the water [Pa]. */
  readonly vapourPressure: N['pressure'];
}

/** Wheels as load. */
export interface WheelLoad<N extends Quantities = PlainNumbers> extends Wheel<N> {
  readonly kind: 'wheel';
}

/** What the shaft turns. */
export type Load<N extends Quantities = PlainNumbers> = PropellerLoad<N> | WheelLoad<N>;

/** State at the start of a run. */
export interface Start<N extends Quantities = PlainNumbers> {
  /** State of charge [1]. */
  readonly charge: N['fraction'];
  /** Of winding, stator, can and magnets [K]. */
  readonly motorTemperature: N['temperature'];
  /** Of the controller [K]. */
  readonly controllerTemperature: N['temperature'];
  /** Of the cells [K]. */
  readonly cellTemperature: N['temperature'];
}

/** What must not be passed. Infinity (or 0 for a floor) where there is no such limit. */
export interface Limits<N extends Quantities = PlainNumbers> {
  /** Of the winding [K]. */
  readonly windingTemperature: N['temperature'];
  /** Of the magnets [K]. */
  readonly magnetTemperature: N['temperature'];
  /** Of the controller [K]. */
  readonly controllerTemperature: N['temperature'];
  /** Of the cells [K]. */
  readonly cellTemperature: N['temperature'];
  /** Makers' figures: motor current [A], input power [W], shaft speed [rad/s], bus voltage [V]. */
  readonly motorCurrent: N['current'];
  /** Into the motor, the maker’s figure [W]. */
  readonly inputPower: N['power'];
  /** Of the motor, the maker’s figure [rad/s]. */
  readonly shaftSpeed: N['angularSpeed'];
  /** At the controller’s input, the maker’s figure [V]. */
  readonly busVoltage: N['voltage'];
  /** Battery current the cells are rated for [A]. */
  readonly batteryCurrent: N['current'];
  /** Caps a rule book sets: battery power [W], energy out of the pack [J]. */
  readonly batteryPower: N['power'];
  /** Energy out of the pack [J]. */
  readonly batteryEnergy: N['energy'];
  /** Loaded voltage of one cell at which the run ends [V]. */
  readonly cellVoltage: N['voltage'];
  /** Charge that must be left [1]. */
  readonly reserve: N['fraction'];
  /** Time that the profile, driven again and again, must last at least; 0 where there is no such limit [s]. */
  readonly runTime: N['time'];
}

/** One drive, whole: parts, surroundings, limits. */
export interface DriveSystem<N extends Quantities = PlainNumbers> {
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
  readonly otherLoads: N['power'];
  /** Number of equal drives on one pack [1]. */
  readonly drives: number;
  /** How the shaft's speed is found: from the balance of torques at once (where absent), or as a state with the inertia of rotor and load. */
  readonly shaftSpeed?: ShaftSpeed;
}

/** How the shaft’s speed is found. */
export type ShaftSpeed = 'quasi-steady' | 'with-inertia';
