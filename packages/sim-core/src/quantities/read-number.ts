/** The number at the start of a text. @module */

import { plainText } from './plain-text.js';
import { type Objection, objection, quoted, type ReadFailure } from './read-failure.js';

/** Longer texts are not quantities; the limit also bounds the depth of parentheses. */
const LONGEST_TEXT = 200;

export type Numeral = { readonly ok: true; readonly value: number; readonly rest: string };

/** The text in plain characters, or why it cannot be a quantity at all. */
export function legible(text: string): { readonly ok: true; readonly text: string } | Objection {
  if (text.length > LONGEST_TEXT) return objection('not-a-number', `a text of ${text.length} characters`);
  const plain = plainText(text);
  return plain === '' ? objection('empty', 'nothing') : { ok: true, text: plain };
}

const NUMERAL = /^([+-]?) ?((?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)/;
const COMMA = /^[+-]?\d*,\d/;
const GROUPED_BY_COMMAS = /^([+-]? ?[1-9]\d{0,2}(?:,\d{3})+)(?!\d|,)/;
const GROUPED = /^[+-]? ?\d+(?:([ '_’])\d{3}(?!\d))+|^[+-]? ?\d+(?:\.\d+){2,}/;

/** Reads the number at the beginning of a plain text; `rest` is what follows it. */
export function readNumeral(text: string): Numeral | Objection {
  if (GROUPED_BY_COMMAS.test(text)) {
    return objection('thousands-separator', quoted(text), { hint: 'write the number without separators, and a point before decimals' });
  }
  if (COMMA.test(text)) {
    return objection('decimal-comma', quoted(text), { hint: `decimals follow a point: write ${text.replace(',', '.')}` });
  }
  if (GROUPED.test(text)) return objection('thousands-separator', quoted(text), { hint: 'write the number without separators' });
  if (/^[+-]?0x/i.test(text)) return objection('not-a-number', quoted(text), { hint: 'write the number in decimal digits' });

  const numeral = NUMERAL.exec(text);
  if (numeral === null) {
    const later = /\d/.test(text) ? { hint: 'the number comes first, then its unit' } : {};
    return objection('not-a-number', quoted(text), later);
  }
  const rest = text.slice(numeral[0].length);
  if (/^ ?(\^|· ?10\b)/.test(rest)) {
    return objection('not-a-number', quoted(text), { hint: 'write powers of ten as 2.4e-4' });
  }
  if (/^ ?\/ ?\d|^ ?\u2044/.test(rest)) return objection('not-a-number', quoted(text), { hint: 'write fractions as decimals' });
  if (/^ ?: ?\d/.test(rest))
    return objection('not-a-number', quoted(text), { hint: 'write one number: 5.4 for a gear of 5.4 : 1, 90 s for 1:30' });
  const value = Number(numeral[1] + numeral[2]);
  if (value === 0 && /^[^e]*[1-9]/i.test(numeral[2]))
    return objection('out-of-range', quoted(text), { hint: 'the number is too small to be told from zero' });
  if (!Number.isFinite(value)) return objection('out-of-range', quoted(text), { hint: 'the number is too large to be calculated with' });
  return { ok: true, value: value || 0, rest: rest.trim() };
}

/** Reads a plain number such as a count of poles or blades: no unit, no tolerance; with `whole`, no decimals. The value [1]. */
export function readNumber(
  text: string,
  { whole = false }: { readonly whole?: boolean } = {},
): { readonly ok: true; readonly value: number } | ReadFailure {
  const expected = whole ? 'a whole number without a unit' : 'a number without a unit';
  const plain = legible(text);
  const numeral = plain.ok ? readNumeral(plain.text) : plain;
  if (!numeral.ok) return { ...numeral, expected };
  if (numeral.rest !== '') return { ...objection('unit-not-due', quoted(text.trim()), { hint: `write ${numeral.value}` }), expected };
  if (whole && !Number.isInteger(numeral.value)) return { ...objection('not-whole', quoted(text.trim())), expected };
  return { ok: true, value: numeral.value };
}
