/**
 * The heat network of one drive: six bodies and the paths between them and their surroundings.
 *
 *   winding – stator – can – air, water or mount; magnets behind the gap (inrunner) or in the turning bell (outrunner);
 *   controller – compartment air; cells – compartment air.
 *
 * An infinite conductance makes two bodies one; an infinite capacity holds a body's temperature.
 * *Sign* heat flow is positive into the body named.
 *
 * @module
 */

import type { WaterKind } from '../media/water.js';
import type { PlainNumbers, Quantities } from '../quantities/index.js';
import type { HeatSink } from './fins.js';

/** The heat network of one drive. */
export type HeatPaths<N extends Quantities = PlainNumbers> = DryPaths<N> & WaterCooling<N>;

/** A jacket or a coil, or neither. */
export type WaterCooling<N extends Quantities = PlainNumbers> =
  | { readonly jacket: undefined; readonly coil: undefined }
  | { readonly jacket: StatedJacket<N>; readonly coil: undefined }
  | { readonly jacket: undefined; readonly coil: WaterCoil<N> };

/** Capacities, conductances and surfaces of one drive, but for a jacket or a coil. */
export interface DryPaths<N extends Quantities = PlainNumbers> {
  /** Heat capacities [J/K]. */
  readonly capacity: {
    readonly winding: N['heatCapacity'];
    readonly stator: N['heatCapacity'];
    readonly can: N['heatCapacity'];
    readonly magnets: N['heatCapacity'];
    readonly controller: N['heatCapacity'];
    readonly cells: N['heatCapacity'];
  };
  /** Conductances between bodies [W/K]. */
  readonly windingToStator: N['conductance'];
  /** Between stator and can [W/K]. */
  readonly statorToCan: N['conductance'];
  /** Between stator and magnets [W/K]. */
  readonly statorToMagnets: N['conductance'];
  /** Between magnets and can [W/K]. */
  readonly magnetsToCan: N['conductance'];
  /** Conductance of the joint with the mount, from an outrunner's stator or an inrunner's can; of the whole way to the air where no surface is told [W/K]. */
  readonly toMount: N['conductance'];
  readonly mount: MountSurface<N> | undefined;
  /** A given conductance of the whole way from can to air, in place of its surfaces; 0 where they are calculated [W/K]. */
  readonly canToAir: N['conductance'];
  /** From the controller to the air of its compartment [W/K]. */
  readonly controllerToAir: N['conductance'];
  /** From the cells to the air of their compartment [W/K]. */
  readonly cellsToAir: N['conductance'];
  /** Share of each that follows speed and pressure of the compartment's air; compartment.ts [1]. */
  readonly controllerConvection: N['fraction'];
  /** The same of the cells [1]. */
  readonly cellsConvection: N['fraction'];
  /** Air in the compartment: its own speed [m/s], and share of the vehicle's [1]. */
  readonly compartmentAirSpeed: N['speed'];
  /** Share of the vehicle’s speed that the compartment’s air has besides [1]. */
  readonly compartmentSpeedShare: N['fraction'];
  /** Air through an open motor: conductance of winding and stator together at THROUGH_FLOW_SPEED of that air [W/K]. */
  readonly throughFlow: N['conductance'];
  /** A given conductance from the stator to the air, in place of `throughFlow` and openness. */
  readonly statorToAir: StatedFlow<N> | undefined;
  /** The can's outside, side and both ends apart [m²]; diameter and length [m]. */
  readonly sideArea: N['area'];
  /** Part of the side under a heat sink or a jacket [1]. */
  readonly sideCovered: N['fraction'];
  /** Of both ends of the can [m²]. */
  readonly endArea: N['area'];
  /** Outer diameter of the can [m]. */
  readonly canDiameter: N['length'];
  /** Length of the can [m]. */
  readonly canLength: N['length'];
  /** ε of the can’s surface [1]. */
  readonly emissivity: N['fraction'];
  /** Factor on every convection coefficient of the can, nominally 1 [1]. */
  readonly convectionFactor: N['ratio'];
  /** How freely air gets at the motor: factor on what the bell's own turning does for convection, and on the air through it; 1 in free air [1]. */
  readonly openness: N['fraction'];
  /** Air at the motor: its own speed, share of the vehicle’s, share of the slipstream’s whole speed; drive/air-at-motor.ts [m/s, 1, 1]. */
  readonly airSpeed: N['speed'];
  /** Share of the vehicle’s speed in it [1]. */
  readonly vehicleSpeedShare: N['fraction'];
  /** Share of the slipstream’s speed in it [1]. */
  readonly slipstreamShare: N['fraction'];
  readonly sink: FittedSink<N> | undefined;
  /** Metal or heat pipe from the motor to the hull, which has the water's temperature. */
  readonly strap: HullStrap<N> | undefined;
  /** What the cooling adds all round the can [m], and its mass [kg]. */
  readonly addedThickness: N['length'];
  /** Mass that the cooling adds [kg]. */
  readonly addedMass: N['mass'];
  /** Where a thermometer on the fixed end of an outrunner sits between stator (0) and mount (1); on an inrunner the end is part of the can [1]. */
  readonly endPlace: N['fraction'];
  readonly layout: 'inrunner' | 'outrunner';
}

