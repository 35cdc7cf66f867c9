/** The unit that somebody may have meant. @module */

import { plainText } from './plain-text.js';
import { SYMBOLS } from './unit-symbols.js';
import { type Dimension, UNITS } from './units.js';

/** Letters that must be put in, left out, changed or swapped with a neighbour to get from one text to the other (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1];
      let least = Math.min(last[column] + 1, current[column - 1] + 1, last[column - 1] + (same ? 0 : 1));
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        least = Math.min(least, beforeLast[column - 2] + 1);
      }
      current.push(least);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length];
}

/** What people say for a symbol, too short or too far from it for a slip of letters. */
const SAID: Readonly<Record<string, string>> = {
  gr: 'g',
  grs: 'g',
  gm: 'g',
  sec: 's',
  secs: 's',
  hr: 'h',
  hrs: 'h',
  amp: 'A',
  amps: 'A',
  volts: 'V',
  watts: 'W',
};

const TOKEN = /°?\p{L}+|[°%]/gu;
const CHANGED_CAPITAL = 0.25; // counts for less than any other slip

/** Without blanks, product signs, parentheses, so that Nm and N·m are the same guess. */
const folded = (text: string): string => plainText(text).replace(/[ ·^()]/g, '');

/** Distance of two spellings, or Infinity where they are too far apart to be one slip of the other. */
function slip(written: string, valid: string): number {
  if (written === valid) return 0;
  const distance = editDistance(written.toLowerCase(), valid.toLowerCase());
  if (distance === 0) return CHANGED_CAPITAL;
  const shortest = Math.min(written.length, valid.length);
  const allowed = shortest < 2 ? 0 : shortest < 4 ? 1 : 2;
  return distance <= allowed ? distance : Infinity;
}

/**
 * The valid spelling closest to a unit that cannot be read, if any is close: either a listed unit of the dimension, or the text with its one
 * unknown symbol replaced. `accepts` says whether a text is a unit of the dimension.
 */
export function nearestUnit(text: string, dimension: Dimension, accepts: (text: string) => boolean): string | undefined {
  const guesses = UNITS[dimension].map((unit) => ({ spelling: unit as string, distance: slip(folded(text), folded(unit)) }));
  const unknown = (text.match(TOKEN) ?? []).filter((token) => token !== 'per' && !SYMBOLS.has(token));
  if (unknown.length === 1) {
    const said = SAID[unknown[0].toLowerCase()];
    if (said !== undefined && accepts(text.replace(unknown[0], said))) return text.replace(unknown[0], said);
    for (const symbol of SYMBOLS.keys()) {
      const distance = slip(unknown[0], symbol);
      if (distance === Infinity) continue;
      const spelling = text.replace(unknown[0], symbol);
      if (accepts(spelling)) guesses.push({ spelling, distance });
    }
  }
  const nearest = guesses.reduce((best, guess) => (guess.distance < best.distance ? guess : best));
  return nearest.distance === Infinity ? undefined : nearest.spelling;
}
