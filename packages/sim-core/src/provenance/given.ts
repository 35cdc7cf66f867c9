/**
 * What people give, in their own terms, gaps allowed: the scenario with each candidate's overrides merged in, before `complete`
 * fills the gaps by rule. Every quantity is a Datum; counts and kinds stay plain.
 *
 * @module
 */

import type { ShaftSpeed } from '../drive/drive-system.js';
import type { ProfileStep } from '../drive/profile.js';
import type { Drive } from '../parts/controller.js';
import type { Datum, Place } from './datum.js';
import type { Fleet } from './fleet.js';
import type { LearntUnknowns } from './learnt.js';
import type { MeasuredLog } from './measurables.js';

/** Every section knows where it stands, so that a missing datum can be pointed at. */
interface Section {
  readonly place: Place;
  readonly source?: string;
}

/** Air, altitude, water. */
export interface GivenAmbient extends Section {
  readonly air?: Datum<'temperature'>;
  readonly altitude?: Datum<'length'>;
  readonly pressure?: Datum<'pressure'>;
  readonly water?: Datum<'temperature'>;
  readonly waterKind?: 'fresh' | 'sea';
  readonly compartment?: Datum<'temperature'>;
}

/** Kinds of cells whose curves are known. */
export const CHEMISTRIES = ['lithium-polymer', 'lithium-ion', 'lithium-iron-phosphate', 'nickel-metal-hydride'] as const;
/** One of `CHEMISTRIES`. */
export type Chemistry = (typeof CHEMISTRIES)[number];

/** A pack, or a bench supply. */
export interface GivenBattery extends Section {
  readonly chemistry?: Chemistry;
  /** Number of cells in a row and of rows side by side [1]. */
  readonly cells?: { readonly series: number; readonly parallel?: number };
  readonly capacity?: Datum<'charge'>;
  readonly cellResistance?: Datum<'resistance'>;
  /** Slow part of the resistance: one RC pair per cell. */
  readonly polarisation?: { readonly resistance?: Datum<'resistance'>; readonly time?: Datum<'time'> };
  /** The person's own open-circuit curve of one cell: state of charge [1] and voltage [V]. */
  readonly openCircuit?: readonly { readonly charge: number; readonly voltage: number }[];
  readonly cellCutoff?: Datum<'voltage'>;
  readonly dischargeRating?: Datum<'dischargeRate'>;
  readonly mass?: Datum<'mass'>;
  readonly thermal?: { readonly toAir?: Datum<'conductance'>; readonly capacity?: Datum<'heatCapacity'> };
  /** In place of a pack: the voltage that a bench supply holds, and the most current it gives. */
  readonly supply?: Datum<'voltage'>;
  readonly currentLimit?: Datum<'current'>;
}

/** How the run starts. */
export interface GivenStart extends Section {
  readonly charge?: Datum<'fraction'>;
  readonly temperature?: Datum<'temperature'>;
  readonly batteryTemperature?: Datum<'temperature'>;
}

/** Wires and plugs between pack and controller. */
export interface GivenWiring extends Section {
  readonly gauge?: Datum<'wireGauge'>;
  readonly length?: Datum<'length'>;
  /** Number of plugs [1]. */
  readonly connectors?: number;
  readonly resistance?: Datum<'resistance'>;
}

/** The motor’s controller. */
export interface GivenController extends Section {
  readonly pathResistance?: Datum<'resistance'>;
  readonly motorCurrentLimit?: Datum<'current'>;
  readonly batteryCurrentLimit?: Datum<'current'>;
  readonly pwmFrequency?: Datum<'frequency'>;
  /** Rise and fall time together. */
  readonly switchingTime?: Datum<'time'>;
  /** Loss that the current ripple adds at half throttle and the pack's nominal voltage. */
  readonly voltageLoss?: Datum<'power'>;
  /** Both dead times of a cycle together. */
  readonly deadTime?: Datum<'time'>;
  /** Temperatures between which the motor current limit falls to nothing. */
  readonly derating?: { readonly from?: Datum<'temperature'>; readonly to?: Datum<'temperature'> };
  readonly idleCurrent?: Datum<'current'>;
  readonly freewheeling?: 'synchronous' | 'diode';
  readonly braking?: 'none' | 'regenerative';
  readonly drive?: Drive;
  readonly mass?: Datum<'mass'>;
  readonly thermal?: { readonly toAir?: Datum<'conductance'>; readonly capacity?: Datum<'heatCapacity'> };
}

