/** Units at the JSON edge by what is measured, and how a key says them: what is not in this list does not compile where a number needs a unit. @module */

import { type Dimension, type Si, toUnit, type UnitOf } from '../quantities/index.js';

/** Unit and suffix of each dimension. */
const OF_DIMENSION = {
  temperature: ['°C', '_degC'],
  temperatureDifference: ['K', '_K'],
  current: ['A', '_A'],
  power: ['W', '_W'],
  speed: ['m/s', '_m_per_s'],
  force: ['N', '_N'],
  fraction: ['%', '_percent'],
  energy: ['W·h', '_Wh'],
  time: ['s', '_s'],
  voltage: ['V', '_V'],
  angularSpeed: ['rpm', '_rpm'],
  speedConstant: ['rpm/V', '_rpm_per_V'],
  torque: ['N·m', '_Nm'],
  mass: ['g', '_g'],
  length: ['mm', '_mm'],
  area: ['cm²', '_cm2'],
  pressure: ['kPa', '_kPa'],
  resistance: ['mohm', '_mohm'],
} as const satisfies { readonly [D in Dimension]?: readonly [unit: UnitOf<D>, suffix: string] };

/** What is measured in a second unit besides, or in one that no dimension has: an account's energy, a motor constant. */
const BESIDE = {
  joules: ['J', '_J'],
  motorConstant: ['mN·m', '_mNm_per_sqrtW'],
} as const satisfies Readonly<Record<string, readonly [unit: UnitOf, suffix: string]>>;
interface MeasuredBeside {
  readonly joules: 'energy';
  readonly motorConstant: 'motorConstant';
}

const JSON_UNITS = { ...OF_DIMENSION, ...BESIDE };

/** One of the units that a key can say. */
export type JsonUnit = keyof typeof JSON_UNITS;
/** What a number measures that leaves in a unit. */
export type MeasuredIn<U extends JsonUnit> = U extends keyof MeasuredBeside ? MeasuredBeside[U] : U extends Dimension ? U : never;

export type JsonDimension = keyof typeof OF_DIMENSION;
/** Whether what is measured has a unit here. */
export const isJsonDimension = (dimension: string): dimension is JsonDimension => dimension in OF_DIMENSION;

/** The suffix of a key, and the value in the unit that it says. */
export function shownIn(unit: JsonUnit): { readonly suffix: string; readonly show: (value: number) => number } {
  const [of, suffix] = JSON_UNITS[unit];
  return { suffix, show: (value) => toUnit(value, of) };
}

/** `name` with its unit, and the SI `value` in it. */
export function withUnit<U extends JsonUnit>(name: string, value: Si<MeasuredIn<U>>, unit: U): [key: string, shown: number] {
  const { suffix, show } = shownIn(unit);
  return [name + suffix, show(value)];
}