/** Both faces of what the motor is bolted to [m²], and how they radiate [1]. */
export interface MountSurface<N extends Quantities = PlainNumbers> {
  readonly area: N['area'];
  readonly emissivity: N['fraction'];
}

/** Conductance [W/K] at a shaft speed [rad/s]; at every speed where that is 0. */
export interface StatedFlow<N extends Quantities = PlainNumbers> {
  readonly conductance: N['conductance'];
  readonly shaftSpeed: N['angularSpeed'];
}

/** A water jacket: conductance [W/K] at a vehicle speed [m/s], the share of it left at rest [1], and the body it covers. */
export interface StatedJacket<N extends Quantities = PlainNumbers> {
  readonly conductance: N['conductance'];
  readonly speed: N['speed'];
  readonly restShare: N['fraction'];
  readonly covers: 'can' | 'mount';
}

/** Conductance of a strap and both its joints [W/K], and the body it is clamped to. */
export interface HullStrap<N extends Quantities = PlainNumbers> {
  readonly conductance: N['conductance'];
  readonly covers: 'can' | 'mount';
}

/** A tube round the motor that a scoop or a pump feeds. */
export interface WaterCoil<N extends Quantities = PlainNumbers> {
  /** Inner diameter and length against the motor [m]. */
  readonly bore: N['length'];
  /** Along the motor [m]. */
  readonly length: N['length'];
  /** Speed of the water in the tube over the boat's [1]. */
  readonly speedShare: N['fraction'];
  /** Speed that a pump gives the water in the tube besides [m/s]. */
  readonly pumpSpeed: N['speed'];
  /** Conductance of wall and joint between tube and motor [W/K]. */
  readonly contact: N['conductance'];
  readonly water: WaterKind;
  readonly covers: 'can' | 'mount';
}

/** A finned sink and the conductance of the joint under it [W/K]. */
export interface FittedSink<N extends Quantities = PlainNumbers> {
  readonly fins: HeatSink<N>;
  readonly contact: N['conductance'];
  readonly covers: 'can' | 'mount' | 'controller';
}

/** The bodies of the heat network, in the order of its states. */
export const BODIES = ['winding', 'stator', 'can', 'magnets', 'controller', 'cells'] as const;
/** One of `BODIES`. */
export type Body = (typeof BODIES)[number];
/** Their number as a type: a bound written out where a loop is hot, and held to the list. */
export type BodyCount = (typeof BODIES)['length'];
/** One value for each body. */
export type ByBody<T = number> = { readonly [K in Body]: T };
/** One value for each body. */
export const byBody = <T>(value: (body: Body) => T): ByBody<T> =>
  Object.fromEntries(BODIES.map((body) => [body, value(body)])) as ByBody<T>;