/** The gearbox. */
export interface GivenGearbox extends Section {
  readonly ratio?: Datum<'ratio'>;
  readonly efficiency?: Datum<'fraction'>;
  readonly mass?: Datum<'mass'>;
}

interface PropellerBasics extends Section {
  readonly diameter?: Datum<'length'>;
  readonly blades?: number;
  readonly wakeFraction?: Datum<'fraction'>;
  readonly thrustDeduction?: Datum<'fraction'>;
  readonly shaftEfficiency?: Datum<'fraction'>;
  readonly inertia?: Datum<'inertia'>;
  readonly folding?: boolean;
  /** Medium; by default air for air propellers, water where the ambient gives a water kind and the propeller is marine. */
  readonly medium?: 'air' | 'water';
}

/** A propeller by a table of coefficients. */
export interface GivenCoefficients extends PropellerBasics {
  readonly kind: 'coefficients';
  /** J, CT and CP, row by row [1]. */
  readonly table: readonly { readonly advanceRatio: number; readonly thrust: number; readonly power: number }[];
  /** Error of the table's thrust and power, as a factor around 1. */
  readonly thrustFactor?: Datum<'ratio'>;
  readonly powerFactor?: Datum<'ratio'>;
}

/** Measurements of a propeller, and what they were taken with. */
export interface GivenReadings {
  readonly points: readonly {
    readonly shaftSpeed: Datum<'angularSpeed'>;
    readonly thrust?: Datum<'force'>;
    readonly torque?: Datum<'torque'>;
    readonly shaftPower?: Datum<'power'>;
    readonly batteryCurrent?: Datum<'current'>;
    readonly voltage?: Datum<'voltage'>;
    readonly throttle?: Datum<'fraction'>;
    readonly vehicleSpeed?: Datum<'speed'>;
  }[];
  /** Temperature and altitude of the measurement; by default the scenario's own. */
  readonly measuredAt?: { readonly air?: Datum<'temperature'>; readonly altitude?: Datum<'length'> };
  /** Name of the candidate whose motor and gear turned it where battery current was read, and what that candidate was given. */
  readonly measuredWith?: string;
  readonly bench?: GivenDrive;
}

/** A propeller by measured points. */
export interface GivenMeasuredPoints extends PropellerBasics, GivenReadings {
  readonly kind: 'measured-points';
}

/** Points at rest beside it set what is calculated. */
export interface GivenBladeElement extends PropellerBasics, Partial<GivenReadings> {
  readonly kind: 'blade-element';
  readonly family?: 'thin' | 'broad' | 'stout' | 'folding';
  readonly pitch?: Datum<'length'>;
  /** Stations along the blade: radius and chord [m], twist [rad]. */
  readonly stations?: readonly { readonly radius: number; readonly chord: number; readonly twist: number }[];
}

/** A screw of the B series. */
export interface GivenMarineSeries extends PropellerBasics {
  readonly kind: 'marine-series';
  readonly pitchRatio?: Datum<'ratio'>;
  readonly pitch?: Datum<'length'>;
  readonly areaRatio?: Datum<'ratio'>;
  /** Depth of the shaft below the surface. */
  readonly immersion?: Datum<'length'>;
}

/** A propeller, by one of the ways to know it. */
export type GivenPropeller = GivenCoefficients | GivenMeasuredPoints | GivenBladeElement | GivenMarineSeries;

/** Driven wheels. */
export interface GivenWheel extends Section {
  readonly radius?: Datum<'length'>;
  readonly rollingResistance?: Datum<'ratio'>;
  readonly dragArea?: Datum<'area'>;
  readonly grip?: Datum<'ratio'>;
  readonly drivenShare?: Datum<'fraction'>;
  readonly inertia?: Datum<'inertia'>;
}

