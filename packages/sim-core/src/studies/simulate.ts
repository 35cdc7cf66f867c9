/**
 * Integrates one drive over a profile: restarts at every break, follows holds that are lost and regained, finds events by root-finding,
 * peaks from dense output, energies by quadrature on the integrator's own steps.
 */
import type { DriveSystem } from '../drive/drive-system.js';
import { type ProfileStep, profileDuration } from '../drive/profile.js';
import { createKernel, KERNEL_EVENTS, type Kernel, type KernelEvent } from '../kernel/kernel.js';
import { type DormandPrinceWorkspace, dormandPrinceWorkspace } from '../numerics/dormand-prince.js';
import { type IntegrationMethod, integrate } from '../numerics/integrate.js';
import { IntegrationFailure } from '../numerics/integration-failure.js';
import type { OdeSystem, StepView, Tolerances } from '../numerics/ode-system.js';
import { addStepIntegrals, GAUSS_LEGENDRE_3, quadratureWorkspace } from '../numerics/quadrature.js';
import { SWITCHING_FADE } from '../parts/controller.js';
import { SECONDS_PER_HOUR, STANDARD_GRAVITY } from '../quantities/constants.js';
import { CHANNEL_IDS, type ChannelId } from '../results/channels.js';
import { POWER_TERM_IDS } from '../results/power-terms.js';
import type { RunEnd } from '../results/run-result.js';

export interface SimulateOptions {
  readonly method?: IntegrationMethod;
  /** Relative tolerance; absolute ones follow (temperatures [K], charge and polarisation, speed). */
  readonly relative?: number;
  /** Record traces, energies and peaks of everything (a shown run), or only temperatures and charge (one of many). */
  readonly record?: boolean;
  /** Drive the profile again and again until the cells are empty or 24 h are over. */
  readonly again?: boolean;
}

export interface Peak {
  readonly value: number;
  readonly time: number;
}

export interface Simulation {
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
  readonly trace: { time: number[] } & Record<ChannelId, number[]>;
  /** Energy by power term over all drives [J], then drag, climb, kinetic, imposed, shed. */
  readonly energy: Float64Array;
  readonly lost: readonly { readonly step: number; readonly time: number; readonly wanted: number; readonly reached: number }[];
  readonly limited: readonly { readonly step: number; readonly time: number }[];
  /** Farthest beyond the propeller's table while driving, in advance ratio [1]; 0 where it was not left. */
  readonly outsideTable: number;
  readonly braked: ReadonlySet<number>;
  /** Steps in which the motor stood still with the throttle open, and those whose operating point is not stable. */
  readonly stalled: ReadonlySet<number>;
  readonly unstable: ReadonlySet<number>;
  /** Where no operating point exists and the run ends. */
  readonly failure?: { readonly step: number; readonly time: number; readonly why: string };
  readonly steps: number;
  readonly evaluations: number;
}

const TERMS = POWER_TERM_IDS.length;
export const DRAG = TERMS;
export const CLIMB = TERMS + 1;
export const KINETIC = TERMS + 2;
export const SHED = TERMS + 3;
export const STORED = TERMS + 4;
export const IMPOSED = TERMS + 5;
const QUANTITIES = TERMS + 6;
const LONGEST = 24 * SECONDS_PER_HOUR;
const SAMPLES = 1200;

export function observe(kernel: Kernel, t: number, y: Float64Array): Record<ChannelId, number> {
  kernel.solve(t, y);
  const p = kernel.point;
  const body = (k: number): number => y[kernel.bodyIndex[k]];
  const powers = new Float64Array(TERMS);
  kernel.powers(y, powers);
  const speed = y[kernel.dimension - 1];
  return {
    throttle: p.duty,
    vehicleSpeed: speed,
    climbRate: speed * p.climb,
    shaftSpeed: p.speed,
    motorTorque: p.loadTorque,
    thrust: p.thrust,
    motorCurrent: p.current,
    batteryCurrent: p.packCurrent,
    busVoltage: p.busVoltage,
    cellVoltage: p.cellVoltage,
    charge: y[kernel.dimension - 3],
    batteryPower: p.busVoltage * p.packCurrent,
    inputPower: (p.windingResistance * p.current + p.torqueConstant * p.speed) * p.current,
    shaftPower: p.loadTorque * p.speed,
    copperLoss: powers[8],
    noLoadLoss: powers[9] + powers[10],
    controllerLoss: powers[5] + powers[6] + powers[7],
    windingTemperature: body(0),
    statorTemperature: body(1),
    canTemperature: body(2),
    magnetTemperature: body(3),
    controllerTemperature: body(4),
    cellTemperature: body(5),
  };
}

