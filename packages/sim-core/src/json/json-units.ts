/** Units at the JSON edge by what is measured, and how a key says them: what is not in this list does not compile where a number needs a unit. @module */

import { type Dimension, toUnit, type UnitOf } from '../quantities/index.js';

export const JSON_UNITS = {
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
  mass: ['g', '_g'],
  resistance: ['mohm', '_mohm'],
} as const satisfies { readonly [D in Dimension]?: readonly [unit: UnitOf<D>, suffix: string] };

export type JsonDimension = keyof typeof JSON_UNITS;
/** Whether what is measured has a unit here. */
export const isJsonDimension = (dimension: string): dimension is JsonDimension => dimension in JSON_UNITS;

/** `name` with its unit, and the SI `value` in it. */
export function withUnit(name: string, value: number, dimension: JsonDimension): [key: string, shown: number] {
  const [unit, suffix] = JSON_UNITS[dimension];
  return [name + suffix, toUnit(value, unit)];
}
