/** A unit, from text, as a scale to SI. @module */
import { entryOf } from '../problems/certain.js';
import { ZERO_CELSIUS } from './constants.js';
import { DIMENSION_FACTS, named } from './dimension-facts.js';
import { nearestUnit } from './nearest-unit.js';
import { plainText } from './plain-text.js';
import { type Objection, objection, quoted } from './read-failure.js';
import { eachPower, type Powers, parseUnit, product, raised, type Unit } from './unit-parser.js';
import type { Scale } from './unit-scale.js';
import { SYMBOLS } from './unit-symbols.js';
import { type Dimension, UNITS } from './units.js';

export type UnitScale = { readonly ok: true; readonly scale: Scale };

/** Zero of the two customary scales [K]. */
const ZEROS: ReadonlyMap<string, number> = new Map([
  ['°C', ZERO_CELSIUS],
  ['°F', ZERO_CELSIUS - (32 * 5) / 9],
]);
const AWG = /^awg$/i;
const TURN = entryOf(SYMBOLS, 'turn');
const RADIAN = 5;

const ALL = Object.keys(UNITS) as Dimension[];

const SI = Object.fromEntries(
  ALL.map((dimension) => {
    const read = parseUnit(plainText(UNITS[dimension][0]), SYMBOLS);
    if (!read.ok) throw new Error(`unit table: the SI unit of ${dimension} cannot be read`);
    return [dimension, read.unit.powers];
  }),
) as { readonly [D in Dimension]: Powers };

const same = (a: Powers, b: Powers): boolean => a.every((power, base) => power === b[base]);
const withRadian = (powers: Powers, radian: number): Powers => eachPower((base) => (base === RADIAN ? radian : powers[base]));
const holds = (unit: Unit, names: readonly string[]): boolean => unit.symbols.some(({ name }) => names.includes(name));

function suits(unit: Unit, dimension: Dimension): boolean {
  const { radians = [], refuses = [] } = DIMENSION_FACTS[dimension];
  const powers = SI[dimension];
  return [powers[RADIAN], ...radians].some((radian) => same(unit.powers, withRadian(powers, radian))) && !holds(unit, refuses);
}

const linear = (unit: Unit, zero = 0): UnitScale => ({ ok: true, scale: { kind: 'linear', times: unit.times, over: unit.over, zero } });

/** A turning speed without the radian: 1/min is turns by custom of the trade, 1/s might be either. */
function turning(unit: Unit, dimension: Dimension, text: string): UnitScale | Objection | undefined {
  const powers = SI[dimension];
  if (powers[RADIAN] !== 1 || !same(unit.powers, withRadian(powers, 0)) || holds(unit, ['C'])) return undefined;
  const countsMinutes = unit.symbols.some(({ name, power }) => name === 'min' && power === -1) && !holds(unit, ['s', 'h', 'Hz']);
  if (countsMinutes) return linear(product(unit, TURN));
  const nearest = UNITS[dimension][1];
  return objection('ambiguous', quoted(text), {
    hint: 'it may count radians or turns: write rad/s or rpm',
    ...(nearest === undefined ? {} : { nearest }),
  });
}

function mistaken(unit: Unit, text: string): string {
  const found = ALL.find((dimension) => suits(unit, dimension));
  if (found) return `${quoted(text)}, ${named(found)}`;
  return same(raised(unit, -1).powers, SI.conductance) ? `${quoted(text)}, a thermal resistance` : quoted(text);
}

/** Reads the text of a unit where a quantity of this dimension is due. */
export function readUnit(written: string, dimension: Dimension): UnitScale | Objection {
  const text = plainText(written);
  const hint = DIMENSION_FACTS[dimension].hints?.find(([unit]) => unit.test(text))?.[1];
  if (AWG.test(text)) {
    if (dimension === 'wireGauge') return { ok: true, scale: { kind: 'wire-gauge' } };
    return objection('wrong-dimension', `${quoted(text)}, ${named('wireGauge')}`);
  }

  const accepts = (spelling: string): boolean => {
    const read = parseUnit(plainText(spelling), SYMBOLS);
    return read.ok && suits(read.unit, dimension);
  };
  const read = parseUnit(text, SYMBOLS);
  if (!read.ok) {
    if (read.kind === 'unclear-quotient') {
      const clear = accepts(read.clearer);
      return objection('ambiguous', quoted(text), {
        hint: clear ? `write ${read.clearer}` : 'put what stands under the stroke in parentheses',
        ...(clear ? { nearest: read.clearer } : {}),
      });
    }
    const nearest = nearestUnit(text, dimension, accepts);
    return objection('wrong-unit', quoted(text), { ...(hint ? { hint } : {}), ...(nearest ? { nearest } : {}) });
  }

  const { unit } = read;
  if (text === 'C' && dimension !== 'dischargeRate') {
    return objection('ambiguous', quoted(text), { hint: hint ?? 'C may be °C, coulomb or multiples of the capacity: write °C or A·s' });
  }
  if (suits(unit, dimension)) {
    return linear(unit, dimension === 'temperature' ? (ZEROS.get(alone(unit) ?? '') ?? 0) : 0);
  }
  if (dimension === 'conductance' && suits(raised(unit, -1), 'conductance')) {
    return { ok: true, scale: { kind: 'reciprocal', times: unit.times, over: unit.over } };
  }
  const more = hint ? { hint } : {};
  return turning(unit, dimension, text) ?? objection('wrong-dimension', mistaken(unit, text), more);
}

/** The symbol a unit consists of, if it is one symbol. */
function alone(unit: Unit): string | undefined {
  const [first, ...others] = unit.symbols;
  return first?.power === 1 && others.length === 0 ? first.name : undefined;
}
