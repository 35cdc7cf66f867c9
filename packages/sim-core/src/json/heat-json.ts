/** Ratings, cooling and readings at the JSON edge: shown units, every numeric key ends in its unit. @module */

import { toUnit } from '../quantities/index.js';
import type { AllowedTime, RatingResult } from '../results/rating-result.js';

type Unit = Parameters<typeof toUnit>[1];
/** Unit and suffix by key; a list under such a key is converted item by item. What has no entry is plain. */
const UNITS: Readonly<Record<string, readonly [unit: Unit, suffix: string]>> = {
  charge: ['%', '_percent'],
  throttle: ['%', '_percent'],
  duty: ['%', '_percent'],
  currentShare: ['%', '_percent'],
  powerShare: ['%', '_percent'],
  motorCurrent: ['A', '_A'],
  batteryCurrent: ['A', '_A'],
  current: ['A', '_A'],
  inputPower: ['W', '_W'],
  shaftPower: ['W', '_W'],
  controllerLoss: ['W', '_W'],
  shaftSpeed: ['rpm', '_rpm'],
  motorTorque: ['N·m', '_Nm'],
  torque: ['N·m', '_Nm'],
  vehicleSpeed: ['m/s', '_m_per_s'],
  windingTemperature: ['°C', '_degC'],
  magnetTemperature: ['°C', '_degC'],
  controllerTemperature: ['°C', '_degC'],
  cellTemperature: ['°C', '_degC'],
  can: ['°C', '_degC'],
  end: ['°C', '_degC'],
  controller: ['°C', '_degC'],
  cells: ['°C', '_degC'],
  winding: ['°C', '_degC'],
  stator: ['°C', '_degC'],
  magnets: ['°C', '_degC'],
  limit: ['°C', '_degC'],
  bound: ['°C', '_degC'],
  worst: ['°C', '_degC'],
  peak: ['°C', '_degC'],
  reading: ['°C', '_degC'],
  nominal: ['°C', '_degC'],
  low: ['°C', '_degC'],
  high: ['°C', '_degC'],
  time: ['s', '_s'],
  after: ['s', '_s'],
  stoppedAt: ['s', '_s'],
  longest: ['s', '_s'],
  cycle: ['s', '_s'],
  on: ['s', '_s'],
  rest: ['s', '_s'],
};

/** Keys whose records hold other things under the same names: times until a limit, throttles of a range. */
const SECONDS: readonly [Unit, string] = ['s', '_s'];
const PERCENT: readonly [Unit, string] = ['%', '_percent'];

const allowedJson = ({ kind: _, ...allowed }: AllowedTime): object => allowed;

/** One drive's ratings as plain JSON, units in the keys; a time that is left out lasts for ever. */
export const ratingJson = (rating: RatingResult): unknown =>
  heatJson({
    ...rating,
    shortTime: {
      ...rating.shortTime,
      fromCold: rating.shortTime.fromCold.map(allowedJson),
      fromWarm: rating.shortTime.fromWarm.map(allowedJson),
    },
  });

/** Converts plain data in SI; `within` gives every number of a record one unit. */
export function heatJson(value: unknown, key = '', within?: readonly [Unit, string]): unknown {
  if (Array.isArray(value))
    return value.map((each) => (typeof each === 'number' ? inUnit(each, key, within) : heatJson(each, key, within)));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, inner]) => {
      const unit = unitOf(name, key, within);
      const numbers = typeof inner === 'number' || holdsNumbers(inner);
      if (numbers && unit !== undefined) return [name + unit[1], converted(inner, unit)];
      return [name, heatJson(inner, name, name === 'timeToLimit' ? SECONDS : name === 'lossier' || name === 'avoid' ? PERCENT : undefined)];
    }),
  );
}

function unitOf(name: string, parent: string, within?: readonly [Unit, string]): readonly [Unit, string] | undefined {
  // a peak's own record: a temperature and the time of it
  if (name === 'value') return parent === 'answer' ? undefined : ['°C', '_degC'];
  return within ?? UNITS[name];
}
const inUnit = (x: number, key: string, within?: readonly [Unit, string]): number => {
  const unit = within ?? UNITS[key];
  return unit === undefined ? x : toUnit(x, unit[0]);
};
const holdsNumbers = (x: unknown): boolean =>
  Array.isArray(x) && x.length > 0 && x.every((each) => typeof each === 'number' || holdsNumbers(each));
const converted = (x: unknown, unit: readonly [Unit, string]): unknown =>
  Array.isArray(x) ? x.map((each) => converted(each, unit)) : toUnit(x as number, unit[0]);
