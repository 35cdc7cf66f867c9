/**
 * What a drive may do for ever, for seconds, and in bursts, along the scenario's own load by throttle with the pack held at a stated charge.
 * All SI. Duty types S1, S3 after IEC 60034-1; the short-time ratings are in seconds, as model practice has them.
 *
 * @module
 */

import type { HeatLimitId } from '../drive/heat-limits.js';
import type { Si } from '../quantities/index.js';

/** One operating point of the drive on its load. */
export interface RatedPoint {
  /** Duty of the controller, 0 to 1 [1]. */
  readonly throttle: Si<'fraction'>;
  /** Of the motor [A]. */
  readonly motorCurrent: Si<'current'>;
  /** Out of the pack [A]. */
  readonly batteryCurrent: Si<'current'>;
  /** Electrical power into the motor [W]. */
  readonly inputPower: Si<'power'>;
  /** Out of the motor’s shaft [W]. */
  readonly shaftPower: Si<'power'>;
  /** Of the motor [rad/s]. */
  readonly shaftSpeed: Si<'angularSpeed'>;
  /** At the motor’s shaft [N·m]. */
  readonly motorTorque: Si<'torque'>;
  /** Of the vehicle [m/s]. */
  readonly vehicleSpeed: Si<'speed'>;
  /** Temperatures in equilibrium there, or at the end of the rated time [K]. */
  readonly temperatures: Readonly<Record<HeatLimitId, Si<'temperature'>>>;
  /** Motor current over the maker's; absent where the maker gives none [1]. */
  readonly currentShare?: Si<'fraction'>;
  /** Input power over the maker’s; absent where the maker gives none [1]. */
  readonly powerShare?: Si<'fraction'>;
}

/** A rating: limited by heat, or by nothing but full throttle, or none at all (even the least throttle tried passes a limit). */
export type Rating =
  | { readonly kind: 'limited'; readonly binding: HeatLimitId; readonly point: RatedPoint }
  | { readonly kind: 'full-throttle'; readonly point: RatedPoint }
  | { readonly kind: 'none'; readonly binding: HeatLimitId };

/** How long one throttle may last: for ever, or until its heat passes a limit. */
export type AllowedTime = HeldThrottle &
  (
    | { readonly kind: 'for-ever' }
    | {
        readonly kind: 'until';
        /** How long it may last [s]. */
        readonly time: Si<'time'>;
        /** What is passed then. */
        readonly binding: HeatLimitId;
      }
  );

/** A throttle that is held. */
export interface HeldThrottle {
  /** Duty of the controller, 0 to 1 [1]. */
  readonly throttle: Si<'fraction'>;
  /** Of the motor [A]. */
  readonly motorCurrent: Si<'current'>;
  /** Electrical power into the motor [W]. */
  readonly inputPower: Si<'power'>;
  /** Out of the motor’s shaft [W]. */
  readonly shaftPower: Si<'power'>;
}

/** Where the drive settles when full throttle is held for ever, with its equilibrium temperatures [K], or why it does not. */
export type Settled =
  | (Lasting & { readonly kind: 'settled'; readonly temperatures: Readonly<Record<HeatLimitId, Si<'temperature'>>> })
  | (Lasting & { readonly kind: 'runaway' | 'no-operating-point' });

/** What full throttle with the rotor held comes to: it passes no limit, or one, or there is no such point. */
export interface Stalled extends Lasting {
  readonly kind: 'settled' | 'runaway' | 'no-operating-point';
}

/** What is known of a throttle that is held for ever. */
export interface Lasting {
  /** In equilibrium, or at the start where there is none [A]. */
  readonly motorCurrent: Si<'current'>;
  /** Time from the scenario's start temperatures until each limit is passed [s]; a limit that is never passed is left out. */
  readonly timeToLimit: Readonly<Partial<Record<HeatLimitId, Si<'time'>>>>;
}

/** One drive’s ratings. */
export interface RatingResult {
  /** State of charge at which the pack is held [1]. */
  readonly charge: Si<'fraction'>;
  readonly continuous: Rating;
  /** The same with winding and magnets as the only limits: the motor's own rating, apart from controller and pack. */
  readonly motorAlone: Rating;
  /** At the speed of the run's hardest step, where that is not about the one that the drive settles at: a climb, a hill, the way up to speed. */
  readonly hardest?: {
    readonly label: string;
    /** Of the vehicle [m/s]. */
    readonly vehicleSpeed: Si<'speed'>;
    readonly continuous: Rating;
    readonly motorAlone: Rating;
    readonly fullThrottle: Settled;
  };
  /** Allowed time against current from the start temperatures, and from the mean temperatures of the profile; rising current. */
  readonly shortTime: {
    readonly fromCold: readonly AllowedTime[];
    readonly fromWarm: readonly AllowedTime[];
    /** Mean temperatures of the profile that "warm" stands for [K]. */
    readonly warm: Readonly<Record<HeatLimitId, Si<'temperature'>>>;
    /** Longest time asked for; what lasts longer counts as for ever [s]. */
    readonly longest: Si<'time'>;
  };
  /** S3: what may be driven for the duty's share [1] of every cycle [s], the motor off for the rest. */
  readonly intermittent: {
    readonly cycle: Si<'time'>;
    readonly duties: readonly { readonly duty: Si<'fraction'>; readonly rating: Rating }[];
  };
  /** Settled peak of the binding temperature [K] over bursts of `on` [s] at `throttle` with `rest` [s] off between: hull and wheels stand at rest and gather way in each burst, a wing glides on. */
  readonly bursts: {
    /** Duty of the controller, 0 to 1 [1]. */
    readonly throttle: Si<'fraction'>;
    /** Of the motor [A]. */
    readonly motorCurrent: Si<'current'>;
    readonly on: readonly Si<'time'>[];
    readonly rest: readonly Si<'time'>[];
    readonly binding: HeatLimitId;
    readonly limit: Si<'temperature'>;
    /** Peak of each settled cycle [K]; a pair for which no cycle settles is left out. */
    readonly settled: readonly { readonly on: Si<'time'>; readonly rest: Si<'time'>; readonly peak: Si<'temperature'> }[];
    /** For each `on` [s], the shortest rest that keeps every limit; NaN-free: absent where no rest does within the map. */
    readonly leastRest: readonly { readonly on: Si<'time'>; readonly rest?: Si<'time'> }[];
  };
  /** Torque [N·m] and current [A] that heat allows for ever against shaft speed [rad/s], for the torque–speed chart, at its vehicle speed: the region above is forbidden. */
  readonly continuousTorque: {
    /** Of the vehicle [m/s]. */
    readonly vehicleSpeed: Si<'speed'>;
    /** Of the motor [rad/s]. */
    readonly shaftSpeed: readonly Si<'angularSpeed'>[];
    readonly torque: readonly Si<'torque'>[];
    readonly current: readonly Si<'current'>[];
    readonly binding: readonly HeatLimitId[];
  };
  readonly fullThrottle: Settled;
  /** Rotor held, full throttle. */
  readonly stall: Stalled;
  /** Held torque [N·m] above which copper and magnets have no equilibrium, and its current [A], at the shaft speed of full throttle [rad/s]. */
  readonly runaway: { readonly shaftSpeed: Si<'angularSpeed'>; readonly torque: Si<'torque'>; readonly current: Si<'current'> };
}
