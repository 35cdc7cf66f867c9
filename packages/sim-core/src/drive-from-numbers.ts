/**
 * A drive from plain numbers: the keys of a scenario in camel case, every quantity a number in its SI unit, gaps filled by the same rules.
 *
 * @module
 */

import type { DriveSystem } from './drive/drive-system.js';
import type { ScenarioProblem } from './problems/index.js';
import { complete } from './provenance/complete/complete.js';
import { type Datum, givenDatum } from './provenance/datum.js';
import { DIMENSIONS } from './provenance/dimensions.js';
import type { GivenDrive } from './provenance/given.js';
import { realise } from './provenance/realise.js';
import { NO_SPREAD } from './quantities/index.js';
import { assumptionsOf } from './questions/run/assumptions.js';
import type { Assumption } from './results/assumption.js';

/** What is given, with plain numbers where data stand: SI units, so radians per second and volt for Kv, kelvin, ampere seconds. */
export type Numbers<T> = T extends Datum
  ? number
  : T extends readonly (infer Item)[]
    ? readonly Numbers<Item>[]
    : T extends object
      ? { readonly [Key in keyof T as Exclude<Key, 'place' | 'source' | 'bench'>]: Numbers<T[Key]> }
      : T;

/** A drive in plain numbers [SI]. Only what cannot be estimated must be there; `kind: 'problems'` names what is missing. */
export type DriveNumbers = Numbers<GivenDrive>;

/** A drive made of numbers, and what had to be assumed for it; or all that is missing or no number. */
export type DriveMade =
  | { readonly kind: 'ready'; readonly system: DriveSystem; readonly assumptions: readonly Assumption[] }
  | { readonly kind: 'problems'; readonly problems: readonly ScenarioProblem[] };

/** Where numbers stand that stand in no file. */
const FILE = 'numbers';
const NAME = 'drive';
const DIMENSION_AT: Readonly<Record<string, (typeof DIMENSIONS)[keyof typeof DIMENSIONS]>> = DIMENSIONS;
const snake = (key: string): string => key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

/**
 * Completes a drive that is given in numbers and makes it what laws, kernel and `simulate` take. Every number counts as exact. Bounds are not
 * checked as a scenario's are; a number that is not finite is a problem. Never throws for what is given.
 */
export function driveFromNumbers(numbers: DriveNumbers): DriveMade {
  const problems: ScenarioProblem[] = [];
  let line = 0;
  const convert = (value: unknown, subject: string, path: string): unknown => {
    line += 1;
    const place = { file: FILE, line, column: 1, path };
    if (typeof value === 'number') {
      if (!Number.isFinite(value))
        problems.push({ kind: 'bad-number', place, expected: 'a finite number in its SI unit', found: String(value) });
      const dimension = DIMENSION_AT[subject];
      return dimension === undefined ? value : givenDatum(subject, dimension, value, NO_SPREAD, place);
    }
    if (typeof value !== 'object' || value === null) return value;
    if (Array.isArray(value)) return value.map((item, k) => convert(item, subject, `${path}[${k}]`));
    const below = (to: string, key: string): string => (to === '' ? key : `${to}.${key}`);
    const fields = Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .map(([key, inner]) => [key, convert(inner, below(subject, snake(key)), below(path, key))]);
    return { ...Object.fromEntries(fields), place };
  };
  // the type of the numbers is made from that of what is given, key by key
  const given = convert(numbers, '', '') as GivenDrive;
  if (problems.length > 0) return { kind: 'problems', problems };
  const completion = complete(NAME, given);
  if (!completion.ok) return { kind: 'problems', problems: completion.problems };
  const { data } = completion;
  return { kind: 'ready', system: realise(data), assumptions: assumptionsOf([{ name: NAME, data }]) };
}
