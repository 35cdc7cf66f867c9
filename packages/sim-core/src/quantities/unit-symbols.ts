/**
 * Every unit symbol the readers know, each by means of the ones above it.
 *
 * *Source*: SI Brochure, 9th edition, tables 2–8 (units and prefixes); inch, foot, mile, pound, ounce: International Yard and Pound
 * Agreement of 1959 (exact); nautical mile: International Hydrographic Conference, 1929 (exact); gram-force and pound-force by standard gravity.
 *
 *
 *
 * @module
 */

import { entryOf } from '../problems/certain.js';
import { RPM, SECONDS_PER_HOUR, SECONDS_PER_MINUTE, STANDARD_GRAVITY } from './constants.js';
import { ONE, type Powers, parseUnit, product, type Unit } from './unit-parser.js';

interface SymbolRow {
  /** The first is the one by which the rest of the room knows it. */
  readonly names: readonly string[];
  /** Prefixes that the trade uses with it; no others, so that MA and mA cannot both be read. */
  readonly prefixes?: string;
  readonly times?: number;
  readonly over?: number;
  readonly of: string | Powers;
}

const ROWS: readonly SymbolRow[] = [
  { names: ['g', 'gram', 'grams'], prefixes: 'mk', over: 1000, of: [1, 0, 0, 0, 0, 0] },
  { names: ['m', 'metre', 'metres', 'meter', 'meters'], prefixes: 'nµmcdk', of: [0, 1, 0, 0, 0, 0] },
  { names: ['s', 'sec', 'second', 'seconds'], prefixes: 'nµm', of: [0, 0, 1, 0, 0, 0] },
  { names: ['A', 'amp', 'amps', 'ampere', 'amperes'], prefixes: 'µmk', of: [0, 0, 0, 1, 0, 0] },
  { names: ['K', 'kelvin'], prefixes: 'm', of: [0, 0, 0, 0, 1, 0] },
  { names: ['rad', 'radian', 'radians'], prefixes: 'm', of: [0, 0, 0, 0, 0, 1] },

  { names: ['%', 'percent'], over: 100, of: '1' },
  // As differences; an absolute temperature adds its zero in `unit-scale.ts`.
  { names: ['°C', 'degC', 'celsius'], of: 'K' },
  { names: ['°F', 'degF', 'fahrenheit'], times: 5, over: 9, of: 'K' },

  { names: ['min', 'minute', 'minutes'], times: SECONDS_PER_MINUTE, of: 's' },
  { names: ['h', 'hr', 'hour', 'hours'], times: SECONDS_PER_HOUR, of: 's' },
  { names: ['Hz', 'hertz'], prefixes: 'kM', of: '1/s' },
  // A pack's discharge rate as a multiple of its capacity an hour; `unit-scale.ts` keeps it from being taken for °C or coulomb.
  { names: ['C'], of: '1/h' },

  { names: ['°', 'deg', 'degree', 'degrees'], times: Math.PI, over: 180, of: 'rad' },
  { names: ['rev', 'turn', 'turns', 'revolution', 'revolutions'], times: 2 * Math.PI, of: 'rad' },
  { names: ['rpm', 'RPM'], prefixes: 'k', times: RPM, of: 'rad/s' },

  { names: ['in', 'inch', 'inches'], times: 254, over: 100, of: 'cm' },
  { names: ['ft', 'foot', 'feet'], times: 12, of: 'in' },
  { names: ['mile', 'miles'], times: 5280, of: 'ft' },
  { names: ['L', 'l', 'litre', 'litres', 'liter', 'liters'], prefixes: 'm', over: 1000, of: 'm3' },
  { names: ['kn', 'kt', 'knot', 'knots'], times: 1852, of: 'm/h' },
  { names: ['mph'], of: 'mile/h' },
  { names: ['lb', 'lbs', 'pound', 'pounds'], times: 45359237, over: 100000, of: 'g' },
  { names: ['oz', 'ounce', 'ounces'], over: 16, of: 'lb' },

  { names: ['N', 'newton', 'newtons'], prefixes: 'mk', of: 'kg·m/s2' },
  { names: ['gf'], prefixes: 'k', times: STANDARD_GRAVITY, of: 'g·m/s2' },
  { names: ['ozf'], times: STANDARD_GRAVITY, of: 'oz·m/s2' },
  { names: ['lbf'], times: STANDARD_GRAVITY, of: 'lb·m/s2' },
  { names: ['Pa', 'pascal'], prefixes: 'mhkM', of: 'N/m2' },
  { names: ['bar'], prefixes: 'm', times: 100000, of: 'Pa' },
  { names: ['J', 'joule', 'joules'], prefixes: 'mkM', of: 'N·m' },
  { names: ['W', 'watt', 'watts'], prefixes: 'µmk', of: 'J/s' },
  { names: ['V', 'volt', 'volts'], prefixes: 'µmk', of: 'W/A' },
  { names: ['ohm', 'Ω', 'Ohm', 'ohms'], prefixes: 'µmkM', of: 'V/A' },
  { names: ['H', 'henry', 'henries'], prefixes: 'nµm', of: 'V·s/A' },
  { names: ['F', 'farad'], prefixes: 'pnµm', of: 'A·s/V' },

  // Products that the trade writes as one word.
  { names: ['As'], prefixes: 'm', of: 'A·s' },
  { names: ['Ah'], prefixes: 'm', of: 'A·h' },
  { names: ['Wh'], prefixes: 'mk', of: 'W·h' },
  { names: ['Ws'], prefixes: 'k', of: 'W·s' },
  { names: ['Nm'], prefixes: 'mk', of: 'N·m' },
  { names: ['Ncm'], of: 'N·cm' },
  { names: ['Nmm'], of: 'N·mm' },
];

