/**
 * Integrates one drive over a profile: restarts at every break, follows holds that are lost and regained, finds events by root-finding,
 * peaks from dense output, energies by quadrature on the integrator's own steps.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { type ProfileStep, profileDuration } from '../../drive/profile.js';
import { changesDriving, EVENT_PLACE, endOf, KERNEL_EVENTS, type KernelEvent } from '../../kernel/event-margins.js';
import { createKernel, type Kernel } from '../../kernel/kernel.js';
import { type ByKind, stateVector } from '../../kernel/state-places.js';
import { dormandPrinceWorkspace } from '../../numerics/dormand-prince.js';
import { type IntegrationMethod, integrate } from '../../numerics/integrate.js';
import { IntegrationFailure } from '../../numerics/integration-failure.js';
import type { OdeSystem, StepView } from '../../numerics/ode-system.js';
import { certain } from '../../problems/certain.js';
import { SECONDS_PER_HOUR } from '../../quantities/constants.js';
import type { ChannelId } from '../../results/channels.js';
import type { EnergyAccount, RunEnd, Trace } from '../../results/run-result.js';
import { energyMeter, type PackMeter, packMeter } from './energy-account.js';
import { extremesWatch, type Peak } from './extremes-watch.js';
import { spinUp } from './spin-up.js';
import { type RunNotes, runNotebook } from './step-notes.js';
import { traceRecorder } from './trace-recorder.js';

/** Relative tolerance of runs that are shown [1]. */
export const DEFAULT_TOLERANCE = 1e-6;

export interface SimulateOptions {
  /** odex for a run that is shown, Dormand & Prince's method for one of many. */
  readonly method?: IntegrationMethod;
  /** Relative tolerance; absolute ones follow (temperatures [K], charge and polarisation, speed). */
  readonly relative?: number;
  /** Record traces and energies too (a shown run), or only peaks, events and the end (one of many). */
  readonly record?: boolean;
  /** Time that a record's samples are spread over [s]; else the profile's. */
  readonly span?: number;
  /** Drive the profile again and again until the cells are empty or 24 h are over. */
  readonly again?: boolean;
  /** Times at which the state is kept [s], rising; for bands over many runs. */
  readonly keepAt?: Float64Array;
  /** Is shown the states at `times` [s], rising, while the kernel drives them, so that they can be solved there. */
  readonly watch?: { readonly times: Float64Array; readonly see: (index: number, kernel: Kernel, y: Float64Array) => void };
}

/** Curves of a run: all channels and the state behind each sample, and where the energy went. */
export interface Recording {
  readonly trace: Trace;
  readonly states: readonly Float64Array[];
  readonly energy: EnergyAccount;
}

export interface Simulation extends RunNotes {
  readonly end: RunEnd;
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
  /** Where no operating point exists and the run ends. */
  readonly failure?: { readonly step: number; readonly time: number; readonly why: string };
  readonly steps: number;
  readonly evaluations: number;
}

/** What a relative tolerance of 1 would allow each state [K, rad/s, 1, V, m/s]; the vehicle's speed decides most steps. */
const SCALE: ByKind = { temperature: 10, shaft: 100, charge: 0.05, polarisation: 1, speed: 30 };
/** First step after a break, as a share of the second one after the break before [1]. */
const CARRIED = 0.5;
const LONGEST = 24 * SECONDS_PER_HOUR;

/** A vehicle that is slower than a held speed by less than this is taken for as fast: rounding, the integrator's tolerance, and profiles written to a digit [1]. */
const LAG = 0.01;

/** The recording of a run that was recorded. Throws Error for another. */
export const recordingOf = ({ recorded }: Pick<Simulation, 'recorded'>): Recording => certain(recorded, 'recording of the run');

/** A step whose way of driving changes more often than this has none that lasts. */
const MOST_CHANGES = 2000;

