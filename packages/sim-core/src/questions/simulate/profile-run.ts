/**
 * Integrates one drive over a profile: restarts at every break, follows holds that are lost and regained, finds events by root-finding.
 * What looks at the integrator's steps on the way stands in step-sight.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { type ProfileStep, profileDuration } from '../../drive/profile.js';
import { changesDriving, EVENT_PLACE, endOf, KERNEL_EVENTS, type KernelEvent } from '../../kernel/event-margins.js';
import { createKernel, type Kernel } from '../../kernel/kernel.js';
import { isBeyondReach } from '../../kernel/operating-point.js';
import { stateVector } from '../../kernel/state-places.js';
import { type DormandPrinceWorkspace, dormandPrinceWorkspace } from '../../numerics/dormand-prince.js';
import { type IntegrationMethod, type IntegrationOutcome, integrate } from '../../numerics/integrate.js';
import { IntegrationFailure } from '../../numerics/integration-failure.js';
import type { OdeSystem, StepView } from '../../numerics/ode-system.js';
import type { RunEnd } from '../../results/run-result.js';
import { followedFor, MOST_CHANGES, MOST_STEPS_OF_CALL, mostEvaluations, OFTEN } from './run-work.js';
import { DEFAULT_TOLERANCE, type SimulateOptions, type Simulation, type SimulationFailure, type SimulationFound } from './simulation.js';
import { type SpinUp, spinUp } from './spin-up.js';
import { stateScale } from './state-scale.js';
import { type RunNotebook, runNotebook } from './step-notes.js';
import { type StepSight, stepSight } from './step-sight.js';

/** First step after a break, as a share of the second one after the break before [1]. */
const CARRIED = 0.5;
/** A vehicle that is slower than a held speed by less than this is taken for as fast: rounding, the integrator's tolerance, and profiles written to a digit [1]. */
const LAG = 0.01;

/** One run on its way: where it is, what it holds, and what was seen. */
export class ProfileRun {
  private readonly kernel: Kernel;
  private readonly y: Float64Array;
  private readonly initialState: Float64Array;
  private readonly ode: OdeSystem;
  private readonly workspace: DormandPrinceWorkspace;
  private readonly sight: StepSight;
  private readonly notebook: RunNotebook;
  private readonly shaft: SpinUp;
  private readonly passed = new Map<KernelEvent, number>();
  private readonly margins = new Float64Array(KERNEL_EVENTS.length);
  /** After a break the first step is tried a little shorter than the second one was after the break before; the error control has the last word. */
  private readonly tolerances: { relative: number; absolute: Float64Array; mostSteps: number; firstStep: number };
  /** State at the end of the step accepted last: a failed integration leaves it nowhere else. */
  private readonly accepted: Float64Array;
  private acceptedAt = 0;
  /** Hull and wheels gather speed from what they have; a wing is set to the speed it is to fly. */
  private readonly gathers: boolean;
  private stepper: IntegrationMethod;
  /** How often the profile was begun, and which steps were found stiff: driven again often they begin with the method that ended them. */
  private round = 0;
  private readonly stiff = new Set<number>();
  private stepsOfCall = 0;
  private secondStep = 0;
  private time = 0;
  private steps = 0;
  /** Evaluations so far, of what was thrown away too, and how many there may be. */
  private evaluations = 0;
  private readonly mostEvaluations: number;
  /** How long a profile is driven again and again [s]. */
  private readonly followed: number;
  private end: Exclude<RunEnd, 'failed'> = 'finished';
  private failure: SimulationFailure | undefined;
  /** Place of the step being driven, and when it began [s]. */
  private index = 0;
  private stepFrom = 0;
  /** Whether it is driven at full throttle since what it holds is out of reach, and whether the step before ended so. */
  private flatOut = false;
  private short = false;

