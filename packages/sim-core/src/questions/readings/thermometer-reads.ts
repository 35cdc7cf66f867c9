/**
 * What a thermometer would show, during a run or after its stop, from the model's own temperatures.
 *
 *   (1) shown = T_air + f·m·θ,  θ by heat/thermometer (1), (2) over its last lags;  infrared: of a surface at T_air + f·m·θ, by (3)
 *
 * f — of this thermometer, m — the model's error; both known as far as their spreads say.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import {
  followThermometer,
  infraredReading,
  THERMOMETER_PLACES,
  type ThermometerPlace,
  type ThermometerPlaceId,
} from '../../heat/thermometer.js';
import { coolDown } from '../run/after-stop.js';
import type { Simulation } from '../simulate/simulate.js';
import { stopBodies } from '../simulate/stop-bodies.js';
import { excessAt } from '../simulate/thermometer-excess.js';

/** Lags looked back, and looks per lag. */
const LAGS = 5;
const LOOKS = 5;
/** A known emissivity is known to this factor, as 95 %; common practice, no published source. */
const EMISSIVITY_FACTOR = 1.2;

/** One that looks takes no share and is not late, but errs with the emissivity. */
export const thermometerAt = (place: ThermometerPlaceId, infrared: boolean): ThermometerPlace =>
  infrared ? { ...THERMOMETER_PLACES[place], share: 1, factor: EMISSIVITY_FACTOR, lag: 0.1 } : THERMOMETER_PLACES[place];

/** Times before `end` at which the run's state is wanted [s], rising, from its beginning on where that is nearer; the end itself not among them. */
export const looksBefore = ({ lag }: ThermometerPlace, end: number): number[] => {
  const span = Math.min(LAGS * lag, end);
  return Array.from({ length: LAGS * LOOKS }, (_, k) => Math.max(0, end - ((LAGS * LOOKS - k) * span) / (LAGS * LOOKS)));
};

const looksAfter = ({ lag }: ThermometerPlace, after: number): number[] =>
  Array.from({ length: Math.min(LAGS * LOOKS, Math.ceil((after * LOOKS) / lag)) }, (_, k) => after - (k * lag) / LOOKS)
    .filter((t) => t > 0)
    .reverse();

/** How fast the can's rim was [m/s] at a time of a recorded run, 0 beyond it. */
export const rimSpeedIn = (run: Simulation | undefined, canDiameter: number): ((t: number) => number) => {
  const { time, shaftSpeed } = run?.recorded?.trace ?? { time: [], shaftSpeed: [] };
  return (t) => 0.5 * canDiameter * (shaftSpeed[time.findIndex((each) => each >= t)] ?? 0);
};

export interface Shown {
  /** θ [K]. */
  readonly excess: number;
  /** Temperature of the winding then [K]. */
  readonly winding: number;
}

/**
 * θ at the end of `run`, or `after` its stop [s]; `kept` are its states at earlier times, rising, `rimSpeed` how fast the can's rim was at a time [m/s].
 * Throws IntegrationFailure where the stop cannot be followed.
 */
export function thermometerExcess(
  place: ThermometerPlace,
  system: DriveSystem,
  run: Simulation,
  kept: ReadonlyMap<number, Float64Array>,
  rimSpeed: (t: number) => number,
  after: number | undefined,
): Shown {
  const excess = (bodies: ReturnType<typeof stopBodies>): number => excessAt(place, system, bodies);
  const bodiesOf = (y: Float64Array) => stopBodies(system, run.kernel.at, y);
  const moments = Array.from(kept, ([t, y]) => ({ t, excess: excess(bodiesOf(y)), speed: rimSpeed(t) }));
  const last = bodiesOf(run.state);
  moments.push({ t: run.time, excess: excess(last), speed: rimSpeed(run.time) });
  if (after === undefined) return { excess: followThermometer(place, moments).at(-1) ?? Number.NaN, winding: last.winding };
  const stopped = coolDown(system, run.state, [0, ...looksAfter(place, after)], 1e-5);
  // what burnt out cannot be followed: no reading is foretold
  if (stopped === undefined) return { excess: Number.NaN, winding: Number.NaN };
  for (const { after: later, bodies } of stopped.slice(1)) moments.push({ t: run.time + later, excess: excess(bodies), speed: 0 });
  return { excess: followThermometer(place, moments).at(-1) ?? Number.NaN, winding: (stopped.at(-1)?.bodies ?? last).winding };
}

/** (1) */
export const shownBy = (excess: number, air: number, emissivity: number | undefined): number =>
  emissivity === undefined ? air + excess : infraredReading(air + excess, emissivity, air);