/** Runs `system` over `profile`. */
export function simulate(system: DriveSystem, profile: readonly ProfileStep[], options: SimulateOptions = {}): Simulation {
  const {
    method = 'odex',
    relative = DEFAULT_TOLERANCE,
    record = true,
    again = false,
    keepAt,
    watch,
    span = profileDuration(profile),
  } = options;
  const kernel = createKernel();
  kernel.load(system);
  const n = kernel.dimension;
  const y = new Float64Array(n);
  kernel.initial(y);
  const initialState = y.slice();
  const { at } = kernel;
  const absolute = stateVector(n, at, SCALE).map((scale) => relative * scale);
  const ode: OdeSystem = {
    dimension: n,
    derivative: kernel.derivative,
    eventCount: KERNEL_EVENTS.length,
    margins: kernel.margins,
    // one of many looks at the ends of its steps; peaks of temperature come from dense output in any case
    watchInside: record,
  };
  const workspace = dormandPrinceWorkspace(n);
  const extremes = extremesWatch(kernel);
  const energies = record ? energyMeter(kernel, system) : undefined;
  const drawn = Number.isFinite(system.limits.batteryEnergy) ? packMeter(kernel, system) : undefined;
  const recorder = record ? traceRecorder(kernel, span, extremes.note) : undefined;
  const passed = new Map<KernelEvent, number>();
  const kept: Float64Array[] = [];
  const gathers = system.vehicle.carriedBy === 'water' || system.vehicle.carriedBy === 'wheels';
  const notebook = runNotebook(kernel, system);
  const shaft = spinUp(kernel, system);
  let failure: Simulation['failure'];
  /** State at the end of the step accepted last, which a failed integration leaves nowhere else. */
  const accepted = new Float64Array(n);
  let stepper = method;
  let stepsOfCall = 0;
  let secondStep = 0;
  const margins = new Float64Array(KERNEL_EVENTS.length);
  const state = new Float64Array(n);
  let time = 0;
  let steps = 0;
  let evaluations = 0;
  let end: RunEnd = 'finished';
  let index = 0;

  /** Shows the states at `times` one by one as the run passes them. */
  const passing = (times: Float64Array, see: (index: number, row: Float64Array) => void) => {
    let next = 0;
    return (step: Pick<StepView, 'to' | 'at'>): void => {
      for (; next < times.length && times[next] <= step.to; next++) {
        const row = new Float64Array(n);
        step.at(times[next], row);
        if (at.shaft >= 0) {
          kernel.solve(times[next], row);
          row[at.shaft] = kernel.point.speed;
        }
        see(next, row);
      }
    };
  };
  const keepers = [
    ...(keepAt === undefined ? [] : [passing(keepAt, (_, row) => kept.push(row))]),
    ...(watch === undefined ? [] : [passing(watch.times, (index, row) => watch.see(index, kernel, row))]),
  ];
  const keep = (step: Pick<StepView, 'to' | 'at'>): void => {
    for (const keeper of keepers) keeper(step);
  };
  const onStep = (step: StepView): void => {
    if (++stepsOfCall === 2) secondStep = step.to - step.from;
    accepted.set(step.end);
    extremes.note(step.to, step.end);
    keep(step);
    extremes.refine(step);
    drawn?.add(step);
    if (!record) return;
    energies?.add(step);
    for (const share of [0.25, 0.5, 0.75]) {
      const t = step.from + share * (step.to - step.from);
      step.at(t, state);
      extremes.note(t, state);
    }
    recorder?.follow(step);
  };
  /** Where the way of driving changes the trace has both sides. */
  const mark = (): void => {
    if (recorder === undefined) extremes.note(time, y);
    else recorder.sample(time, y);
  };

  /** After a break the first step is tried a little shorter than the second one was after the break before; the error control has the last word. */
  const tolerances = { relative: 0, absolute, mostSteps: 200_000, firstStep: 0 };

  const begin = (step: ProfileStep, from: number, flatOut: boolean): void => {
    kernel.begin(step, from, flatOut);
    shaft.begin(step);
  };

  /** Whether the step before ended at full throttle, short of what it held. */
  let short = false;

  running: do {
    index = 0;
    for (const step of profile) {
      const stepFrom = time;
      const stepTo = time + step.duration;
      begin(step, stepFrom, false);
      const held = kernel.heldSpeed(stepFrom);
      const before = y[at.speed];
      // hull and wheels gather speed from what they have: a speed that was not reached is not jumped to, nor one from which a ramp is to lead on
      const ramp = step.value.from !== step.value.to;
      const lags = gathers && step.hold === 'vehicleSpeed' && before < (1 - LAG) * held && (short || (ramp && time > 0));
      if (!Number.isNaN(held) && !lags) y[at.speed] = held;
      let flatOut = false;
      const outOfReach = (): boolean => {
        kernel.margins(time, y, margins);
        return step.hold !== 'throttle' && !(margins[EVENT_PLACE.holdLost] >= 0);
      };
      if (lags || outOfReach()) {
        notebook.ground(index, time, y[at.speed]);
        flatOut = true;
        begin(step, stepFrom, true);
        if (gathers && step.hold === 'vehicleSpeed' && !ramp && before < held) y[at.speed] = before;
        kernel.solve(time, y);
        notebook.lose(step, index, time, y[at.speed]);
      }
      if (y[at.speed] !== before) energies?.jump(before, y[at.speed]);
      notebook.ground(index, time, y[at.speed]);
      mark();
      if (time === 0) keep({ to: 0, at: (_, into) => into.set(y) });
      if (endsAtOnce()) break running;
      let guard = 0;
      while (time < stepTo - 1e-9) {
        if (++guard > MOST_CHANGES) {
          failure = { step: index, time, why: 'what the step holds is lost and regained without end' };
          end = 'failed';
          break running;
        }
        const outcome = advance(shaft.until(time, stepTo));
        if (outcome === undefined) break running;
        steps += outcome.steps;
        evaluations += outcome.evaluations;
        time = outcome.time;
        shaft.reached(time, y);
        for (const crossed of outcome.crossed) {
          const event = KERNEL_EVENTS[crossed];
          if (!passed.has(event)) passed.set(event, time);
          if (event === 'holdLost' && !flatOut) {
            notebook.ground(index, time, y[at.speed]);
            mark();
            flatOut = true;
            begin(step, stepFrom, true);
            kernel.solve(time, y);
            notebook.lose(step, index, time, y[at.speed]);
            mark();
          } else if (event === 'holdRegained' && flatOut) {
            mark();
            begin(step, stepFrom, false);
            y[at.speed] = kernel.heldSpeed(time);
            flatOut = outOfReach();
            if (flatOut) begin(step, stepFrom, true);
            mark();
          }
          const last = endOf(event);
          if (last !== undefined) {
            end = last;
            break running;
          }
        }
        kernel.solve(time, y);
        notebook.mode(index, time, y);
        notebook.ground(index, time, y[at.speed]);
      }
      if (flatOut) {
        kernel.solve(time, y);
        notebook.reach(step, index, time, y[at.speed]);
      }
      short = flatOut;
      time = stepTo;
      mark();
      index++;
    }
  } while (again && time < LONGEST);

  /** Integrates to `target`; undefined where the drive has no operating point, which ends the run as a finding. */
  function advance(target: number): ReturnType<typeof integrate> | undefined {
    try {
      stepsOfCall = 0;
      if (stepper !== 'odex') tolerances.firstStep = CARRIED * secondStep;
      return integrate(ode, stepper, tolerances, time, y, target, onStep, workspace);
    } catch (error) {
      if (!(error instanceof IntegrationFailure)) throw error;
      // what was driven until then
      if (stepsOfCall > 0) y.set(accepted);
      time = error.time;
      // a kink stops extrapolation, which counts on smooth laws; a method of lower order steps over it
      if (stepper === 'odex' && error.kind === 'step-too-small') {
        stepper = 'dormand-prince';
        return advance(target);
      }
      failure = { step: index, time, why: error.message };
      end = 'failed';
      return undefined;
    }
  }

  /** Takes note of the limits that a jump at the start of a step passes at once; true where the run ends there. */
  function endsAtOnce(): boolean {
    kernel.margins(time, y, margins);
    for (let k = 0; k < KERNEL_EVENTS.length; k++) {
      if (margins[k] > 0) continue;
      const event = KERNEL_EVENTS[k];
      if (!changesDriving(event) && !passed.has(event)) passed.set(event, time);
      end = endOf(event) ?? end;
    }
    notebook.mode(index, time, y);
    return end !== 'finished';
  }

  if (recorder !== undefined && recorder.trace.time[recorder.trace.time.length - 1] < time) mark();
  return {
    end,
    time,
    state: y,
    kernel,
    initialState,
    passed,
    highest: extremes.highest(),
    lowest: extremes.lowest(),
    kept,
    recorded:
      recorder === undefined || energies === undefined
        ? undefined
        : { trace: recorder.trace, states: recorder.states, energy: energies.account(initialState, y) },
    drawn,
    outsideTable: extremes.outsideTable(),
    ...notebook.notes,
    ...(failure === undefined ? {} : { failure }),
    steps,
    evaluations,
  };
}
