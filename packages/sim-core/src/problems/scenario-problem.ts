/** The shape of a problem, and its kinds. @module */

/** What a person wrote wrong: all at once, each with its place, what was expected, what was found, and what to do. */
export interface ProblemPlace {
  readonly file: string;
  /** From 1 [1]. */
  readonly line: number;
  /** From 1 [1]. */
  readonly column: number;
  readonly path: string;
}

/** The kinds of problems. */
export const PROBLEM_KINDS = [
  'unreadable-text',
  'too-large',
  'too-deep',
  'broken-yaml',
  'broken-table',
  'unknown-key',
  'missing-datum',
  'wrong-type',
  'bare-number',
  'wrong-unit',
  'wrong-dimension',
  'bad-number',
  'bad-tolerance',
  'out-of-range',
  'unknown-choice',
  'conflict',
  'missing-file',
  'circular-use',
  'use-outside',
  'duplicate-name',
  'nothing-to-do',
] as const;
/** One of `PROBLEM_KINDS`. */
export type ProblemKind = (typeof PROBLEM_KINDS)[number];

/** One thing that is wrong with what was written. */
export interface ScenarioProblem {
  readonly kind: ProblemKind;
  readonly place: ProblemPlace;
  readonly expected: string;
  readonly found: string;
  /** Nearest valid spelling. */
  readonly nearest?: string;
  /** What to do, or where one usually finds the number. */
  readonly hint?: string;
}