  constructor(
    system: DriveSystem,
    private readonly profile: readonly ProfileStep[],
    private readonly options: SimulateOptions,
  ) {
    const kernel = createKernel(system);
    this.kernel = kernel;
    this.followed = followedFor(system.limits.runTime);
    const { method = 'odex', relative = DEFAULT_TOLERANCE, record = true, again = false } = options;
    const { keepAt, watch, span = profileDuration(profile) } = options;
    this.y = new Float64Array(kernel.dimension);
    kernel.initial(this.y);
    this.initialState = this.y.slice();
    this.accepted = new Float64Array(kernel.dimension);
    this.mostEvaluations = mostEvaluations(profile.length, again);
    const absolute = stateVector(kernel.dimension, kernel.at, stateScale(system)).map((scale) => relative * scale);
    this.tolerances = { relative: 0, absolute, mostSteps: MOST_STEPS_OF_CALL, firstStep: 0 };
    this.stepper = method;
    this.ode = {
      dimension: kernel.dimension,
      derivative: (t, y, dy) => {
        if (++this.evaluations > this.mostEvaluations) throw new IntegrationFailure('too-much-work', this.acceptedAt);
        kernel.derivative(t, y, dy);
      },
      eventCount: KERNEL_EVENTS.length,
      margins: kernel.margins,
      // one of many looks at the ends of its steps; peaks of temperature come from dense output in any case
      watchInside: record,
    };
    this.workspace = dormandPrinceWorkspace(kernel.dimension);
    this.sight = stepSight(kernel, system, { record, tolerance: relative, span, keepAt, watch });
    this.notebook = runNotebook(kernel, system);
    this.shaft = spinUp(kernel, system);
    this.gathers = system.vehicle.carriedBy === 'water' || system.vehicle.carriedBy === 'wheels';
  }

  /** The profile once, or again and again. */
  drive(): void {
    do {
      this.round++;
      this.index = 0;
      for (const step of this.profile) {
        if (!this.driveStep(step)) return;
        this.index++;
      }
    } while (this.options.again === true && this.time < this.followed);
  }

  /** One step from break to break; false where the run ends within it. */
  private driveStep(step: ProfileStep): boolean {
    const { y, notebook, kernel } = this;
    const stepTo = this.time + step.duration;
    this.enter(step);
    if (this.endsByJump()) return false;
    for (let guard = 1; this.time < stepTo - 1e-9; guard++) {
      if (guard > MOST_CHANGES) return this.fail('what the step holds is lost and regained without end');
      const outcome = this.advance(this.shaft.until(this.time, stepTo));
      if (outcome === undefined) return false;
      this.time = outcome.time;
      this.shaft.reached(this.time, y);
      kernel.solve(this.time, y);
      // where what is held jumps out of reach, what else passes a bound in that jump does so at a point that there is not
      const met = outcome.crossed.map((place) => KERNEL_EVENTS[place]);
      const jumped = met.includes('holdLost') && isBeyondReach(kernel.point);
      for (const event of jumped ? (['holdLost'] as const) : met) if (!this.meet(event, step)) return false;
      kernel.solve(this.time, y);
      notebook.mode(this.index, this.time, y);
      notebook.ground(this.index, this.time, this.speed);
    }
    if (this.flatOut) {
      kernel.solve(this.time, y);
      notebook.reach(step, this.index, this.time, this.speed);
    }
    this.short = this.flatOut;
    this.time = stepTo;
    this.mark();
    return true;
  }

  /** The jump at the beginning of a step: to the speed it holds, or to full throttle where that is out of reach. */
  private enter(step: ProfileStep): void {
    const { kernel, notebook, y, gathers } = this;
    this.stepFrom = this.time;
    this.hold(step, false);
    const held = kernel.heldSpeed(this.time);
    const before = this.speed;
    // a speed that was not reached is not jumped to, nor one from which a ramp is to lead on
    const ramp = step.value.from !== step.value.to;
    const lags = gathers && step.hold === 'vehicleSpeed' && before < (1 - LAG) * held && (this.short || (ramp && this.time > 0));
    if (!Number.isNaN(held) && !lags) this.speed = held;
    if (lags || this.outOfReach(step)) {
      notebook.ground(this.index, this.time, this.speed);
      this.hold(step, true);
      if (gathers && step.hold === 'vehicleSpeed' && !ramp && before < held) this.speed = before;
      kernel.solve(this.time, y);
      notebook.lose(step, this.index, this.time, this.speed);
    }
    this.sight.jump(before, this.speed);
    notebook.ground(this.index, this.time, this.speed);
    this.mark();
    this.sight.begin(this.time, y);
  }

