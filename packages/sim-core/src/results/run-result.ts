/** Everything a run found, as plain data in SI; the report draws it and knows no physics. @module */

import type { PowerTerm } from '../drive/power-terms.js';
import type { Held } from '../drive/profile.js';
import type { HeatWay } from '../heat/heat-ways.js';
import type { Vehicle } from '../parts/vehicle.js';
import type { LogFacts, Objective } from '../provenance/given.js';
import type { Dimension, Si } from '../quantities/index.js';
import type { AfterStopResult } from './after-stop-result.js';
import type { Assumption } from './assumption.js';
import type { AuditResult } from './audit-result.js';
import type { ChannelId } from './channels.js';
import type { CostlyResult } from './costly-result.js';
import type { DoubtResult } from './doubt-result.js';
import type { EfficiencyMap } from './efficiency-result.js';
import type { Finding } from './finding.js';
import type { HeadlineDimension, HeadlineId, MaybeHeadline } from './headlines.js';
import type { LimitResult } from './limit-result.js';
import type { MeasuredResult } from './measured-result.js';
import type { PartThrottleResult } from './part-throttle-result.js';
import type { PartLine } from './parts-list.js';
import type { RatingResult } from './rating-result.js';
import type { ReadingsResult } from './readings-result.js';
import type { ShapeResult } from './shape-result.js';
import type { WhyResult } from './why-result.js';
import type { WindingResult } from './winding-result.js';

/** A headline figure. */
export interface Figure<D extends Dimension = Dimension> {
  readonly dimension: D;
  /** With nominal data [SI, as the figure]. */
  readonly nominal: number;
  /** Where it lies in 90 of 100 draws, once doubt has been sampled. */
  readonly band?: FigureBand;
}

/** The ends of a band [SI, as the figure]: 5 of 100 draws are below the lower, 5 above the upper. */
export interface FigureBand {
  readonly p05: number;
  readonly p95: number;
}

/** Channels over time, each as long as `time` [SI]. */
export type Trace = { readonly time: readonly number[] } & { readonly [K in ChannelId]: readonly number[] };

/** One step as it was driven. */
export interface StepResult {
  /** When the step begins [s]. */
  readonly from: Si<'time'>;
  /** When it ends [s]. */
  readonly to: Si<'time'>;
  readonly label?: string;
  readonly hold: Held;
}

/** Torque over speed at the motor shaft for a chart: lines at several throttles, the load, and where they cross. */
export interface TorqueSpeedChart {
  /** Of the moment that the chart shows, from the start of the run [s]. */
  readonly time: number;
  /** Of the vehicle then [m/s]. */
  readonly vehicleSpeed: number;
  /** Of the pack then [1]. */
  readonly charge: number;
  /** [rad/s], common to all lines. */
  readonly speed: readonly number[];
  /** Torque of the motor at each speed [N·m], a line a throttle [1]. */
  readonly lines: readonly { readonly throttle: number; readonly torque: readonly number[] }[];
  /** Torque that the load asks at the motor, at each speed [N·m]. */
  readonly load: readonly number[];
  /** The vehicle holds the speed (wheels): the one crossing is the point that was driven at this moment, on its motor line and not on the load. */
  readonly held: boolean;
  /** Where motor and load meet: throttle and efficiency [1], shaft speed [rad/s], torque [N·m], motor current [A]. */
  readonly crossings: readonly {
    /** Duty of the controller, 0 to 1 [1]. */
    readonly throttle: number;
    readonly speed: number;
    readonly torque: number;
    /** Of the motor [A]. */
    readonly motorCurrent: number;
    /** η — power out over power in [1]. */
    readonly efficiency: number;
  }[];
}

/** Powers at one moment and what they say. */
export interface PowerMoment {
  /** Of the moment, from the start of the run [s]. */
  readonly time: number;
  readonly label: string;
  readonly power: { readonly [K in PowerTerm]: Si<'power'> };
  readonly channels: { readonly [K in ChannelId]: number };
  /** What leaves each way [W], of one drive and its share of the pack. */
  readonly leaves: { readonly [K in HeatWay]: Si<'power'> };
}

/**
 * Energies over the run [J]. `residual` is what does not close, as a share of what left the cells; `heatResidual` what does not close of heat made = heat
 * stored + heat given off by each way, as a share of the greatest of the three; `chargeResidual` what does not close of charge drawn = capacity × fall of the
 * state of charge, as a share of the greater of the two (0 for a bench supply, which does not empty).
 */
export interface EnergyAccount {
  readonly terms: { readonly [K in PowerTerm]: Si<'energy'> };
  /**
   * Drag, climb and kinetic energy gained = useful work + work that the profile imposed on the vehicle over time (negative: taken from it) + what the
   * jumps of a held speed gave it.
   */
  readonly drag: Si<'energy'>;
  readonly climb: Si<'energy'>;
  readonly kinetic: Si<'energy'>;
  readonly imposed: Si<'energy'>;
  readonly jumps: Si<'energy'>;
  /** Kinetic energy of shafts whose speed followed a hold or the balance at once, so that no power gave it; 0 where no shaft's speed is a state. */
  readonly shaftFollowed: Si<'energy'>;
  /** Losses of motors, controllers and cells: made, stored as heat, given off by each way and by all together. */
  readonly heatMade: Si<'energy'>;
  readonly heatStored: Si<'energy'>;
  readonly heatLeaves: { readonly [K in HeatWay]: Si<'energy'> };
  readonly heatShed: Si<'energy'>;
  readonly residual: number;
  readonly heatResidual: number;
  readonly chargeResidual: number;
}

