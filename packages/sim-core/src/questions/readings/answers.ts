/**
 * The model's own answer to what was read of one drive, under any draw of its unknowns and of what else may be off.
 *
 *   (1) at a throttle: the steady point, parts as at the start, on a supply of the voltage that was read at the controller, else on the pack
 *   (2) at t: the end of the profile cut off at t        (3) after the stop: the whole profile, then cooling
 *   (4) winding resistance R·(1 + α·(T − 20 °C)), T as it was read, or that of the winding after the stop
 *
 * What else may be off: the conditions of the reading, the thermometer, and the model's own error of every rise, as in doubt/plan.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { type ProfileStep, profileDuration, type Ramp, rampAt, withRamps } from '../../drive/profile.js';
import type { ThermometerPlace } from '../../heat/thermometer.js';
import { IntegrationFailure } from '../../numerics/integration-failure.js';
import { windingResistance } from '../../parts/motor.js';
import { benchSupply } from '../../provenance/complete/complete-electrics.js';
import { createFiller } from '../../provenance/complete/filler.js';
import type { Datum } from '../../provenance/datum.js';
import type { GivenReadingRow } from '../../provenance/given.js';
import { type Draw, drawer, NOMINAL, realise, realiser } from '../../provenance/realise.js';
import { drawn, ROOM_TEMPERATURE, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { RunInput } from '../candidate.js';
import { modelFactor, modelKeys } from '../doubt/plan.js';
import { pointOf } from '../point.js';
import { coolDown } from '../run/after-stop.js';
import { observe } from '../simulate/observe.js';
import { type Simulation, simulate } from '../simulate/simulate.js';
import { airAround } from '../simulate/thermometer-excess.js';
import { CHANNEL_READ, conditionsOf, isThermometer, type NumberRead, THERMOMETER_READ, type ThermometerKey } from './numbers-read.js';
import { looksBefore, rimSpeedIn, shownBy, thermometerAt, thermometerExcess } from './thermometer-reads.js';

const STEPPER = { method: 'dormand-prince', relative: 1e-4, record: false } as const;

const placeOf = (key: ThermometerKey, { emissivity }: GivenReadingRow) => thermometerAt(THERMOMETER_READ[key], emissivity !== undefined);
export const thermometerKey = (key: ThermometerKey, row: GivenReadingRow, name: string): string =>
  `thermometer:${row.emissivity === undefined ? THERMOMETER_READ[key] : `infrared-${key}`}@${name}`;

const afterTheStop = ({ key, taken: { row } }: NumberRead): boolean =>
  isThermometer(key) || (key === 'resistance' && row.after !== undefined);

/** f of a thermometer, z standard deviations from what its place usually shows [1]. */
export const thermometerFactor = ({ factor }: ThermometerPlace, z: number): number =>
  Math.exp((Math.log(factor) / STANDARD_DEVIATIONS_95) * z);

/** Keys of what else may be off in these numbers, beside the unknowns of the drive. */
export function otherKeys(numbers: readonly NumberRead[], name: string): string[] {
  const keys = new Set<string>();
  for (const number of numbers) {
    const { key, taken } = number;
    for (const { unknown } of conditionsOf(taken.row)) keys.add(unknown.key);
    if (afterTheStop(number)) for (const each of modelKeys(name)) keys.add(each);
    if (isThermometer(key)) keys.add(thermometerKey(key, taken.row, name));
  }
  return [...keys];
}

/** A condition under a draw. */
const set = (datum: Datum, draw: Draw): number => drawn(datum.value, datum.unknown.spread, draw(datum.unknown.key, datum.unknown.spread));

/** The profile up to a time [s]. */
export function cutOff(profile: readonly ProfileStep[], at: number): ProfileStep[] {
  const kept: ProfileStep[] = [];
  let left = at;
  for (const step of profile) {
    if (!(left > 0)) break;
    const share = Math.min(1, left / step.duration);
    const cut = (ramp: Ramp): Ramp => ({ from: ramp.from, to: rampAt(ramp, share) });
    kept.push({ ...withRamps(step, cut), duration: share * step.duration });
    left -= step.duration;
  }
  return kept;
}

interface Followed {
  readonly run: Simulation;
  readonly kept: ReadonlyMap<number, Float64Array>;
}

