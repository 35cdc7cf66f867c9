/** Long or wide at equal mass and Kv: a family of motors scaled from one, on the scenario's own run. Plain data, SI. @module */

import type { Objective } from '../provenance/given.js';
import type { Si } from '../quantities/index.js';
import type { LimitId } from './limits.js';

/** One motor of the family, or a real candidate on the same chart. */
export interface ShapePoint {
  /** Name of a real candidate; absent for a member of the family. */
  readonly name?: string;
  /** Can diameter over can length [1]. */
  readonly ratio: number;
  /** Diameter of the can [m]. */
  readonly diameter: Si<'length'>;
  /** Length of the can [m]. */
  readonly length: Si<'length'>;
  /** Length of the iron that works, and what end turns and end bells take of the can [m]. */
  readonly stackLength: Si<'length'>;
  /** Mass [kg]. */
  readonly mass: Si<'mass'>;
  /** Of the can’s side [m²]. */
  readonly sideArea: Si<'area'>;
  /** Of both ends of the can [m²]. */
  readonly endArea: Si<'area'>;
  /** Of the winding between two leads, at 20 °C [Ω]. */
  readonly resistance: Si<'resistance'>;
  /** At the reference's no-load speed [A]. */
  readonly noLoadCurrent: Si<'current'>;
  /** Torque over the root of the copper loss [N·m/√W]. */
  readonly motorConstant: Si<'motorConstant'>;
  /** Shear stress in the gap at the run's peak torque [Pa]; the one that a shape stands is not constant. */
  readonly shearStress: Si<'pressure'>;
  /** Surface speed of the rotor at the highest motor speed of the run [m/s]. */
  readonly rotorSurfaceSpeed: Si<'speed'>;
  /** On the scenario's run [K], [A]. */
  readonly peakWindingTemperature: Si<'temperature'>;
  /** Highest of the run [K]. */
  readonly peakCanTemperature: Si<'temperature'>;
  /** Highest of the run [A]. */
  readonly peakMotorCurrent: Si<'current'>;
  /** Motor current [A] whose losses the motor gives off at its winding limit, along the scenario's load; absent where none is found. */
  readonly continuousCurrent?: Si<'current'>;
  /** The nearest limit, and what is left of it as a share of the way from start to bound [1]. */
  readonly binding?: { readonly limit: LimitId; readonly words: string; readonly marginShare: number };
  readonly meetsLimits: boolean;
  readonly fits: boolean;
}

/** A family of shapes about one motor. */
export interface ShapeResult {
  readonly schema: 'shaftwork.reshape/1';
  readonly reference: string;
  readonly objective: Objective;
  /** From wide to long, that is by falling diameter : length. */
  readonly family: readonly ShapePoint[];
  /** The candidates as they are, the reference among them. */
  readonly real: readonly ShapePoint[];
  /** Diameter : length that serves the objective best under limits and space; absent where no member of the family meets both. */
  readonly best?: ShapePoint;
  /** Best without regard to the space. */
  readonly bestUnbounded?: ShapePoint;
  /** Space that was given [m]; absent where none. */
  readonly space?: { readonly diameter?: Si<'length'>; readonly length?: Si<'length'> };
  /**
   * What drives the difference between the best shape and the reference: peak winding temperature [K] of the reference's shape with one
   * group of properties taken from the best one, less the reference's own.
   */
  readonly drivers: readonly {
    readonly id: 'copper' | 'no-load' | 'heat-inside' | 'surface';
    readonly words: string;
    readonly change: Si<'temperatureDifference'>;
  }[];
  /** The laws by which the family was scaled, in words, with their source. */
  readonly laws: readonly string[];
  readonly sentences: readonly string[];
}
