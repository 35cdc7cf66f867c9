/** Figures of the audit in words. @module */

import { fromUnit } from '../../quantities/convert.js';
import { type Dimension, formatClock, formatNumber, formatQuantity, SECONDS_PER_MINUTE, type UnitOf } from '../../quantities/index.js';
import type { SheetFigures } from './figures.js';
import { MOTOR_CONSTANT_FACTOR } from './marks.js';

export const text = <D extends Dimension>(value: number, dimension: D, unit?: UnitOf<D>, decimals?: number): string =>
  formatQuantity(value, dimension, { ...(unit === undefined ? {} : { unit }), ...(decimals === undefined ? {} : { decimals }) });
export const percent = (value: number): string => text(value, 'fraction', '%', 0);
export const perGram = (value: number): string => `${formatNumber(value * fromUnit(1, 'g'), { significant: 2 })} W/g`;
export const celsius = (value: number): string => text(value, 'temperature', '°C', 0);

/** Seconds up to two minutes, then a clock. */
export const duration = (seconds: number): string =>
  seconds < 2 * SECONDS_PER_MINUTE ? text(seconds, 'time', 's', 0) : `${formatClock(seconds)} min`;

export const constantText = (value: number): string => `${text(value, 'torque', 'mN·m')}/√W`;

/** Torque at which R·Kv² is shown as a loss people can picture [N·m]. */
export const SHOWN_TORQUE = 0.1;
export const lossAtTorque = (product: number): string => text(product * SHOWN_TORQUE ** 2, 'power', 'W');

/** A slip of a digit that would explain a motor constant so far off: a factor of 10 in Kv is 10, in the resistance √10. */
export function slipOf(ratio: number, { system }: SheetFigures): string {
  const { torqueConstant, resistance } = system.motor;
  const near = (factor: number): boolean => Math.abs(Math.log(ratio * factor)) < 0.5 * Math.log(MOTOR_CONSTANT_FACTOR);
  const kv = (value: number): string => text(value, 'speedConstant', 'rpm/V', 0);
  if (near(10)) return `; with a Kv of ${kv(0.1 / torqueConstant)} it would be in line`;
  if (near(0.1)) return `; with a Kv of ${kv(10 / torqueConstant)} it would be in line`;
  if (near(Math.sqrt(10))) return `; with ${text(0.1 * resistance, 'resistance')} it would be in line`;
  if (near(Math.sqrt(0.1))) return `; with ${text(10 * resistance, 'resistance')} it would be in line`;
  return '';
}
