/** A number with its unit and tolerance, from text. @module */

import { listed } from '../problems/listed.js';
import { listedUnit } from './convert.js';
import { DIMENSION_FACTS, named } from './dimension-facts.js';
import { type Objection, objection, quoted, type ReadFailure } from './read-failure.js';
import { legible, readNumeral } from './read-number.js';
import { PERCENT, readTolerance } from './read-tolerance.js';
import { readUnit, type UnitScale } from './read-unit.js';
import type { Spread } from './spread.js';
import { toSi } from './unit-scale.js';
import { type Dimension, UNITS, type UnitOf } from './units.js';
import { THICKEST_GAUGE, THINNEST_GAUGE } from './wire-gauge.js';

/** A quantity that was read [SI], and the unit it was written in. */
export type Quantity<D extends Dimension = Dimension> = {
  readonly ok: true;
  /** SI. */
  readonly value: number;
  /** Present where a `±` was written. */
  readonly tolerance?: Spread;
  /** The unit in which to show it again: the one written, if it is listed, otherwise the SI unit. */
  readonly shownUnit: UnitOf<D>;
};

/** A quantity, or what is wrong with the text. */
export type QuantityReading<D extends Dimension = Dimension> = Quantity<D> | ReadFailure;

/**
 * Reads a number with its unit and, after `±` or `+/-`, the half-width of its 95 % interval. Never throws.
 *
 * A bare number is a failure where a unit is due; a `ratio` has none, and a `fraction` may be written as a plain number from −1 to 1.
 */
export function readQuantity<D extends Dimension>(text: string, dimension: D): QuantityReading<D> {
  const plain = legible(text);
  const read = plain.ok ? readPlain(plain.text, dimension) : plain;
  return read.ok ? read : { ...read, expected: expectation(dimension) };
}

/** "a charge in A·h, mA·h or A·s": the unit people use first. */
export function expectation(dimension: Dimension): string {
  if (dimension === 'ratio') return 'a ratio, a number without a unit';
  if (dimension === 'fraction') return 'a fraction in %, or a number from 0 to 1';
  const { shown } = DIMENSION_FACTS[dimension];
  const units = [shown, ...UNITS[dimension].filter((unit) => unit !== shown)];
  return `${named(dimension)} in ${listed(units, 'or')}`;
}

/** Whatever is meant, it is within these [SI]; products of several beyond them are no numbers any more. */
const LARGEST = 1e15;
const SMALLEST = 1e-21;

/** Why there is no such value [SI]; undefined where there may be. */
export function noSuchValue(value: number, dimension: Dimension): string | undefined {
  if (!(Math.abs(value) <= LARGEST)) return 'the number is too large to be calculated with: look at its exponent';
  return dimension === 'temperature' && value < 0 ? 'this is below absolute zero' : undefined;
}

const IN_PARENTHESES = /^\(([^()±]+)±([^()±]+)\) ?(.+)$/;

function readPlain<D extends Dimension>(text: string, dimension: D): Quantity<D> | Objection {
  const [head = '', tail, ...more] = text
    .replace(IN_PARENTHESES, '$1 $3 ± $2 $3')
    .split('±')
    .map((part) => part.trim());
  if (more.length > 0) return objection('bad-tolerance', quoted(text), { hint: 'one ± to a quantity' });

  const numeral = readNumeral(head);
  if (!numeral.ok) return numeral;
  const unit = numeral.rest || borrowedUnit(numeral.value, tail, dimension);
  const read = readUnitOf(numeral.value, unit, dimension);
  if (!read.ok) return read;
  const { scale } = read;

  if (scale.kind === 'reciprocal' && numeral.value === 0) {
    return objection('out-of-range', quoted(text), { hint: 'no resistance at all would be an infinite conductance' });
  }
  if (scale.kind === 'wire-gauge' && !(numeral.value >= THICKEST_GAUGE && numeral.value <= THINNEST_GAUGE)) {
    return objection('out-of-range', quoted(text), { hint: `gauge numbers run from ${THICKEST_GAUGE} (4/0) to ${THINNEST_GAUGE}` });
  }
  const value = toSi(scale, numeral.value);
  const hint = noSuchValue(value, dimension);
  if (hint !== undefined) return objection('out-of-range', quoted(text), { hint });
  if (value !== 0 && Math.abs(value) < SMALLEST)
    return objection('out-of-range', quoted(text), { hint: 'the number is too small to be calculated with: look at its exponent' });

  const nominal: Quantity<D> = { ok: true, value, shownUnit: listedUnit(scale, dimension) };
  if (tail === undefined) return nominal;
  const tolerance = readTolerance(tail, { written: numeral.value, unit, scale, dimension });
  return tolerance.ok ? { ...nominal, tolerance: tolerance.spread } : tolerance;
}

/** In `6.2 ± 0.3 A·h` the unit stands once, at the end. A % at the end is the tolerance's own, unless the number can only be a percentage. */
function borrowedUnit(value: number, tail: string | undefined, dimension: Dimension): string {
  const numeral = readNumeral(tail ?? '');
  if (!numeral.ok) return '';
  return PERCENT.test(numeral.rest) && !(dimension === 'fraction' && isBeyondPlain(value)) ? '' : numeral.rest;
}

const isBeyondPlain = (value: number): boolean => Math.abs(value) > 1;
const ANOTHER_NUMBER = /[\p{L}%°)][,;]? ?[+-]?\d+(?:\.\d+)? ?[\p{L}%°]/u;

function readUnitOf(value: number, unit: string, dimension: Dimension): UnitScale | Objection {
  if (unit === '') return readBare(value, dimension);
  const found = `${value} ${unit}`;
  if (/(^| )to /.test(unit)) {
    return objection('two-quantities', quoted(found), { hint: 'one value is due here, not a range' });
  }
  const read = readUnit(unit, dimension);
  if (!read.ok && ANOTHER_NUMBER.test(unit)) {
    return objection('two-quantities', quoted(found), { hint: 'write one number with one unit' });
  }
  return read;
}

/** Numbers this large are seldom meant in the usual unit: packs are labelled in mA·h. */
const likelyUnit = (value: number, dimension: Dimension): string | undefined =>
  dimension === 'charge' && value >= 100 ? 'mA·h' : undefined;

function readBare(value: number, dimension: Dimension): UnitScale | Objection {
  const plain = dimension === 'ratio' || (dimension === 'fraction' && !isBeyondPlain(value));
  if (plain) return { ok: true, scale: { kind: 'linear', times: 1, over: 1, zero: 0 } };
  const { shown } = DIMENSION_FACTS[dimension];
  return objection('bare-number', `${quoted(`${value}`)}, a number without a unit`, {
    hint: `write ${value} ${likelyUnit(value, dimension) ?? shown}, if that is the unit`,
  });
}
