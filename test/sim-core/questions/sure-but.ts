/** A drive of which few numbers are unsure, for tests of what is done with each. */
import { type Datum, isDatum } from '@shaftwork/sim-core/provenance/datum';

/** The same data, all of them sure but for those that are told. */
export function sureBut<T>(all: T, unsure: (datum: Datum) => boolean): T {
  const made = new Map<object, unknown>();
  const copy = (x: unknown): unknown => {
    if (typeof x !== 'object' || x === null || Array.isArray(x) || ArrayBuffer.isView(x)) return x;
    const known = made.get(x);
    if (known !== undefined) return known;
    const out: Record<string, unknown> = {};
    made.set(x, out);
    for (const [key, value] of Object.entries(x)) out[key] = copy(value);
    if (isDatum(x) && !unsure(x)) {
      out['unknown'] = { ...x.unknown, spread: { shape: 'none' } };
      delete out['own'];
    }
    return out;
  };
  return copy(all) as T;
}
