/** Numbers and quantities as text. @module */

import { toUnit } from './convert.js';
import { DIMENSION_FACTS } from './dimension-facts.js';
import type { Dimension, UnitOf } from './units.js';

/** Narrow no-break space, between a number and its unit. */
export const NARROW_SPACE = '\u202f';
const MINUS = '\u2212';
const SIGNIFICANT = 3;

/** How a number is written: how many digits [1]. */
export interface NumberFormat {
  /** Digits that count, from the first that is not zero; 3 unless said otherwise. */
  readonly significant?: number;
  /** Digits after the point; wins over `significant`. */
  readonly decimals?: number;
}

/** How a quantity is written. */
export interface QuantityFormat<D extends Dimension = Dimension> extends NumberFormat {
  readonly unit?: NoInfer<UnitOf<D>>;
  /** What stands between number and unit. */
  readonly space?: string;
}

/** Outside these the number is written with a power of ten, in the form that the readers know (2.4e-7). */
const SMALLEST_PLAIN = 1e-6;
const LARGEST_PLAIN = 1e12;

/**
 * A number as text: a true minus sign, no minus before zero, at least the digits of the integral part.
 * Throws RangeError for NaN and infinities, which no reader of a report should meet.
 */
export function formatNumber(value: number, { significant = SIGNIFICANT, decimals }: NumberFormat = {}): string {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is not a number to show`);
  const size = Math.abs(value);
  const digits =
    decimals === undefined
      ? inDigits(size, significant)
      : size < LARGEST_PLAIN
        ? size.toFixed(decimals)
        : withoutPlus(size.toExponential());
  return value < 0 && /[1-9]/.test(digits) ? `${MINUS}${digits}` : digits;
}

const withoutPlus = (text: string): string => text.replace('e+', 'e');

function inDigits(size: number, significant: number): string {
  if (size === 0) return '0';
  // Rounded first: 99.96 in three digits is 100, with none after the point.
  const rounded = Number(size.toPrecision(significant));
  if (rounded < SMALLEST_PLAIN || rounded >= LARGEST_PLAIN) return withoutPlus(size.toExponential(significant - 1));
  const magnitude = Math.floor(Math.log10(rounded));
  return size.toFixed(Math.max(0, significant - 1 - magnitude));
}

/** The unit as it stands in print: Ω for ohm, nothing for a plain number. */
export function unitSign(unit: UnitOf): string {
  return unit === '1' ? '' : unit.replace('ohm', 'Ω');
}

/**
 * SI → people's text, such as `38.2 °C`; without `unit`, the unit in which a value of this size is usually shown.
 * Throws RangeError for NaN and infinities, and for what `toUnit` refuses.
 */
export function formatQuantity<D extends Dimension>(value: number, dimension: D, format: QuantityFormat<D> = {}): string {
  const { unit = handyUnit(value, dimension), space = NARROW_SPACE, ...digits } = format;
  const sign = unitSign(unit);
  const gap = sign === '' || sign === '°' ? '' : space;
  return `${formatNumber(toUnit(value, unit), digits)}${gap}${sign}`;
}

/** Sizes at which people turn to another unit than the usual one: 200 ns, 310 m, 30 mV. */
const BY_SIZE: { readonly [D in Dimension]?: (size: number) => string | undefined } = {
  time: (size) => (size === 0 || size >= 1e-3 ? undefined : size < 1e-6 ? 'ns' : 'µs'),
  length: (size) => (size === 0 || size >= 10 ? 'm' : undefined),
  voltage: (size) => (size > 0 && size < 0.1 ? 'mV' : undefined),
};

/** The unit in which people write a value of this size [SI]. */
export function handyUnit<D extends Dimension>(value: number, dimension: D): UnitOf<D> {
  return (BY_SIZE[dimension]?.(Math.abs(value)) ?? DIMENSION_FACTS[dimension].shown) as UnitOf<D>;
}

/** The unit in which a dimension is shown when nobody says otherwise. */
export function usualUnit<D extends Dimension>(dimension: D): UnitOf<D> {
  return DIMENSION_FACTS[dimension].shown as UnitOf<D>;
}

/** A mass in grams: whole ones from ten on, two digits below, so that a motor of a tenth of a gram is not nothing. */
export const massText = (value: number): string =>
  formatQuantity(value, 'mass', { unit: 'g', ...(Math.abs(toUnit(value, 'g')) < 9.5 ? { significant: 2 } : { decimals: 0 }) });
