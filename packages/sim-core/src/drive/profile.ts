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

/** One step of a profile. */
export interface ProfileStep {
  /** [s] */
  readonly duration: number;
  readonly label?: string;
  readonly hold: Held;
  /** The held value [1, m/s, rad/s, W, A or N]. Throttle 0 is off; a shaft speed of 0 all the while is a held rotor at full throttle. */
  readonly value: Ramp;
  /** Vehicle speed imposed beside another hold [m/s]; the climb, or on ground and water the leftover force, is then a result. */
  readonly vehicleSpeed?: Ramp;
  /** Vertical speed [m/s], with a held vehicle speed. */
  readonly climb?: Ramp;
  /** Slope of the ground, rise over distance along it (sine) [1]. */
  readonly grade?: Ramp;
}

/** The value of a ramp at a share of its time [1]; in the ramp’s own unit. */
export const rampAt = (ramp: Ramp, share: number): number => ramp.from + (ramp.to - ramp.from) * share;

/** Whether the rotor is held fast at full throttle; a ramp that begins or ends at rest is none. */
export const isRotorHeld = ({ hold, value }: Pick<ProfileStep, 'hold' | 'value'>): boolean =>
  hold === 'shaftSpeed' && value.from === 0 && value.to === 0;

/** Time that all steps take [s]. */
export const profileDuration = (steps: readonly ProfileStep[]): number => steps.reduce((sum, step) => sum + step.duration, 0);
