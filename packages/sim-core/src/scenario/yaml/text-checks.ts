/** What a text must be before it is parsed at all. @module */

import type { ScenarioProblem } from '../../problems/index.js';
import type { Place } from '../../provenance/datum.js';
import { problem, quoted } from '../wording.js';

/** What a file may have [bytes, or characters of its text]; larger ones take the YAML parser seconds and gigabytes. */
const LARGEST_TEXT = 1_000_000;
/** What a log may have [bytes]: some four million rows of two columns, five seconds and half a gigabyte. */
const LARGEST_LOG = 64_000_000;

const REPLACED = /\ufffd/g;
/** UTF-8 that was read as Latin-1 and saved again: Â°, Â±, Î©, Âµ. */
const SAVED_TWICE = /\u00c2[\u00b0\u00b1\u00b5\u00a0]|\u00ce[\u00a9\u00bc]|\u00e2\u201e\u00a6/;
/** Control characters other than tab and line ends. */
const CONTROLS = /(?![\t\n\v\f\r])\p{Cc}(?<![\u007f-\u009f])/u;

export const withoutByteOrderMark = (text: string): string => text.replace(/^\ufeff/, '');

export function placeAt(file: string, text: string, offset: number, path = ''): Place {
  const before = text.slice(0, offset);
  const lineStart = before.lastIndexOf('\n') + 1;
  return { file, line: before.split('\n').length, column: offset - lineStart + 1, path };
}

/** The problem of a file of `size` [bytes or characters], which is not read at all; undefined where it may be. A table is one of numbers, a log. */
export function tooLarge(file: string, size: number, table = false): ScenarioProblem | undefined {
  const most = table ? LARGEST_LOG : LARGEST_TEXT;
  if (size <= most) return undefined;
  const megabytes = (bytes: number): string => `${(Math.ceil(bytes / 1e5) / 10).toFixed(1)} MB`;
  const hint = table
    ? 'cut it into runs, leave out columns that are not asked for, or log fewer rows a second: the profile is reduced to straight pieces anyway'
    : 'a scenario has some hundred lines: is this the file that was meant? Rows of a log belong in a file of their own, named .csv';
  return problem('too-large', { file, line: 1, column: 1, path: '' }, `a file of at most ${megabytes(most)}`, megabytes(size), { hint });
}

/** The problem of a file that lies in the scenario's folder only by a link that leads out of it. */
export const linkedOutside = (file: string): ScenarioProblem =>
  problem(
    'use-outside',
    { file, line: 1, column: 1, path: '' },
    'a file inside the folder of the scenario',
    'a link that leads out of it',
    {
      hint: 'copy the file to where the link is: a scenario that somebody else made must not read what is yours',
    },
  );

/** What keeps a text from being parsed at all: its size, or an encoding that is not UTF-8. */
export function checkText(file: string, text: string): readonly ScenarioProblem[] {
  const large = tooLarge(file, text.length, false);
  if (large !== undefined) return [large];
  const at = (index: number) => placeAt(file, text, index);
  const replaced = [...text.matchAll(REPLACED)];
  if (replaced.length > 0) {
    return [
      problem('unreadable-text', at(replaced[0].index), 'text in UTF-8', `${count(replaced.length, 'character')} in another encoding`, {
        hint: /\0/.test(text)
          ? 'the file was probably saved as UTF-16, which some editors call Unicode: save it as UTF-8'
          : 'the file was probably saved as Latin-1 or Windows-1252: save it as UTF-8, or write degC, ohm and +/- in plain letters',
      }),
    ];
  }
  const twice = SAVED_TWICE.exec(text);
  if (twice) {
    return [
      problem('unreadable-text', at(twice.index), 'text in UTF-8', `${quoted(twice[0])}, UTF-8 that was once read as Latin-1`, {
        hint: 'replace it by the sign that was meant (°, ±, µ, Ω) and save as UTF-8',
      }),
    ];
  }
  const control = CONTROLS.exec(text);
  if (control) {
    const code = `U+${control[0].charCodeAt(0).toString(16).padStart(4, '0').toUpperCase()}`;
    return [
      problem('unreadable-text', at(control.index), 'text in UTF-8', `the control character ${code}`, {
        hint: 'this may be UTF-16 or no text at all: save it as UTF-8',
      }),
    ];
  }
  return [];
}

const count = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;
