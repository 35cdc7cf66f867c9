/** Quoting and listing in the messages to who wrote the scenario. @module */

import type { ProblemKind, ProblemPlace, ScenarioProblem } from '../problems/index.js';
import { listed } from '../problems/listed.js';
import { visible } from '../quantities/line-of-words.js';

const LONGEST_QUOTE = 60;

/** The text in quotation marks, cut where it would drown the message, and nothing in it that steers a terminal. */
export const quoted = (text: string): string => `“${visible(text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text)}”`;

/** "a, b or c". */
export function alternatives(words: readonly string[]): string {
  return words.length === 0 ? 'nothing' : listed(words, 'or');
}

export function problem(
  kind: ProblemKind,
  place: ProblemPlace,
  expected: string,
  found: string,
  more: { readonly nearest?: string | undefined; readonly hint?: string | undefined } = {},
): ScenarioProblem {
  return {
    kind,
    place: { ...place, path: visible(place.path) },
    expected: visible(expected),
    found: visible(found),
    ...(more.nearest === undefined ? {} : { nearest: visible(more.nearest) }),
    ...(more.hint === undefined ? {} : { hint: visible(more.hint) }),
  };
}

export const inPath = (path: string, key: string | number): string =>
  typeof key === 'number' ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`;