  /** An event within a step: noted, followed where it changes the way of driving; false where it ends the run. */
  private meet(event: KernelEvent, step: ProfileStep): boolean {
    const { kernel, notebook, y } = this;
    if (!this.passed.has(event)) this.passed.set(event, this.time);
    if (event === 'holdLost' && !this.flatOut) {
      notebook.ground(this.index, this.time, this.speed);
      if (!isBeyondReach(kernel.point)) this.mark();
      this.hold(step, true);
      kernel.solve(this.time, y);
      notebook.lose(step, this.index, this.time, this.speed);
      this.mark();
    } else if (event === 'holdRegained' && this.flatOut) {
      this.mark();
      this.hold(step, false);
      this.speed = kernel.heldSpeed(this.time);
      if (this.outOfReach(step)) this.hold(step, true);
      this.mark();
    }
    if (event === 'limiterLeft' || event === 'limiterEntered') kernel.letGo(event === 'limiterLeft');
    if (changesDriving(event) && this.endsByJump()) return false;
    const end = endOf(event);
    this.end = end ?? this.end;
    return end === undefined;
  }

  /** Takes note of the limits that a jump, at the start of a step or where its way of driving changes, passes at once; true where the run ends there. */
  private endsByJump(): boolean {
    this.kernel.margins(this.time, this.y, this.margins);
    for (const [k, event] of KERNEL_EVENTS.entries()) {
      if (this.margins[k] > 0) continue;
      if (!changesDriving(event) && !this.passed.has(event)) this.passed.set(event, this.time);
      this.end = endOf(event) ?? this.end;
    }
    this.notebook.mode(this.index, this.time, this.y);
    return this.end !== 'finished';
  }

  /** Integrates to `target`; undefined where the drive has no operating point, which ends the run as a finding. */
  private advance(target: number): IntegrationOutcome | undefined {
    const { tolerances, y } = this;
    try {
      this.stepsOfCall = 0;
      if (this.stepper !== 'odex') tolerances.firstStep = CARRIED * this.secondStep;
      const method = this.round > OFTEN && this.stiff.has(this.index) ? 'rosenbrock' : this.stepper;
      const outcome = integrate(this.ode, method, tolerances, this.time, y, target, this.onStep, this.workspace);
      if (outcome.stiff) this.stiff.add(this.index);
      return outcome;
    } catch (error) {
      if (!(error instanceof IntegrationFailure)) throw error;
      // what was driven until then
      if (this.stepsOfCall > 0) y.set(this.accepted);
      this.time = error.time;
      // a kink stops extrapolation, which counts on smooth laws, or an implicit method; a method of lower order steps over it
      const begunStiff = this.round > OFTEN && this.stiff.delete(this.index);
      if ((this.stepper === 'odex' || begunStiff) && error.kind === 'step-too-small') {
        this.stepper = 'dormand-prince';
        return this.advance(target);
      }
      // what is driven again and again was followed as far as that
      if (error.kind !== 'too-much-work' || this.options.again !== true) this.fail(error.message);
      return undefined;
    }
  }

  private readonly onStep = (step: StepView): boolean => {
    if (!this.sight.step(step)) return false;
    this.steps++;
    if (++this.stepsOfCall === 2) this.secondStep = step.to - step.from;
    this.accepted.set(step.end);
    this.acceptedAt = step.to;
    return true;
  };

  private fail(why: string): false {
    this.failure = { step: this.index, time: this.time, why };
    return false;
  }

  private hold(step: ProfileStep, flatOut: boolean): void {
    this.flatOut = flatOut;
    this.kernel.begin(step, this.stepFrom, flatOut);
    this.shaft.begin(step);
  }

  private outOfReach(step: ProfileStep): boolean {
    this.kernel.margins(this.time, this.y, this.margins);
    return step.hold !== 'throttle' && !(this.margins[EVENT_PLACE.holdLost] >= 0);
  }

  private mark(): void {
    this.sight.mark(this.time, this.y);
  }

  /** Speed of the vehicle [m/s]. */
  private get speed(): number {
    return this.y[this.kernel.at.speed];
  }
  private set speed(value: number) {
    this.y[this.kernel.at.speed] = value;
  }

  /** Everything that was seen on the way. */
  result(): Simulation {
    const { sight, time, y, initialState, failure } = this;
    const recorded = sight.recording(time, initialState, y);
    const found: SimulationFound = {
      time,
      state: y,
      kernel: this.kernel,
      initialState,
      passed: this.passed,
      highest: sight.highest(),
      lowest: sight.lowest(),
      kept: sight.kept,
      recorded,
      drawn: sight.drawn,
      outsideTable: sight.outsideTable(),
      ...this.notebook.notes,
      steps: this.steps,
      evaluations: this.evaluations,
    };
    return failure === undefined ? { ...found, end: this.end } : { ...found, end: 'failed', failure };
  }
}
