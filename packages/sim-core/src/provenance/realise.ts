/** Data → plain SI numbers. Nominal, sampled, swept or swapped: each is another draw over the same data. @module */

import type { DriveSystem } from '../drive/drive-system.js';
import { tableAt } from '../parts/propeller/table-fan.js';
import { drawn, type Spread, shifted } from '../quantities/index.js';
import { type Data, type Datum, isDatum, type Share, type Unknown, valuesOf } from './datum.js';
import type { Rule } from './rules/rule.js';
import { ruleOf } from './rules/rules.js';

/** Standardised deviate of an unknown; 0 is nominal. */
export type Draw = (key: string, spread: Spread) => number;
export const NOMINAL: Draw = () => 0;

const mixed = (mix: readonly Share[], draw: Draw): number => {
  let sum = 0;
  for (const { of, weight } of mix) sum += weight * draw(of.key, of.spread);
  return sum;
};

/** One datum of the plan: its value, or its rule over values found before it. */
interface Entry {
  readonly datum: Datum;
  readonly law: Rule['law'] | undefined;
  readonly names: readonly string[];
  /** Where each input stands among the entries. */
  readonly inputs: readonly number[];
  /** Filled anew in each draw. */
  readonly arguments: Record<string, number>;
  /** Its unknowns that are not exactly known. */
  readonly unknowns: readonly Unknown[];
  /** Whether a draw can change it: one of those, or an input that moves. */
  readonly moves: boolean;
}

type Shape =
  | { readonly kind: 'plain'; readonly value: unknown }
  | { readonly kind: 'datum'; readonly index: number }
  | { readonly kind: 'record'; readonly keys: readonly string[]; readonly shapes: readonly Shape[] };

const SHARE = { from: 0, to: 1 };

/** A share of a whole stays one: where a wide tolerance reaches past none or all of it, or past what the laws allow, the value stops there. */
export function bounded(datum: Datum, value: number): number {
  const share = datum.dimension === 'fraction' && datum.value >= 0 && datum.value <= 1;
  const { within = share ? SHARE : undefined } = datum;
  return within === undefined || value === datum.value ? value : Math.min(within.to, Math.max(within.from, value));
}

/** The way from data to systems, found once: what each draw then costs is the laws themselves. Data that share an input share its value in a draw. */
export function realiser(data: DriveSystem<Data>): (draw?: Draw) => DriveSystem {
  const draws = drawer(data);
  return (draw = NOMINAL) => withDrawnTable(draws(draw) as DriveSystem);
}

/** Anything made of data: the same made of the numbers of a draw. */
export function drawer(data: unknown): (draw: Draw) => unknown {
  const entries: Entry[] = [];
  const indices = new Map<Datum, number>();
  const indexOf = (datum: Datum): number => {
    const found = indices.get(datum);
    if (found !== undefined) return found;
    const { origin, unknown, own } = datum;
    const derived = origin.kind !== 'given' && origin.kind !== 'default';
    const given = derived ? origin.inputs : {};
    const inputs = Object.values(given).map(indexOf);
    const unknowns = [unknown, ...(own === undefined ? [] : [own])].filter(({ spread }) => spread.shape !== 'none');
    entries.push({
      datum,
      law: derived ? ruleOf(origin.rule).law : undefined,
      names: Object.keys(given),
      inputs,
      arguments: { ...valuesOf(given) },
      unknowns,
      moves: unknowns.length > 0 || inputs.some((input) => entries[input].moves),
    });
    indices.set(datum, entries.length - 1);
    return entries.length - 1;
  };
  const shapeOf = (x: unknown): Shape => {
    if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x)) return { kind: 'plain', value: x };
    if (isDatum(x)) return { kind: 'datum', index: indexOf(x) };
    const shapes = Object.values(x).map(shapeOf);
    // a curve, a table, a fan of them: no draw moves what holds no datum, and all draws share it
    return shapes.every(({ kind }) => kind === 'plain') ? { kind: 'plain', value: x } : { kind: 'record', keys: Object.keys(x), shapes };
  };
  const shape = shapeOf(data);
  const values = new Float64Array(entries.length);

  function drawnValue({ datum, law, names, inputs, arguments: given, unknowns }: Entry, draw: Draw): number {
    let value = datum.value;
    if (law !== undefined) {
      for (let k = 0; k < inputs.length; k++) given[names[k]] = values[inputs[k]];
      value = law(given);
    }
    for (const { key, spread, offset, mix } of unknowns) {
      if (law !== undefined && offset !== undefined) value = shifted(value, spread, offset);
      value = drawn(value, spread, mix === undefined ? draw(key, spread) : mixed(mix, draw));
    }
    return bounded(datum, value);
  }
  const build = (part: Shape): unknown => {
    if (part.kind === 'datum') return values[part.index];
    if (part.kind === 'plain') return part.value;
    const { keys, shapes } = part;
    const out: Record<string, unknown> = {};
    for (let k = 0; k < keys.length; k++) out[keys[k]] = build(shapes[k]);
    // what is made key by key is looked up in a table; its copy has a shape, as a literal has: the right-hand side takes 0.65 µs in place of 0.93
    return { ...out };
  };
  const moving = entries.flatMap(({ moves }, k) => (moves ? [k] : []));
  entries.forEach((entry, k) => {
    values[k] = drawnValue(entry, NOMINAL);
  });
  return (draw) => {
    for (const k of moving) values[k] = drawnValue(entries[k], draw);
    return build(shape);
  };
}

/** A propeller's table for the shape that the draw gave it, in place of all its tables. */
function withDrawnTable(system: DriveSystem): DriveSystem {
  const { load } = system;
  if (load.kind !== 'propeller' || load.shape === undefined) return system;
  const { shape, ...rest } = load;
  return { ...system, load: { ...rest, table: tableAt(shape.fan, shape.amount) } };
}

/** The system as the laws see it, under one draw; `realiser` for many draws over the same data. */
export const realise = (data: DriveSystem<Data>, draw: Draw = NOMINAL): DriveSystem => realiser(data)(draw);