/** What is driven. */
export interface GivenVehicle extends Section {
  readonly mass?: Datum<'mass'>;
  readonly addedMass?: Datum<'fraction'>;
  /** Drag of hull or car over speed [m/s, N], the first row at rest added when it is missing. */
  readonly drag?: readonly { readonly speed: number; readonly force: number }[];
  readonly dragFactor?: Datum<'ratio'>;
  readonly dragArea?: Datum<'area'>;
  readonly wing?: {
    readonly area?: Datum<'area'>;
    readonly aspectRatio?: Datum<'ratio'>;
    readonly spanEfficiency?: Datum<'ratio'>;
    readonly zeroLiftDrag?: Datum<'ratio'>;
    readonly mostLift?: Datum<'ratio'>;
  };
}

export const JOINTS = ['paste', 'tape', 'pad', 'dry'] as const;
/** What is between a sink and what it cools. */
export type Joint = (typeof JOINTS)[number];
export const STRAPS = ['copper', 'aluminium', 'heat-pipe'] as const;

/** What cools the motor and the rest. */
export interface GivenCooling extends Section {
  /** A small fan that blows at the motor. */
  readonly fan?: Section & {
    readonly diameter?: Datum<'length'>;
    readonly flow?: Datum<'volumeFlow'>;
    readonly power?: Datum<'power'>;
    readonly mass?: Datum<'mass'>;
  };
  /** Metal or heat pipe from the motor to the hull. */
  readonly strap?: Section & {
    readonly material?: (typeof STRAPS)[number];
    readonly crossSection?: Datum<'area'>;
    readonly length?: Datum<'length'>;
    readonly contact?: Datum<'conductance'>;
    readonly covers?: 'can' | 'mount';
  };
  /** Air that passes controller and pack. */
  readonly compartment?: { readonly speed?: Datum<'speed'>; readonly shareOfVehicleSpeed?: Datum<'fraction'> };
  readonly waterJacket?: Section & {
    readonly conductance?: Datum<'conductance'>;
    readonly atSpeed?: Datum<'speed'>;
    readonly restShare?: Datum<'fraction'>;
    /** What it adds all round the can. */
    readonly thickness?: Datum<'length'>;
    readonly covers?: 'can' | 'mount';
  };
  /** A tube round the motor, calculated from its flow. */
  readonly waterCoil?: Section & {
    readonly bore?: Datum<'length'>;
    readonly length?: Datum<'length'>;
    readonly shareOfBoatSpeed?: Datum<'fraction'>;
    /** What a pump moves through it. */
    readonly pump?: Datum<'volumeFlow'>;
    readonly contact?: Datum<'conductance'>;
    readonly covers?: 'can' | 'mount';
  };
  readonly heatSink?: Section & {
    /** Number of fins [1]. */
    readonly fins?: number;
    readonly finHeight?: Datum<'length'>;
    readonly finThickness?: Datum<'length'>;
    readonly length?: Datum<'length'>;
    readonly breadth?: Datum<'length'>;
    readonly material?: 'aluminium' | 'copper' | 'steel';
    readonly contact?: Datum<'conductance'>;
    readonly joint?: Joint;
    /** Part of the can's side that the sink covers. */
    readonly coverage?: Datum<'fraction'>;
    readonly covers?: 'can' | 'mount' | 'controller';
  };
  /** The whole way from motor to air by the mount, or one face of the plate it stands on. */
  readonly mount?: { readonly conductance?: Datum<'conductance'>; readonly plate?: Datum<'area'> };
  readonly air?: {
    /** Whose air it is; outside where it is not said. */
    readonly from?: 'outside' | 'compartment';
    readonly speed?: Datum<'speed'>;
    readonly shareOfVehicleSpeed?: Datum<'fraction'>;
    readonly shareOfSlipstream?: Datum<'fraction'>;
    readonly openness?: Datum<'fraction'>;
    /** A cowl round the motor: its inlet, and the gap between can and cowl. */
    readonly cowl?: Section & { readonly inlet?: Datum<'area'>; readonly gap?: Datum<'length'> };
  };
}

export const INSULATION_CLASSES = ['A', 'E', 'B', 'F', 'H', 'N'] as const;
export const MAGNET_GRADES = ['N', 'M', 'H', 'SH', 'UH', 'EH', 'AH'] as const;

