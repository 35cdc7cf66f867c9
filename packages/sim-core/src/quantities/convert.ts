/** From a unit to SI and back. @module */

import { readUnit } from './read-unit.js';
import { fromSi, type Scale, toSi } from './unit-scale.js';
import { type Dimension, UNITS, type UnitOf } from './units.js';

/** Every listed unit by its listed spelling; one spelling has one scale, whatever the dimension. */
const SCALES: ReadonlyMap<string, Scale> = new Map(
  (Object.keys(UNITS) as Dimension[]).flatMap((dimension) =>
    UNITS[dimension].map((unit) => {
      const read = readUnit(unit, dimension);
      if (!read.ok) throw new Error(`unit table: ${unit} is listed for ${dimension} and cannot be read`);
      return [unit, read.scale] as const;
    }),
  ),
);

export function scaleOf(unit: UnitOf): Scale {
  const scale = SCALES.get(unit);
  if (scale === undefined) throw new RangeError(`no listed unit is spelt ${unit}`);
  return scale;
}

/**
 * SI → the number shown in a listed unit; `toUnit<'angularSpeed'>(ω, 'rpm')` has the compiler refuse units of another dimension.
 * Throws RangeError for 0 W/K in K/W, and for a cross-section that is not positive in AWG.
 */
export function toUnit<D extends Dimension = Dimension>(value: number, unit: NoInfer<UnitOf<D>>): number {
  return fromSi(scaleOf(unit), value);
}

/** The value as it will be read: in its unit, rounded. */
export const asPrinted = <D extends Dimension = Dimension>(value: number, unit: NoInfer<UnitOf<D>>, decimals: number): number =>
  Number(toUnit(value, unit).toFixed(decimals));

/** a − b of what is printed, so that a reader who subtracts finds the same. */
export const printedDifference = <D extends Dimension = Dimension>(
  a: number,
  b: number,
  unit: NoInfer<UnitOf<D>>,
  decimals: number,
): number => Number((asPrinted(a, unit, decimals) - asPrinted(b, unit, decimals)).toFixed(decimals));

/** A number in a listed unit → SI; throws RangeError for 0 K/W. */
export function fromUnit<D extends Dimension = Dimension>(value: number, unit: NoInfer<UnitOf<D>>): number {
  return toSi(scaleOf(unit), value);
}

/** `toUnit` with the unit looked up once, for whole columns. */
export function showIn<D extends Dimension = Dimension>(unit: NoInfer<UnitOf<D>>): (si: number) => number {
  const scale = scaleOf(unit);
  return (si) => fromSi(scale, si);
}

/** The listed unit that has this scale, otherwise the SI unit of the dimension. */
export function listedUnit<D extends Dimension>(scale: Scale, dimension: D): UnitOf<D> {
  const units: readonly UnitOf<D>[] = UNITS[dimension];
  return units.find((unit) => sameScale(scaleOf(unit), scale)) ?? units[0];
}

function sameScale(a: Scale, b: Scale): boolean {
  if (a.kind === 'wire-gauge' || b.kind === 'wire-gauge') return a.kind === b.kind;
  if (a.kind !== b.kind) return false;
  const zeros = a.kind === 'linear' && b.kind === 'linear' ? a.zero === b.zero : true;
  return zeros && closeTo(a.times * b.over, b.times * a.over);
}

/** The same unit reached by two ways of multiplying (rpm, 1/min) differs in the last bits. */
const LAST_BITS = 8 * Number.EPSILON;
const closeTo = (a: number, b: number): boolean => Math.abs(a - b) <= LAST_BITS * Math.abs(b);
