/** What a simulation is asked for, and what it gives. @module */

import type { KernelEvent } from '../../kernel/event-margins.js';
import type { Kernel } from '../../kernel/kernel.js';
import type { IntegrationMethod } from '../../numerics/integrate.js';
import { certain } from '../../problems/certain.js';
import type { ChannelId } from '../../results/channels.js';
import type { RunEnd } from '../../results/run-result.js';
import type { PackMeter } from './energy-account.js';
import type { Peak } from './extremes-watch.js';
import type { RunNotes } from './step-notes.js';
import type { Recording, StateWatch } from './step-sight.js';

/** Relative tolerance of runs that are shown [1]: accounts by quadrature then agree with the states to about 1e-6. */
export const DEFAULT_TOLERANCE = 1e-8;

/** How a simulation is integrated and what is kept of it: times [s], tolerances [1]. */
export interface SimulateOptions {
  /** odex for a run that is shown, Dormand & Prince's method for one of many. */
  readonly method?: IntegrationMethod;
  /** Relative tolerance; absolute ones follow (temperatures [K], charge and polarisation, speed). */
  readonly relative?: number;
  /** Record traces and energies too (a shown run), or only peaks, events and the end (one of many). */
  readonly record?: boolean;
  /** Time that a record's samples are spread over [s]; else the profile's. */
  readonly span?: number;
  /** Drive the profile again and again until the cells are empty, 24 h are over, or it has cost as much as many runs. */
  readonly again?: boolean;
  /** Times at which the state is kept [s], rising; for bands over many runs. */
  readonly keepAt?: Float64Array;
  readonly watch?: StateWatch;
}

/** What a simulation found: how it ended, where it failed why it did. */
export type Simulation = SimulationFound &
  ({ readonly end: Exclude<RunEnd, 'failed'> } | { readonly end: 'failed'; readonly failure: SimulationFailure });

/** Where no operating point exists and a run ends: at which step [1], and when [s]. */
export interface SimulationFailure {
  readonly step: number;
  readonly time: number;
  readonly why: string;
}

/** What every simulation found: its states [SI] at the times [s] that were asked for, the extremes, the notes by number of step [1]. */
export interface SimulationFound extends RunNotes {
  readonly time: number;
  /** Final state, in the kernel's order. */
  readonly state: Float64Array;
  readonly kernel: Kernel;
  readonly initialState: Float64Array;
  /** First time of each event [s]. */
  readonly passed: ReadonlyMap<KernelEvent, number>;
  readonly highest: Readonly<Record<ChannelId, Peak>>;
  readonly lowest: Readonly<Record<ChannelId, Peak>>;
  /** States at `keepAt`, as many as the run reached. */
  readonly kept: readonly Float64Array[];
  /** What a recorded run has besides. */
  readonly recorded: Recording | undefined;
  /** Energy from the pack, where it is limited. */
  readonly drawn: Pick<PackMeter, 'energy' | 'passedAt'> | undefined;
  /** Farthest beyond the propeller's table while driving, in advance ratio [1]; 0 where it was not left. */
  readonly outsideTable: number;
  readonly steps: number;
  readonly evaluations: number;
}

/** The recording of a run that was recorded. Throws Error for another. */
export const recordingOf = ({ recorded }: Pick<Simulation, 'recorded'>): Recording => certain(recorded, 'recording of the run');
