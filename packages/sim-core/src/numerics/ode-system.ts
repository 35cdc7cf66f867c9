/** A system of ordinary differential equations with events, and what its integration asks for, shows and reports. @module */

export interface OdeSystem {
  /** number of states */
  readonly dimension: number;
  /** Writes dy/dt at (t, y) into dy. A trial state outside the laws' range may be answered with NaN: the step is then halved. */
  derivative(t: number, y: Float64Array, dy: Float64Array): void;
  readonly eventCount: number;
  /** Writes one margin per event: positive before it; the event is where the margin falls through zero. */
  margins?(t: number, y: Float64Array, out: Float64Array): void;
  /** Whether margins are taken inside a step too, so that one that falls and recovers there is seen; true where absent. */
  readonly watchInside?: boolean;
}

export interface Tolerances {
  /** error allowed per step as a share of each state */
  readonly relative: number;
  /** error allowed per step in each state's own unit, one number a state, all positive */
  readonly absolute: Float64Array;
  /** first step to try [s]; chosen from the derivatives where absent or 0 */
  readonly firstStep?: number;
  /** [s]; the whole span where absent */
  readonly largestStep?: number;
  /** steps tried, accepted and rejected; 100 000 where absent */
  readonly mostSteps?: number;
  /** Whether an explicit method stops where it finds the system stiff and much is left, instead of going on in small steps. */
  readonly leaveStiff?: boolean;
}

/** One accepted step, or its part up to an event. Reused: everything in it is valid only during the call that receives it. Times [s], states in their own units [SI]. */
export interface StepView {
  readonly from: number;
  readonly to: number;
  readonly start: Float64Array;
  readonly end: Float64Array;
  /** Derivatives at both ends, where the method has them at hand. */
  readonly startSlope?: Float64Array;
  readonly endSlope?: Float64Array;
  /** Dense output: writes the state at t, from ≤ t ≤ to, into `into`. */
  at(t: number, into: Float64Array): void;
}

/** What becomes of a step that a method takes for good: whether it goes on from there, or that it takes it again, no longer than `retake` [s]. */
export type StepAnswer = boolean | { readonly retake: number };

/** What a stepping method counts. */
export interface StepStatistics {
  /** accepted */
  steps: number;
  rejected: number;
  evaluations: number;
  /** step the method would try next, to be passed to the next call as firstStep [s] */
  nextStep: number;
  /** whether stability rather than accuracy set the step for a good while (told by the Dormand–Prince method only) */
  stiff: boolean;
}

export const MOST_STEPS = 100_000;
