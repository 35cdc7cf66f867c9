/** What the readers of numbers give back where they cannot read. @module */

/** What can be wrong with a number and its unit. */
export type ReadFailureKind =
  | 'empty'
  | 'not-a-number'
  | 'decimal-comma'
  | 'thousands-separator'
  | 'bare-number'
  | 'unit-not-due'
  | 'wrong-unit'
  | 'wrong-dimension'
  | 'ambiguous'
  | 'two-quantities'
  | 'bad-tolerance'
  | 'out-of-range'
  | 'not-whole';

/** Why a text could not be read, in parts of a sentence: "expected …, found …; hint". */
export interface ReadFailure {
  readonly ok: false;
  readonly kind: ReadFailureKind;
  /** What was due: "a resistance in ohm or mohm". */
  readonly expected: string;
  /** What stood there: "65 (a number without a unit)". */
  readonly found: string;
  /** What to do about it: "write 1.5". */
  readonly hint?: string;
  /** The valid spelling closest to the one written, where there is one: "mA·h". */
  readonly nearest?: string;
}

/** The kind with the parts that only the place of failure knows; the caller adds what was expected. */
export type Objection = Omit<ReadFailure, 'expected'>;

export function objection(kind: ReadFailureKind, found: string, more: Pick<ReadFailure, 'hint' | 'nearest'> = {}): Objection {
  return { ok: false, kind, found, ...more };
}

const LONGEST_QUOTE = 60;

/** The text in quotation marks, cut where it would drown the message. */
export function quoted(text: string): string {
  return text.length > LONGEST_QUOTE ? `“${text.slice(0, LONGEST_QUOTE)}…”` : `“${text}”`;
}
