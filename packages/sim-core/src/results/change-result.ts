/** What changed between two benches of one thing, and what that points at. @module */
import type { FoundNumber } from './identify-result.js';

/** One number before and after. */
export interface ChangedNumber extends Pick<FoundNumber, 'key' | 'words' | 'of' | 'at' | 'dimension'> {
  /** [SI of its dimension]. */
  readonly before: number;
  /** [SI of its dimension]. */
  readonly after: number;
  /** after/before − 1 [1]. */
  readonly change: number;
  /** Ends of its 95 % interval [1]. */
  readonly low: number;
  /** [1] */
  readonly high: number;
  /** Whether the interval does not hold 0. */
  readonly outside: boolean;
}

/** What may be found of a change. */
export const CHANGE_FINDINGS = [
  'flux-lost',
  'shorted-turn',
  'bad-joint',
  'more-friction',
  'other-propeller',
  'aged-pack',
  'capacity-lost',
  'no-pattern',
  'nothing',
] as const;
/** What a pattern of changes points at. */
export type ChangeFinding = (typeof CHANGE_FINDINGS)[number];

/** What changed between two bench days. */
export interface ChangeResult {
  readonly kind: 'motor' | 'pack';
  /** File names. */
  readonly before: readonly string[];
  readonly after: readonly string[];
  readonly numbers: readonly ChangedNumber[];
  readonly findings: readonly ChangeFinding[];
  /** Sentences on what was taken for what. */
  readonly taken: readonly string[];
  /** Whether both fits settled. */
  readonly settled: boolean;
}
