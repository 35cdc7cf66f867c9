/** Data → plain SI numbers. Nominal, sampled, swept or swapped: each is another draw over the same data. */
import type { DriveSystem } from '../drive/drive-system.js';
import { drawn, type Spread } from '../quantities/index.js';
import { type Datum, isDatum } from './datum.js';
import { RULES } from './rules.js';

/** Standardised deviate of an unknown; 0 is nominal. */
export type Draw = (key: string, spread: Spread) => number;
export const NOMINAL: Draw = () => 0;

/** Value of one datum under a draw [SI]; `known` remembers what was already found in this draw. */
export function datumValue(datum: Datum, draw: Draw, known: Map<Datum, number>): number {
  const found = known.get(datum);
  if (found !== undefined) return found;
  const { origin, unknown, own } = datum;
  let value =
    origin.kind === 'given' || origin.kind === 'default'
      ? datum.value
      : RULES[origin.rule].law(origin.inputs.map((input) => datumValue(input, draw, known)));
  if (unknown.spread.shape !== 'none') value = drawn(value, unknown.spread, draw(unknown.key, unknown.spread));
  if (own !== undefined && own.spread.shape !== 'none') value = drawn(value, own.spread, draw(own.key, own.spread));
  // a share of a whole stays one: where a wide tolerance reaches past none or all of it, the draw stops there
  if (datum.dimension === 'fraction' && value !== datum.value) value = Math.min(1, Math.max(0, value));
  known.set(datum, value);
  return value;
}

/** The system as the laws see it, under one draw. */
export function realise(data: DriveSystem<Datum>, draw: Draw = NOMINAL): DriveSystem {
  const known = new Map<Datum, number>();
  const plain = (x: unknown): unknown => {
    if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x)) return x;
    if (isDatum(x)) return datumValue(x, draw, known);
    const out: Record<string, unknown> = {};
    for (const key in x) out[key] = plain((x as Record<string, unknown>)[key]);
    return out;
  };
  const { load, battery, vehicle, ...rest } = data;
  const table = load.kind === 'propeller' ? { table: load.table } : {};
  return {
    ...(plain(rest) as object),
    load: { ...(plain({ ...load, table: undefined }) as object), ...table },
    battery: { ...(plain({ ...battery, openCircuit: undefined }) as object), openCircuit: battery.openCircuit },
    vehicle: { ...(plain({ ...vehicle, dragTable: undefined }) as object), dragTable: vehicle.dragTable },
  } as DriveSystem;
}