/** In place of a resistance: what the bench reading asks for. */
export const FROM_READING = 'from-reading';

/** What a bench showed. */
export interface GivenReading {
  /** At the controller, and from the supply. */
  readonly voltage: Datum<'voltage'>;
  readonly current: Datum<'current'>;
  /** Of the propeller. */
  readonly shaftSpeed: Datum<'angularSpeed'>;
}

/** What was read at one moment of one drive, and when: at a throttle that was held, at a time of the run, or after its stop. */
export interface GivenReadingRow extends Section {
  readonly throttle?: Datum<'fraction'>;
  readonly at?: Datum<'time'>;
  readonly after?: Datum<'time'>;
  readonly vehicleSpeed?: Datum<'speed'>;
  readonly voltage?: Datum<'voltage'>;
  readonly batteryCurrent?: Datum<'current'>;
  readonly motorCurrent?: Datum<'current'>;
  readonly shaftSpeed?: Datum<'angularSpeed'>;
  readonly thrust?: Datum<'force'>;
  /** Between two leads. */
  readonly resistance?: Datum<'resistance'>;
  readonly resistanceAt?: Datum<'temperature'>;
  readonly can?: Datum<'temperature'>;
  readonly end?: Datum<'temperature'>;
  readonly controller?: Datum<'temperature'>;
  readonly cells?: Datum<'temperature'>;
  readonly besideCoils?: Datum<'temperature'>;
  readonly inSlot?: Datum<'temperature'>;
  readonly emissivity?: Datum<'fraction'>;
  readonly measuredWith?: string;
}

/** The motor, as a sheet has it. */
export interface GivenMotor extends Section {
  readonly layout?: 'inrunner' | 'outrunner';
  readonly kv?: Datum<'speedConstant'>;
  /** How Kv was found: from the no-load speed (default) or from the peak of the generated voltage. */
  readonly kvMeasured?: 'no-load' | 'back-emf';
  readonly resistance?: Datum<'resistance'> | typeof FROM_READING;
  /** A bench reading of this motor at full throttle, where its propeller was measured with it. */
  readonly reading?: GivenReading;
  /** Between two leads (default), or one phase of a star. */
  readonly resistanceBetween?: 'lines' | 'phase-and-star';
  /** Temperature at which the resistance is stated; 20 °C where nothing is said. */
  readonly resistanceAt?: Datum<'temperature'>;
  /** Between the same two points as the resistance. */
  readonly inductance?: Datum<'inductance'>;
  readonly noLoad?: readonly {
    readonly current?: Datum<'current'>;
    readonly voltage?: Datum<'voltage'>;
    /** In place of Kv. */
    readonly speed?: Datum<'angularSpeed'>;
  }[];
  /** Number of poles, even [1]. */
  readonly poles?: number;
  readonly mass?: Datum<'mass'>;
  readonly can?: { readonly diameter?: Datum<'length'>; readonly length?: Datum<'length'> };
  readonly stackLength?: Datum<'length'>;
  readonly statorDiameter?: Datum<'length'>;
  readonly rotorInertia?: Datum<'inertia'>;
  readonly magnetThickness?: Datum<'length'>;
  readonly airGap?: Datum<'length'>;
  readonly magnetGrade?: (typeof MAGNET_GRADES)[number];
  readonly insulationClass?: (typeof INSULATION_CLASSES)[number];
  readonly thermal?: {
    readonly windingToStator?: Datum<'conductance'>;
    readonly statorToCan?: Datum<'conductance'>;
    readonly canToAir?: Datum<'conductance'>;
    /** Stator to the air that passes through the motor, and the shaft speed at which it holds; at every speed where none is given. */
    readonly statorToAir?: { readonly conductance?: Datum<'conductance'>; readonly atSpeed?: Datum<'angularSpeed'> };
    /** The two thermal resistances that catalogues print. */
    readonly windingToHousing?: Datum<'conductance'>;
    readonly housingToAmbient?: Datum<'conductance'>;
    readonly windingCapacity?: Datum<'heatCapacity'>;
    readonly statorCapacity?: Datum<'heatCapacity'>;
    readonly canCapacity?: Datum<'heatCapacity'>;
  };
  /** What label and sheet say, where the motor is measured. */
  readonly labelKv?: Datum<'speedConstant'>;
  readonly labelResistance?: Datum<'resistance'>;
  readonly readings?: readonly GivenReadingRow[];
  readonly makerLimits?: {
    readonly current?: Datum<'current'>;
    readonly voltage?: Datum<'voltage'>;
    readonly inputPower?: Datum<'power'>;
    readonly shaftSpeed?: Datum<'angularSpeed'>;
  };
}

