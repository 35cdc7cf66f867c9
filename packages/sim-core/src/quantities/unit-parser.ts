/**
 * A reader of unit expressions: symbols, products (`·` or a blank), quotients (`/` or `per`), whole powers (`^2`, `2`, `-1`), parentheses.
 * It knows no unit; the symbols are handed in. The text has been through `plainText`.
 *
 * @module
 */

/** Powers of kilogram, metre, second, ampere, kelvin and radian; the radian counts, so that rad/s is not 1/s. */
export type Powers = readonly [kilogram: number, metre: number, second: number, ampere: number, kelvin: number, radian: number];

/** A unit: `times / over` SI units of these powers. Two whole numbers keep 9 mohm exactly 0.009 ohm, which 9 · 0.001 is not. */
export interface Unit {
  readonly times: number;
  readonly over: number;
  readonly powers: Powers;
  /** First spellings of the symbols it was built from, in order, with the power each stands at. */
  readonly symbols: readonly { readonly name: string; readonly power: number }[];
}

export type UnitReading =
  | { readonly ok: true; readonly unit: Unit }
  | { readonly ok: false; readonly kind: 'unknown-symbol'; readonly symbol: string }
  | { readonly ok: false; readonly kind: 'malformed'; readonly at: string }
  /** a/b·c, which some read (a/b)·c and others a/(b·c); the clearer spelling is the second. */
  | { readonly ok: false; readonly kind: 'unclear-quotient'; readonly clearer: string };

export const ONE: Unit = { times: 1, over: 1, powers: [0, 0, 0, 0, 0, 0], symbols: [] };

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b));

/** The same unit with `times / over` in lowest terms, where both are whole. */
function reduced(unit: Unit): Unit {
  if (!Number.isSafeInteger(unit.times) || !Number.isSafeInteger(unit.over)) return unit;
  const divisor = greatestCommonDivisor(unit.times, unit.over);
  return { ...unit, times: unit.times / divisor, over: unit.over / divisor };
}

/** Powers of the six bases, one by one. */
export const eachPower = (of: (base: number) => number): Powers => [of(0), of(1), of(2), of(3), of(4), of(5)];

export function product(a: Unit, b: Unit): Unit {
  return reduced({
    times: a.times * b.times,
    over: a.over * b.over,
    powers: eachPower((base) => a.powers[base] + b.powers[base]),
    symbols: [...a.symbols, ...b.symbols],
  });
}

export function raised(unit: Unit, power: number): Unit {
  const [times, over] = power < 0 ? [unit.over, unit.times] : [unit.times, unit.over];
  return {
    times: times ** Math.abs(power),
    over: over ** Math.abs(power),
    powers: eachPower((base) => unit.powers[base] * power || 0),
    symbols: unit.symbols.map((symbol) => ({ name: symbol.name, power: symbol.power * power })),
  };
}

const SYMBOL = /°?\p{L}+|[°%]/uy;
const POWER = /\^[+-]?[1-9](?!\d)|-?[1-9](?!\d)/y;
const QUOTIENT = / ?\/ ?| per /y;
const PRODUCT = / ?· ?| (?=[\p{L}°%(])/uy;
const UNITY = /1(?![\d.])/y;

/** Reads a whole expression; `symbols` maps every spelling, prefixes included. */
export function parseUnit(text: string, symbols: ReadonlyMap<string, Unit>): UnitReading {
  let at = 0;
  const take = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0];
    if (found !== undefined) at += found.length;
    return found;
  };
  const malformed = (): UnitReading => ({ ok: false, kind: 'malformed', at: text.slice(at) });

  const factor = (): UnitReading => {
    let read: UnitReading;
    if (text[at] === '(') {
      at += 1;
      read = expression();
      if (!read.ok) return read;
      if (text[at] !== ')') return malformed();
      at += 1;
    } else if (take(UNITY) !== undefined) {
      return { ok: true, unit: ONE };
    } else {
      const symbol = take(SYMBOL);
      if (symbol === undefined) return malformed();
      const unit = symbols.get(symbol);
      if (unit === undefined) return { ok: false, kind: 'unknown-symbol', symbol };
      read = { ok: true, unit };
    }
    const power = take(POWER);
    return power === undefined ? read : { ok: true, unit: raised(read.unit, Number(power.replace('^', ''))) };
  };

  const expression = (): UnitReading => {
    let slash: number | undefined;
    let unit = ONE;
    let sign = 1;
    if (take(QUOTIENT) !== undefined) {
      sign = -1; // `/min`
      slash = at;
    }
    for (;;) {
      const next = factor();
      if (!next.ok) return next;
      unit = product(unit, raised(next.unit, sign));
      if (take(QUOTIENT) !== undefined) {
        sign = -1;
        slash ??= at;
      } else if (take(PRODUCT) !== undefined) {
        if (slash !== undefined) {
          return { ok: false, kind: 'unclear-quotient', clearer: `${text.slice(0, slash)}(${text.slice(slash)})` };
        }
      } else return { ok: true, unit };
    }
  };

  const whole = expression();
  return whole.ok && at < text.length ? malformed() : whole;
}
