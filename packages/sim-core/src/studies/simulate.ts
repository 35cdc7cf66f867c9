/**
 * Integrates one drive over a profile: restarts at every break, follows holds that are lost and regained, finds events by root-finding,
 * peaks from dense output, energies by quadrature on the integrator's own steps.
 */
import type { DriveSystem } from '../drive/drive-system.js';
import { type ProfileStep, profileDuration } from '../drive/profile.js';
import { KERNEL_EVENTS, type KernelEvent } from '../kernel/event-margins.js';
import { createKernel, type Kernel } from '../kernel/kernel.js';
import { dormandPrinceWorkspace } from '../numerics/dormand-prince.js';
import { type IntegrationMethod, integrate } from '../numerics/integrate.js';
import { IntegrationFailure } from '../numerics/integration-failure.js';
import type { OdeSystem, StepView } from '../numerics/ode-system.js';
import { SECONDS_PER_HOUR } from '../quantities/constants.js';
import type { ChannelId } from '../results/channels.js';
import type { EnergyAccount, RunEnd, Trace } from '../results/run-result.js';
import { energyMeter, type PackMeter, packMeter } from './energy-account.js';
import { extremesWatch, type Peak } from './extremes-watch.js';
import { type RunNotes, runNotebook } from './run-notes.js';
import { spinUp } from './spin-up.js';
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
  /** Drive the profile again and again until the cells are empty or 24 h are over. */
  readonly again?: boolean;
  /** Times at which the state is kept [s], rising; for bands over many runs. */
  readonly keepAt?: Float64Array;
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
  readonly recorded: { readonly trace: Trace; readonly states: readonly Float64Array[]; readonly energy: EnergyAccount } | undefined;
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
const SCALE = { temperature: 10, shaft: 100, charge: 0.05, polarisation: 1, speed: 30 };
/** First step after a break, as a share of the second one after the break before [1]. */
const CARRIED = 0.5;
const LONGEST = 24 * SECONDS_PER_HOUR;

/** Events that limit, as against those that only change how a step is driven. */
const isLimit = (event: KernelEvent): boolean =>
  event !== 'holdLost' && event !== 'holdRegained' && event !== 'limiterEntered' && event !== 'limiterLeft';