/** One size of the motor against the space for it; gearbox mass counts with the motor's. */
export interface SpaceRoom<M extends 'length' | 'mass' = 'length' | 'mass'> {
  /** What the part takes [m, or kg]. */
  readonly size: Si<M>;
  /** What there is [m, or kg]. */
  readonly bound: Si<M>;
  /** What is left, negative where it does not fit [m, or kg]. */
  readonly room: Si<M>;
}

/** How a run ended. */
export type RunEnd = 'finished' | 'cut-off' | 'empty' | 'burnt' | 'failed';

/** One candidate’s run. */
export interface CandidateResult {
  readonly name: string;
  readonly feasible: boolean;
  /** Limits in order of closeness; the first binds. */
  readonly limits: readonly LimitResult[];
  readonly headline: { readonly [K in Exclude<HeadlineId, MaybeHeadline>]: Figure<HeadlineDimension<K>> } & {
    readonly [K in MaybeHeadline]?: Figure<HeadlineDimension<K>>;
  };
  readonly facts: {
    /** Mass [kg]. */
    readonly mass: number;
    /** Outer diameter of the can [m]. */
    readonly canDiameter: number;
    /** Length of the can [m]. */
    readonly canLength: number;
    /** Of the can’s side [m²]. */
    readonly sideArea: Si<'area'>;
    /** Of both ends of the can [m²]. */
    readonly endArea: Si<'area'>;
    /** Of the winding between two leads, at 20 °C [Ω]. */
    readonly resistance: number;
    /** Torque over motor current [N·m/A]. */
    readonly torqueConstant: number;
    /** Torque over the root of the copper loss [N·m/√W]. */
    readonly motorConstant: number;
    /** Turns of the motor to one of the output [1]. */
    readonly gearRatio: number;
    /** What carries the vehicle. */
    readonly carriedBy: Vehicle['carriedBy'];
    readonly fits: boolean;
  };
  /** Room left in the space that was given, by what was given [m, m, kg]; negative where the motor does not fit. */
  readonly space?: {
    readonly diameter?: SpaceRoom<'length'>;
    readonly length?: SpaceRoom<'length'>;
    readonly mass?: SpaceRoom<'mass'>;
  };
  readonly end: RunEnd;
  /** What ends the run driven again and again where that is not the pack; absent where it is, or where nothing ends it. */
  readonly endsRepeated?: Extract<RunEnd, 'burnt' | 'failed'>;
  /** How long the run was driven again and again where nothing ended it: a day, unless so short a run needs more work than can be given [s]; absent where it ended. */
  readonly outlasts?: Si<'time'>;
  readonly trace: Trace;
  readonly energy: EnergyAccount;
  /** The moment of greatest battery power after the first tenth of the hardest step. */
  readonly moment: PowerMoment;
  readonly torqueSpeed: TorqueSpeedChart;
  /** The parts as people list them. */
  readonly parts?: readonly PartLine[];
  readonly efficiencyMap?: EfficiencyMap;
  readonly afterStop?: AfterStopResult;
  readonly rating?: RatingResult;
  readonly partThrottle?: PartThrottleResult;
  readonly findings: readonly Finding[];
  /** `tolerance` is the relative one of the integration [1]. */
  readonly statistics: { readonly method: string; readonly tolerance?: number; readonly steps: number; readonly evaluations: number };
}

/** The result of a run: all candidates, ranked, with findings, assumptions and cautions. */
export interface RunResult {
  readonly schema: 'shaftwork.run/1';
  readonly version: string;
  readonly scenario: {
    readonly title: string;
    readonly notes?: string;
    readonly objective: Objective;
    /** FNV-1a of the scenario text and its part files. */
    readonly hash: string;
    readonly steps: readonly StepResult[];
    /** Time that the profile takes [s]. */
    readonly duration: Si<'time'>;
    /** Where the profile is a log file: its rows, the pieces that stand for them, how far those are from the rows. */
    readonly log?: LogFacts;
    /** The files as read, the scenario first; of a long log file its beginning, which is then said. */
    readonly files: readonly { readonly path: string; readonly text: string; readonly shortened?: true }[];
  };
  readonly candidates: readonly CandidateResult[];
  /** Names, the best first: those that meet every limit, then the objective. */
  readonly ranking: readonly string[];
  /** The verdict in a few sentences, made from the figures, plain text. */
  readonly verdict: readonly string[];
  readonly findings: readonly Finding[];
  readonly assumptions: readonly Assumption[];
  readonly cautions: readonly string[];
  /** What was read of a drive, where anything was. */
  readonly readings?: ReadingsResult;
  /** How sure: absent where nothing was sampled. */
  readonly doubt?: DoubtResult;
  /** The numbers that cost the answer most, and where each tips it. */
  readonly costly?: CostlyResult;
  /** Why the leader differs from the runner-up. */
  readonly why?: WhyResult;
  /** What was measured on the run, against the prediction. */
  readonly measured?: MeasuredResult;
  /** What is odd about the spec sheets. */
  readonly audit?: AuditResult;
  /** Long or wide, and which winding, where they were asked for. */
  readonly shape?: ShapeResult;
  readonly winding?: WindingResult;
}