/** The resistance that a sheet states. */
export const writtenResistance = (motor: GivenMotor | undefined): Datum<'resistance'> | undefined =>
  motor?.resistance === FROM_READING ? undefined : motor?.resistance;

/** What must not be passed. */
export interface GivenLimits extends Section {
  readonly winding?: Datum<'temperature'>;
  readonly magnets?: Datum<'temperature'>;
  readonly controller?: Datum<'temperature'>;
  readonly cells?: Datum<'temperature'>;
  readonly reserve?: Datum<'fraction'>;
  readonly batteryPower?: Datum<'power'>;
  readonly energy?: Datum<'energy'>;
  readonly runTime?: Datum<'time'>;
}

/** The room that there is. */
export interface GivenSpace extends Section {
  readonly diameter?: Datum<'length'>;
  readonly length?: Datum<'length'>;
  readonly mass?: Datum<'mass'>;
}

/** One candidate's whole drive as given, the scenario's common part and its own overrides merged. */
export interface GivenDrive extends Section {
  readonly ambient?: GivenAmbient;
  readonly battery?: GivenBattery;
  readonly start?: GivenStart;
  readonly wiring?: GivenWiring;
  readonly controller?: GivenController;
  readonly motor?: GivenMotor;
  readonly gearbox?: GivenGearbox;
  readonly propeller?: GivenPropeller;
  readonly wheel?: GivenWheel;
  readonly vehicle?: GivenVehicle;
  readonly cooling?: GivenCooling;
  readonly limits?: GivenLimits;
  readonly space?: GivenSpace;
  readonly otherLoads?: Datum<'power'>;
  /** Number of equal drives on one pack [1]. */
  readonly drives?: number;
  readonly solver?: { readonly shaftSpeed?: ShaftSpeed };
  readonly readings?: readonly GivenReadingRow[];
  /** How far labels, sheets and rules are off for motors that were identified. */
  readonly fleet?: Fleet;
  /** What readings left of the unknowns, of this drive's and of others that share them. */
  readonly learnt?: LearntUnknowns;
}

/** What a ranking may look for. */
export const OBJECTIVES = ['coolest', 'longest', 'fastest', 'lightest'] as const;
/** One of `OBJECTIVES`: what the ranking looks for among those that meet every limit. */
export type Objective = (typeof OBJECTIVES)[number];

/** How a log file became the profile: its rows, the straight pieces that stand for them, and how far those are from the rows. */
export interface LogFacts {
  readonly file: string;
  /** Number of rows that count [1]. */
  readonly rows: number;
  /** Number of straight pieces that stand for them [1]. */
  readonly pieces: number;
  /** Part of the file's time that is driven [s]. */
  readonly from: number;
  /** End of that part [s]. */
  readonly to: number;
  /** Largest deviation and mean over time (signed) of each column, over its largest value [1]. */
  readonly deviations: readonly { readonly column: string; readonly largest: number; readonly mean: number }[];
  /** What was taken for what, in words: a comma for a decimal mark, a pulse for a duty, rows left out. */
  readonly taken: readonly string[];
}

/** A scenario as it was given, overrides merged, profile unrolled, gaps open. */
export interface GivenScenario {
  readonly title: string;
  readonly notes?: string;
  readonly objective: Objective;
  readonly profile: readonly ProfileStep[];
  /** Where the profile is a log file. */
  readonly log?: LogFacts;
  /** What was measured on the run, where there is a log of it. */
  readonly measured?: MeasuredLog;
  readonly candidates: readonly { readonly name: string; readonly given: GivenDrive }[];
  /** Those that stand beside the candidates; a candidate's and a motor's own stand there. */
  readonly readings?: readonly GivenReadingRow[];
}