/** Runs `system` over `profile`. Throws RangeError where the run changes its mode without end. */
export function simulate(system: DriveSystem, profile: readonly ProfileStep[], options: SimulateOptions = {}): Simulation {
  const { method = 'odex', relative = DEFAULT_TOLERANCE, record = true, again = false, keepAt } = options;
  const kernel = createKernel();
  kernel.load(system);
  const n = kernel.dimension;
  const y = new Float64Array(n);
  kernel.initial(y);
  const initialState = y.slice();
  const absolute = new Float64Array(n).fill(relative * SCALE.temperature);
  if (kernel.shaft >= 0) absolute[kernel.shaft] = relative * SCALE.shaft;
  absolute[n - 3] = relative * SCALE.charge;
  absolute[n - 2] = relative * SCALE.polarisation;
  absolute[n - 1] = relative * SCALE.speed;
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
  const recorder = record ? traceRecorder(kernel, profileDuration(profile)) : undefined;
  const passed = new Map<KernelEvent, number>();
  const kept: Float64Array[] = [];
  const notebook = runNotebook(kernel, system);
  const shaft = spinUp(kernel, system);
  let failure: Simulation['failure'];
  let stepsOfCall = 0;
  let secondStep = 0;
  const margins = new Float64Array(KERNEL_EVENTS.length);
  const state = new Float64Array(n);
  let time = 0;
  let steps = 0;
  let evaluations = 0;
  let end: RunEnd = 'finished';
  let index = 0;

  const keep = (step: Pick<StepView, 'to' | 'at'>): void => {
    while (keepAt !== undefined && kept.length < keepAt.length && keepAt[kept.length] <= step.to) {
      const row = new Float64Array(n);
      const at = keepAt[kept.length];
      step.at(at, row);
      if (kernel.shaft >= 0) {
        kernel.solve(at, row);
        row[kernel.shaft] = kernel.point.speed;
      }
      kept.push(row);
    }
  };
  const onStep = (step: StepView): void => {
    if (++stepsOfCall === 2) secondStep = step.to - step.from;
    extremes.note(step.to, step.end);
    keep(step);
    extremes.refine(step);
    drawn?.add(step);
    if (!record) return;
    energies!.add(step);
    for (const share of [0.25, 0.5, 0.75]) {
      const t = step.from + share * (step.to - step.from);
      step.at(t, state);
      extremes.note(t, state);
    }
    recorder!.follow(step);
  };

  /** After a break the first step is tried a little shorter than the second one was after the break before; the error control has the last word. */
  const tolerances = { relative: 0, absolute, mostSteps: 200_000, firstStep: 0 };

  const begin = (step: ProfileStep, from: number, flatOut: boolean): void => {
    kernel.begin(step, from, flatOut);
    shaft.begin(step);
  };

  running: do {
    index = 0;
    for (const step of profile) {
      const stepFrom = time;
      const stepTo = time + step.duration;
      begin(step, stepFrom, false);
      const held = kernel.heldSpeed(stepFrom);
      const before = y[n - 1];
      if (!Number.isNaN(held)) y[n - 1] = held;
      let flatOut = false;
      const outOfReach = (): boolean => {
        kernel.margins(time, y, margins);
        return step.hold !== 'throttle' && !(margins[7] >= 0);
      };
      if (outOfReach()) {
        notebook.ground(index, time, y[n - 1]);
        flatOut = true;
        notebook.lose(step, index, time);
        begin(step, stepFrom, true);
        // a speed that cannot be held is not jumped to either: hull and wheels gather speed from what they had; a ramp says where it begins
        const asked = step.hold === 'vehicleSpeed' && step.value.from === step.value.to;
        if (asked && before < held && system.vehicle.carriedBy !== 'wing') y[n - 1] = before;
      }
      if (y[n - 1] !== before) energies?.jump(before, y[n - 1]);
      noteMargins();
      notebook.ground(index, time, y[n - 1]);
      extremes.note(time, y);
      if (time === 0) {
        recorder?.sample(0, y);
        keep({ to: 0, at: (_, into) => into.set(y) });
      }
      // a load that the cells do not bear when it comes ends the run there
      if (end !== 'finished') break running;
      let guard = 0;
      while (time < stepTo - 1e-9) {
        if (++guard > 2000) throw new RangeError(`The run changes its mode without end near ${time} s.`);
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
            notebook.ground(index, time, y[n - 1]);
            flatOut = true;
            notebook.lose(step, index, time);
            begin(step, stepFrom, true);
          } else if (event === 'holdRegained' && flatOut) {
            begin(step, stepFrom, false);
            y[n - 1] = kernel.heldSpeed(time);
            flatOut = outOfReach();
            if (flatOut) begin(step, stepFrom, true);
          } else if (event === 'limiterEntered') notebook.limit(index, time);
          if (event === 'cellVoltage' || event === 'empty') {
            end = event === 'empty' ? 'empty' : 'cut-off';
            break running;
          }
        }
        kernel.solve(time, y);
        notebook.mode(index);
        notebook.ground(index, time, y[n - 1]);
      }
      if (flatOut) {
        kernel.solve(time, y);
        notebook.reach(step, index, y[n - 1]);
      }
      time = stepTo;
      index++;
    }
  } while (again && time < LONGEST);

  /** Integrates to `target`; undefined where the drive has no operating point, which ends the run as a finding. */
  function advance(target: number): ReturnType<typeof integrate> | undefined {
    try {
      stepsOfCall = 0;
      if (method !== 'odex') tolerances.firstStep = CARRIED * secondStep;
      return integrate(ode, method, tolerances, time, y, target, onStep, workspace);
    } catch (error) {
      if (!(error instanceof IntegrationFailure)) throw error;
      failure = { step: index, time: error.time, why: error.message };
      end = 'failed';
      return undefined;
    }
  }

  /** Limits that a jump at the start of a step passes at once. */
  function noteMargins(): void {
    kernel.margins(time, y, margins);
    KERNEL_EVENTS.forEach((event, k) => {
      if (isLimit(event) && margins[k] <= 0 && !passed.has(event)) passed.set(event, time);
      if (event === 'limiterEntered' && margins[k] < 0) notebook.limit(index, time);
    });
    if (margins[4] <= 0 || margins[5] <= 0) end = margins[5] <= 0 ? 'empty' : 'cut-off';
  }

  if (record) {
    extremes.note(time, y);
    if (recorder!.trace.time[recorder!.trace.time.length - 1] < time) recorder!.sample(time, y);
  }
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
    recorded: record ? { trace: recorder!.trace, states: recorder!.states, energy: energies!.account(initialState, y) } : undefined,
    drawn,
    outsideTable: extremes.outsideTable(),
    ...notebook.notes,
    ...(failure === undefined ? {} : { failure }),
    steps,
    evaluations,
  };
}
