/** A range of a quantity, from text. @module */

import { type Objection, objection, quoted, type ReadFailure } from './read-failure.js';
import { legible, type Numeral, readNumeral } from './read-number.js';
import { expectation, readQuantity } from './read-quantity.js';
import type { Dimension, UnitOf } from './units.js';

/** A range that was read [SI], or what is wrong with the text. */
export type RangeReading<D extends Dimension = Dimension> =
  | { readonly ok: true; readonly from: number; readonly to: number; readonly shownUnit: UnitOf<D> }
  | ReadFailure;

const DASHED = /^[+-]?[\d.]+ ?(?:[-\u2013\u2014~]|\.\.+) ?[\d.]/;

/**
 * Reads `60 to 100 %`, `4 m/s to 14 m/s` or a single quantity (then both ends are the same). A unit written once, at the end, holds for both.
 * A range takes no tolerance. Never throws.
 */
export function readRange<D extends Dimension>(text: string, dimension: D): RangeReading<D> {
  const plain = legible(text);
  const read = plain.ok ? readPlain(plain.text, dimension) : plain;
  return read.ok ? read : { ...read, expected: `${expectation(dimension)}, or a range such as “2 to 3 …”` };
}

function readPlain<D extends Dimension>(text: string, dimension: D): RangeReading<D> | Objection {
  if (text.includes('±')) return objection('bad-tolerance', quoted(text), { hint: 'what is held takes no tolerance' });
  if (DASHED.test(text)) return objection('two-quantities', quoted(text), { hint: 'write a range with “to”: 2 to 3 m/s' });
  const [first = '', second, ...more] = text.split(/ to /);
  if (more.length > 0) return objection('two-quantities', quoted(text), { hint: 'a range has two ends' });
  if (second === undefined) {
    const one = readQuantity(first, dimension);
    return one.ok ? { ok: true, from: one.value, to: one.value, shownUnit: one.shownUnit } : one;
  }

  const begin = readNumeral(first);
  const end = readNumeral(second);
  if (!begin.ok) return begin;
  if (!end.ok) return end;
  const borrowed = begin.rest === '' ? end.rest : '';
  if (dimension === 'fraction' && mixes(begin, end)) {
    return objection('ambiguous', quoted(text), { hint: 'write both ends in %, or both as plain numbers' });
  }
  const from = readQuantity(`${first} ${borrowed}`, dimension);
  if (!from.ok) return from;
  const to = readQuantity(second, dimension);
  if (!to.ok) return to;
  return { ok: true, from: from.value, to: to.value, shownUnit: end.rest === '' ? from.shownUnit : to.shownUnit };
}

/** `0.5 to 80 %` and `60 % to 0.5`: the plain end may be a share or a percentage. Nought is the same either way. */
function mixes(begin: Numeral, end: Numeral): boolean {
  const plainBeforePercent = begin.rest === '' && end.rest !== '' && begin.value !== 0 && Math.abs(begin.value) < 1;
  return plainBeforePercent || (begin.rest !== '' && end.rest === '' && end.value !== 0);
}