/** What the drive gives for each of `numbers`, all read on it, in SI; NaN where there is no such moment. */
export function answersOf(
  { name, data }: RunInput,
  numbers: readonly NumberRead[],
  profile: readonly ProfileStep[],
): (draw: Draw) => readonly number[] {
  const systemOf = realiser(data);
  const duration = profileDuration(profile);
  const supply = drawer(benchSupply(createFiller(name), data.battery.voltageOffset))(NOMINAL) as DriveSystem['battery'];
  const lookedAt = (row: GivenReadingRow, end: number): number[] => [
    ...new Set(
      numbers
        .flatMap(({ key, taken }) => (taken.row === row && isThermometer(key) ? looksBefore(placeOf(key, row), end) : []))
        .sort((a, b) => a - b),
    ),
  ];
  // the run as written says how fast the rim turned and where it ends; a stream is a detail of a thermometer's share
  const nominal = numbers.some(({ key }) => isThermometer(key))
    ? simulate(realise(data), profile, { ...STEPPER, record: true })
    : undefined;
  const rimSpeed = rimSpeedIn(nominal, data.motor.canDiameter.value);
  const follow = (system: DriveSystem, steps: readonly ProfileStep[], looks: readonly number[]): Followed => {
    const run = simulate(system, steps, { ...STEPPER, keepAt: Float64Array.from(looks) });
    return { run, kept: new Map(run.kept.map((y, k) => [looks[k], y])) };
  };

  const point = (system: DriveSystem, row: GivenReadingRow & { readonly throttle: Datum }, draw: Draw) => {
    const fed =
      row.voltage === undefined
        ? system
        : { ...system, battery: { ...supply, voltageOffset: set(row.voltage, draw) }, wiring: { resistance: 0 }, otherLoads: 0, drives: 1 };
    const held = { hold: 'throttle', value: Math.min(1, set(row.throttle, draw)) } as const;
    if (row.vehicleSpeed !== undefined) return pointOf(fed, { ...held, vehicleSpeed: set(row.vehicleSpeed, draw) }).channels;
    return pointOf(fed, system.vehicle.carriedBy === 'wheels' ? held : { ...held, vehicleSpeed: 0 }).channels;
  };

  const winding = (followed: Followed, system: DriveSystem, after: number, model: number): number => {
    const stopped = coolDown(system, followed.run.state, [after], STEPPER.relative)?.at(-1)?.bodies.winding ?? Number.NaN;
    return system.start.motorTemperature + model * (stopped - system.start.motorTemperature);
  };

  return (draw) => {
    const system = systemOf(draw);
    const model = modelFactor((key) => draw(key, { shape: 'none' }), name);
    const followed = new Map<GivenReadingRow, Followed>();
    const runOf = (row: GivenReadingRow): Followed => {
      const known = followed.get(row);
      if (known !== undefined) return known;
      const at = row.at === undefined ? undefined : set(row.at, draw);
      const made = follow(system, at === undefined ? profile : cutOff(profile, at), lookedAt(row, at ?? nominal?.time ?? duration));
      followed.set(row, made);
      return made;
    };
    const answer = ({ key, taken: { row } }: NumberRead): number => {
      if (row.throttle !== undefined) {
        if (isThermometer(key) || key === 'resistance') return Number.NaN;
        return point(system, { ...row, throttle: row.throttle }, draw)[CHANNEL_READ[key].channel];
      }
      if (key === 'resistance' && row.after === undefined)
        return windingResistance(system.motor, row.resistanceAt === undefined ? ROOM_TEMPERATURE : set(row.resistanceAt, draw));
      const { run, kept } = runOf(row);
      const reached = row.at === undefined ? run.end !== 'failed' : run.end === 'finished' && row.at.value <= duration;
      if (!reached) return Number.NaN;
      const after = row.after === undefined ? undefined : set(row.after, draw);
      if (key === 'resistance') return windingResistance(system.motor, winding({ run, kept }, system, after ?? 0, model));
      if (!isThermometer(key)) return observe(run.kernel, run.time, run.state)[CHANNEL_READ[key].channel];
      const place = placeOf(key, row);
      const factor = thermometerFactor(place, draw(thermometerKey(key, row, name), { shape: 'none' }));
      const { excess } = thermometerExcess(place, system, run, kept, rimSpeed, after);
      const emissivity = row.emissivity === undefined ? undefined : set(row.emissivity, draw);
      return shownBy(factor * model * excess, airAround(place, system), emissivity);
    };
    try {
      return numbers.map(answer);
    } catch (error) {
      if (error instanceof IntegrationFailure) return numbers.map(() => Number.NaN);
      throw error;
    }
  };
}