interface Prefix {
  readonly letters: readonly string[];
  readonly word: string;
  readonly times: number;
  readonly over: number;
}

/** `µ` is looked up here in the form that NFKC leaves behind, the Greek letter. */
const PREFIXES: ReadonlyMap<string, Prefix> = new Map([
  ['p', { letters: ['p'], word: 'pico', times: 1, over: 1e12 }],
  ['n', { letters: ['n'], word: 'nano', times: 1, over: 1e9 }],
  ['µ', { letters: ['\u03bc', 'u'], word: 'micro', times: 1, over: 1e6 }],
  ['m', { letters: ['m'], word: 'milli', times: 1, over: 1000 }],
  ['c', { letters: ['c'], word: 'centi', times: 1, over: 100 }],
  ['d', { letters: ['d'], word: 'deci', times: 1, over: 10 }],
  ['h', { letters: ['h'], word: 'hecto', times: 100, over: 1 }],
  ['k', { letters: ['k'], word: 'kilo', times: 1000, over: 1 }],
  ['M', { letters: ['M'], word: 'mega', times: 1e6, over: 1 }],
]);

/** Names of this length are both, as ohm and bar are: mohm and milliohm, but neither millim nor mmetre. */
const LETTERS_OF_SYMBOL_AND_WORD = 3;

/** Every spelling of a row with its prefixes: a letter before a symbol, a word before a word. */
function* spellings(row: SymbolRow): Generator<{ readonly spelling: string; readonly prefix?: Prefix }> {
  for (const name of row.names) {
    yield { spelling: name };
    for (const key of row.prefixes ?? '') {
      const prefix = entryOf(PREFIXES, key);
      if (name.length <= LETTERS_OF_SYMBOL_AND_WORD) for (const letter of prefix.letters) yield { spelling: letter + name, prefix };
      if (name.length >= LETTERS_OF_SYMBOL_AND_WORD) yield { spelling: prefix.word + name, prefix };
    }
  }
}

function build(rows: readonly SymbolRow[]): ReadonlyMap<string, Unit> {
  const symbols = new Map<string, Unit>();
  for (const row of rows) {
    let base: Unit;
    if (typeof row.of === 'string') {
      const read = parseUnit(row.of, symbols);
      if (!read.ok) throw new Error(`unit table: ${row.names[0]} is said to be ${row.of}, which cannot be read`);
      base = read.unit;
    } else base = { ...ONE, powers: row.of };
    const own = product(base, { ...ONE, times: row.times ?? 1, over: row.over ?? 1 });
    const named = [{ name: row.names[0], power: 1 }];
    for (const { spelling, prefix } of spellings(row)) {
      if (symbols.has(spelling)) throw new Error(`unit table: ${spelling} has two meanings`);
      const unit = prefix ? product(own, { ...ONE, times: prefix.times, over: prefix.over }) : own;
      symbols.set(spelling, { ...unit, symbols: named });
    }
  }
  return symbols;
}

/** Spelling (after `plainText`) → unit; capitals count. */
export const SYMBOLS: ReadonlyMap<string, Unit> = build(ROWS);
