/** What stands after the `±`. @module */

import { DIMENSION_FACTS, named } from './dimension-facts.js';
import { type Objection, objection, quoted } from './read-failure.js';
import { readNumeral } from './read-number.js';
import { readUnit } from './read-unit.js';
import { logNormal95, normal95, type Spread } from './spread.js';
import { type Scale, toSi } from './unit-scale.js';
import type { Dimension } from './units.js';

/** What stands before the `±`: the number as written, how its unit becomes SI, and whether a unit stood there at all. */
export interface Nominal {
  readonly written: number;
  readonly unit: string;
  readonly scale: Scale;
  readonly dimension: Dimension;
}

export type ToleranceReading = { readonly ok: true; readonly spread: Spread } | Objection;

export const PERCENT = /^(%|percent)$/;

const bad = (text: string, hint: string): Objection => objection('bad-tolerance', quoted(`± ${text}`), { hint });

/** Reads what follows `±`, the half-width of a 95 % interval: a quantity of the same dimension, or a % of the value. */
export function readTolerance(text: string, nominal: Nominal): ToleranceReading {
  const { dimension, scale } = nominal;
  const numeral = readNumeral(text);
  if (!numeral.ok) return bad(text, numeral.hint ?? 'a number follows ±');
  if (numeral.value < 0) return bad(text, 'a tolerance is a half-width and never negative');
  if (scale.kind === 'wire-gauge') return bad(text, 'a gauge number takes no tolerance; give the cross-section in mm²');
  if (PERCENT.test(numeral.rest)) return percentage(text, numeral.value, nominal);
  if (numeral.rest === '' && nominal.unit !== '')
    return bad(text, dimension === 'temperature' ? 'give the tolerance in K' : 'give the tolerance its unit, or a %');

  // A tolerance of a temperature is a difference, so that no zero point is added to it.
  const read =
    numeral.rest === ''
      ? { ok: true as const, scale }
      : readUnit(numeral.rest, dimension === 'temperature' ? 'temperatureDifference' : dimension);
  if (!read.ok) return bad(text, read.hint ?? `a tolerance of ${named(dimension)} has the same kind of unit as the value, or is a %`);
  if (read.scale.kind !== scale.kind) return bad(text, 'value and tolerance are both conductances or both resistances');
  if (DIMENSION_FACTS[dimension].spread === 'normal') return { ok: true, spread: normal95(toSi(read.scale, numeral.value)) };
  return share(text, (numeral.value * steepness(read.scale)) / Math.abs(nominal.written * steepness(scale)), nominal);
}

/** How much of the SI unit (or, where it is inverted, of its reciprocal) one step of the written number is. */
const steepness = (scale: Scale): number => (scale.kind === 'wire-gauge' ? Number.NaN : scale.times / scale.over);

function percentage(text: string, percent: number, nominal: Nominal): ToleranceReading {
  const { dimension, unit, written, scale } = nominal;
  if (dimension === 'temperature') return bad(text, 'a % of a temperature has no meaning; give it in K');
  if (percent >= 100) return bad(text, 'a tolerance is less than 100 %');
  if (dimension === 'fraction') {
    if (PERCENT.test(unit)) return { ok: true, spread: normal95(percent / 100) };
    return objection('ambiguous', quoted(`${written}${unit && ` ${unit}`} ± ${text}`), {
      hint: 'it may mean points or a share of the value; write both as plain numbers or both in %',
    });
  }
  if (DIMENSION_FACTS[dimension].spread === 'log-normal') return share(text, percent / 100, nominal);
  return { ok: true, spread: normal95((Math.abs(toSi(scale, written)) * percent) / 100) };
}

/** Log-normal of a share of the value. */
function share(text: string, of: number, { written }: Nominal): ToleranceReading {
  if (written === 0) return bad(text, 'zero takes no tolerance here');
  if (!(of < 1)) return bad(text, 'a tolerance is smaller than the value itself');
  return { ok: true, spread: logNormal95(of) };
}
