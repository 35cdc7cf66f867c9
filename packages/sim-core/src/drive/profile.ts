/** What the run is asked to do: a list of steps, repeats already unrolled. All numbers SI. @module */

/** The one thing a step holds; everything else follows. */
export type Held = 'throttle' | 'vehicleSpeed' | 'shaftSpeed' | 'batteryPower' | 'batteryCurrent' | 'motorCurrent' | 'thrust';

/** A value that stays or ramps evenly over its step. */
export interface Ramp {
  /** At the beginning [SI, as the thing held]. */
  readonly from: number;
  /** At the end [SI, as the thing held]. */
  readonly to: number;
}

/** One step of a profile: a speed of the vehicle that is held, with a climb rate or on a slope, or another hold, on a slope and at a speed that is imposed beside it. */
export type ProfileStep = HeldClimb | HeldSpeed | HeldDrive;

/** What every step has. */
export interface StepOf<Hold extends Held> {
  /** [s] */
  readonly duration: number;
  readonly label?: string;
  readonly hold: Hold;
  /** The held value [1, m/s, rad/s, W, A or N]. Throttle 0 is off; a shaft speed of 0 all the while is a held rotor at full throttle. */
  readonly value: Ramp;
}

/** A held speed with a climb rate. */
export interface HeldClimb extends StepOf<'vehicleSpeed'> {
  /** Vertical speed [m/s]. */
  readonly climb: Ramp;
  readonly grade?: never;
  readonly vehicleSpeed?: never;
}

/** A held speed, level or on a slope. */
export interface HeldSpeed extends StepOf<'vehicleSpeed'> {
  /** Slope of the ground, rise over distance along it (sine) [1]. */
  readonly grade?: Ramp;
  readonly climb?: never;
  readonly vehicleSpeed?: never;
}

/** A hold that is not the vehicle's speed. */
export interface HeldDrive extends StepOf<Exclude<Held, 'vehicleSpeed'>> {
  /** Slope of the ground, rise over distance along it (sine) [1]. */
  readonly grade?: Ramp;
  /** Vehicle speed imposed beside the hold [m/s]; the climb, or on ground and water the leftover force, is then a result. */
  readonly vehicleSpeed?: Ramp;
  readonly climb?: never;
}

/** What a step may be made of, before it is known which go together; each in the unit that it has in a step [SI]. */
export interface StepParts extends StepOf<Held> {
  readonly vehicleSpeed?: Ramp | undefined;
  readonly climb?: Ramp | undefined;
  readonly grade?: Ramp | undefined;
}

/** A step of its parts. Throws RangeError for parts that exclude one another. */
export function stepOfParts({ hold, vehicleSpeed, climb, grade, ...rest }: StepParts): ProfileStep {
  const slope = grade === undefined ? {} : { grade };
  if (climb !== undefined) {
    if (hold !== 'vehicleSpeed' || vehicleSpeed !== undefined || grade !== undefined)
      throw new RangeError(
        'A climb rate goes with a held speed of the vehicle alone: with another hold it is a result, and on the ground there is a grade.',
      );
    return { ...rest, hold, climb };
  }
  if (hold !== 'vehicleSpeed') return { ...rest, hold, ...(vehicleSpeed === undefined ? {} : { vehicleSpeed }), ...slope };
  if (vehicleSpeed !== undefined) throw new RangeError('A step that holds the speed of the vehicle has it as its value, not beside it.');
  return { ...rest, hold, ...slope };
}

/** The step with each of its ramps changed. */
export function withRamps(step: ProfileStep, change: (ramp: Ramp) => Ramp): ProfileStep {
  const changed = (ramp: Ramp | undefined): Ramp | undefined => ramp && change(ramp);
  const { value, vehicleSpeed, climb, grade } = step;
  return stepOfParts({ ...step, value: change(value), vehicleSpeed: changed(vehicleSpeed), climb: changed(climb), grade: changed(grade) });
}

/** The value of a ramp at a share of its time [1]; in the ramp’s own unit. */
export const rampAt = (ramp: Ramp, share: number): number => ramp.from + (ramp.to - ramp.from) * share;

/** Whether the rotor is held fast at full throttle; a ramp that begins or ends at rest is not. */
export const isRotorHeld = ({ hold, value }: Pick<ProfileStep, 'hold' | 'value'>): boolean =>
  hold === 'shaftSpeed' && value.from === 0 && value.to === 0;

/** Time that all steps take [s]. */
export const profileDuration = (steps: readonly ProfileStep[]): number => steps.reduce((sum, step) => sum + step.duration, 0);