export function simulate(system: DriveSystem, profile: readonly ProfileStep[], options: SimulateOptions = {}): Simulation {
  const { method = 'odex', relative = 1e-6, record = true, again = false } = options;
  const kernel = createKernel();
  kernel.load(system);
  const n = kernel.dimension;
  const y = new Float64Array(n);
  kernel.initial(y);
  const initialState = y.slice();
  const absolute = new Float64Array(n).fill(relative * 100);
  absolute[n - 3] = relative * 0.1;
  absolute[n - 2] = relative;
  absolute[n - 1] = relative * 10;
  const ode: OdeSystem = {
    dimension: n,
    derivative: (t, s, ds) => kernel.derivative(t, s, ds),
    eventCount: KERNEL_EVENTS.length,
    margins: (t, s, out) => kernel.margins(t, s, out),
  };
  const workspace: DormandPrinceWorkspace = dormandPrinceWorkspace(n);
  const quadrature = quadratureWorkspace(n, QUANTITIES);
  const energy = new Float64Array(QUANTITIES);
  const passed = new Map<KernelEvent, number>();
  const trace = Object.fromEntries([['time', []], ...CHANNEL_IDS.map((id) => [id, []])]) as unknown as Simulation['trace'];
  const highest = {} as Record<ChannelId, { value: number; time: number }>;
  const lowest = {} as Record<ChannelId, { value: number; time: number }>;
  for (const id of CHANNEL_IDS) {
    highest[id] = { value: Number.NEGATIVE_INFINITY, time: 0 };
    lowest[id] = { value: Number.POSITIVE_INFINITY, time: 0 };
  }
  const lost: Simulation['lost'][number][] = [];
  const limited: Simulation['limited'][number][] = [];
  const braked = new Set<number>();
  let outsideTable = 0;
  const stalled = new Set<number>();
  const unstable = new Set<number>();
  let failure: Simulation['failure'];
  const margins = new Float64Array(KERNEL_EVENTS.length);
  const state = new Float64Array(n);
  const span = profileDuration(profile);
  const spacing = span / SAMPLES;
  let nextSample = 0;
  let time = 0;
  let steps = 0;
  let evaluations = 0;
  let carried = 0;
  let end: RunEnd = 'finished';
  let index = 0;

  const heatStored = (a: Float64Array): number => {
    const { heat } = system;
    const c = heat.capacity;
    const all = [c.winding, c.stator, c.can, c.magnets, c.controller, c.cells];
    let sum = 0;
    for (let k = 0; k < 6; k++)
      if (all[k] !== Number.POSITIVE_INFINITY) sum += all[k] * a[kernel.bodyIndex[k]] * (k === 5 ? 1 : system.drives);
    return sum;
  };

  const quantities = (t: number, s: Float64Array, out: Float64Array): void => {
    kernel.solve(t, s);
    kernel.powers(s, out);
    for (let k = 0; k < TERMS; k++) out[k] *= system.drives;
    const p = kernel.point;
    const v = s[n - 1];
    const { vehicle } = system;
    const moving = vehicle.carriedBy !== 'bench';
    out[DRAG] = p.drag * v;
    out[CLIMB] = moving ? vehicle.mass * STANDARD_GRAVITY * p.climb * v : 0;
    out[KINETIC] = moving ? vehicle.mass * (1 + vehicle.addedMass) * p.acceleration * v : 0;
    out[SHED] = kernel.shed(s) * system.drives;
    out[STORED] = 0;
    out[IMPOSED] = 0;
  };

  const note = (t: number, s: Float64Array): void => {
    const row = observe(kernel, t, s);
    const { point } = kernel;
    if (point.duty > 0 && Math.abs(point.outsideTable) > Math.abs(outsideTable)) outsideTable = point.outsideTable;
    for (const id of CHANNEL_IDS) {
      const value = row[id];
      if (value > highest[id].value) highest[id] = { value, time: t };
      if (value < lowest[id].value) lowest[id] = { value, time: t };
    }
  };
  const sample = (t: number, s: Float64Array): void => {
    const row = observe(kernel, t, s);
    trace.time.push(t);
    for (const id of CHANNEL_IDS) trace[id].push(row[id]);
  };

  const onStep = (step: StepView): void => {
    if (!record) return;
    addStepIntegrals(step, GAUSS_LEGENDRE_3, quantities, energy, quadrature);
    for (const share of [0.25, 0.5, 0.75]) {
      const t = step.from + share * (step.to - step.from);
      step.at(t, state);
      note(t, state);
    }
    note(step.to, step.end);
    refine(step);
    while (nextSample <= step.to) {
      if (nextSample >= step.from) {
        step.at(nextSample, state);
        sample(nextSample, state);
      }
      nextSample += spacing;
    }
  };

  /** Temperature peaks inside a step: three points of dense output, then a parabola through them, twice. */
  const TEMPERATURES = [
    'windingTemperature',
    'statorTemperature',
    'canTemperature',
    'magnetTemperature',
    'controllerTemperature',
    'cellTemperature',
  ] as const;
  const refine = (step: StepView): void => {
    for (let k = 0; k < 6; k++) {
      const at = (t: number): number => {
        step.at(t, state);
        return state[kernel.bodyIndex[k]];
      };
      let [a, c] = [step.from, step.to];
      let b = 0.5 * (a + c);
      for (let pass = 0; pass < 3; pass++) {
        const [fa, fb, fc] = [at(a), at(b), at(c)];
        const bend = fa - 2 * fb + fc;
        if (!(bend < 0)) break;
        const h = c - b;
        const t = Math.min(step.to, Math.max(step.from, b + (0.5 * h * (fa - fc)) / bend));
        const value = at(t);
        if (value > highest[TEMPERATURES[k]].value) highest[TEMPERATURES[k]] = { value, time: t };
        b = t;
        const width = 0.25 * h;
        [a, c] = [Math.max(step.from, t - width), Math.min(step.to, t + width)];
        if (c - a < 1e-6) break;
        b = 0.5 * (a + c);
      }
    }
  };

  const tolerances = (): Tolerances => ({ relative, absolute, firstStep: carried, mostSteps: 200_000 });

  running: do {
    index = 0;
    for (const step of profile) {
      const stepFrom = time;
      const stepTo = time + step.duration;
      kernel.begin(step, stepFrom, false);
      const held = kernel.heldSpeed(stepFrom);
      if (!Number.isNaN(held)) {
        if (record && system.vehicle.carriedBy !== 'bench' && held !== y[n - 1]) {
          // a jump of a held speed is work that the profile does on the vehicle
          energy[IMPOSED] += 0.5 * system.vehicle.mass * (1 + system.vehicle.addedMass) * (held ** 2 - y[n - 1] ** 2);
        }
        y[n - 1] = held;
      }
      let flatOut = false;
      const outOfReach = (): boolean => {
        kernel.margins(time, y, margins);
        return step.hold !== 'throttle' && !(margins[7] >= 0);
      };
      if (outOfReach()) {
        flatOut = true;
        lost.push({ step: index, time, wanted: step.value.to, reached: 0 });
        kernel.begin(step, stepFrom, true);
        kernel.margins(time, y, margins);
      }
      noteMargins();
      if (record) note(time, y);
      if (record && time === 0) {
        sample(0, y);
        nextSample = spacing;
      }
      const breaks = rampBreaks(step, stepFrom);
      let guard = 0;
      while (time < stepTo - 1e-9) {
        if (++guard > 2000) throw new RangeError(`The run changes its mode without end near ${time} s.`);
        const target = breaks.find((each) => each > time + 1e-9) ?? stepTo;
        carried = 0;
        const outcome = advance(target);
        if (outcome === undefined) break running;
        steps += outcome.steps;
        evaluations += outcome.evaluations;
        time = outcome.time;
        for (const crossed of outcome.crossed) {
          const event = KERNEL_EVENTS[crossed];
          if (!passed.has(event)) passed.set(event, time);
          if (event === 'holdLost' && !flatOut) {
            flatOut = true;
            lost.push({ step: index, time, wanted: step.value.to, reached: 0 });
            kernel.begin(step, stepFrom, true);
          } else if (event === 'holdRegained' && flatOut) {
            kernel.begin(step, stepFrom, false);
            y[n - 1] = kernel.heldSpeed(time);
            flatOut = outOfReach();
            if (flatOut) kernel.begin(step, stepFrom, true);
          } else if (event === 'limiterEntered') limited.push({ step: index, time });
          if (event === 'cellVoltage' || event === 'empty') {
            end = event === 'empty' ? 'empty' : 'cut-off';
            break running;
          }
        }
        kernel.solve(time, y);
        if (kernel.point.braked) braked.add(index);
        if (kernel.point.stalled && kernel.point.duty > 0) stalled.add(index);
        if (kernel.point.unstable) unstable.add(index);
      }
      if (flatOut) {
        const open = lost[lost.length - 1];
        if (open !== undefined && open.step === index) lost[lost.length - 1] = { ...open, reached: reachedOf(step) };
      }
      time = stepTo;
      index++;
    }
  } while (again && time < LONGEST);

  /** Integrates to `target`; undefined where the drive has no operating point, which ends the run as a finding. */
  function advance(target: number): ReturnType<typeof integrate> | undefined {
    try {
      return integrate(ode, method, tolerances(), time, y, target, onStep, workspace);
    } catch (error) {
      if (!(error instanceof IntegrationFailure)) throw error;
      failure = { step: index, time: error.time, why: error.message };
      end = 'failed';
      return undefined;
    }
  }

  function reachedOf(step: ProfileStep): number {
    kernel.solve(time, y);
    const p = kernel.point;
    switch (step.hold) {
      case 'vehicleSpeed':
        return y[n - 1];
      case 'shaftSpeed':
        return p.speed;
      case 'motorCurrent':
        return p.current;
      case 'thrust':
        return p.force;
      case 'batteryPower':
        return p.busVoltage * p.packCurrent;
      default:
        return p.duty;
    }
  }

  /** Limits that a jump at the start of a step passes at once. */
  function noteMargins(): void {
    kernel.margins(time, y, margins);
    for (let k = 0; k < margins.length; k++) {
      const event = KERNEL_EVENTS[k];
      const counts = k < 7 || k >= 11;
      if (counts && margins[k] <= 0 && !passed.has(event)) passed.set(event, time);
      if (k === 9 && margins[k] < 0) limited.push({ step: index, time });
    }
    if (margins[4] <= 0 || margins[5] <= 0) end = margins[5] <= 0 ? 'empty' : 'cut-off';
  }

  energy[STORED] = heatStored(y) - heatStored(initialState);
  if (record) {
    note(time, y);
    if (trace.time[trace.time.length - 1] < time) sample(time, y);
  }
  return {
    end,
    time,
    state: y,
    kernel,
    initialState,
    passed,
    highest,
    lowest,
    trace,
    energy,
    lost,
    limited,
    outsideTable,
    braked,
    stalled,
    unstable,
    ...(failure === undefined ? {} : { failure }),
    steps,
    evaluations,
  };
}

/** Times inside a step where its throttle ramp enters the fade of the switching losses. */
function rampBreaks(step: ProfileStep, from: number): number[] {
  const { from: a, to: b } = step.value;
  if (step.hold !== 'throttle' || a === b) return [];
  const share = (1 - SWITCHING_FADE - a) / (b - a);
  return share > 0 && share < 1 ? [from + share * step.duration] : [];
}
