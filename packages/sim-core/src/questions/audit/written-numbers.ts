/** Numbers as they were written, one by one: far from what models have, or with an interval that says next to nothing. @module */

import { type Datum, isDatum } from '../../provenance/datum.js';
import { writtenWords } from '../../provenance/written.js';
import { type Dimension, formatQuantity, interval95 } from '../../quantities/index.js';
import type { SheetFigures } from './figures.js';
import { MODEL_NUMBERS, WIDE_INTERVAL } from './marks.js';
import { PRACTICE, type Remark } from './remark.js';
import { percent } from './words.js';

type Written = Datum & { readonly origin: { readonly kind: 'given' } };
const isWritten = (datum: Datum): datum is Written => datum.origin.kind === 'given';

/** Every written number of a candidate, those that others were made of among them. */
function written(x: unknown, seen = new Set<object>()): Written[] {
  if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x) || seen.has(x)) return [];
  seen.add(x);
  if (isDatum(x) && isWritten(x)) return [x];
  return Object.values(x).flatMap((each) => written(each, seen));
}

const show = (value: number, dimension: Dimension): string => formatQuantity(value, dimension);

/** Remarks on the numbers of one candidate, each alone. */
export function numberRemarks({ input, system: { load } }: Pick<SheetFigures, 'input' | 'system'>): Remark[] {
  return written(input.data).flatMap((datum): Remark[] => {
    const { value, dimension, unknown, origin } = datum;
    const { subject, usual } = origin;
    const words = writtenWords(subject);
    const found: Remark[] = [];
    const range = subject === 'gearbox.ratio' && load.kind !== 'wheel' ? undefined : MODEL_NUMBERS[subject];
    if (range !== undefined && (value < range.low || value > range.high))
      found.push({
        kind: 'number-far-from-models',
        candidate: input.name,
        weight: 'unusual',
        says: `${words} ${show(value, dimension)}, where models have ${show(range.low, dimension)} to ${show(range.high, dimension)}`,
        basis: PRACTICE,
        value,
        bound: value < range.low ? range.low : range.high,
        unit: range.unit,
      });
    // of a temperature no share is meant
    if (usual !== undefined || dimension === 'temperature' || value === 0) return found;
    const { low, high } = interval95(value, unknown.spread);
    const share = Math.max(high - value, value - low) / Math.abs(value);
    if (share >= WIDE_INTERVAL)
      found.push({
        kind: 'interval-wide',
        candidate: input.name,
        weight: 'note',
        says: `${words} is written as ${show(value, dimension)} ± ${percent(share)}, so anything from ${show(low, dimension)} to ${show(high, dimension)}`,
        basis: PRACTICE,
        value: share,
        bound: WIDE_INTERVAL,
        unit: '1',
      });
    return found;
  });
}
