/** Everything a draw decides: the unknowns of all candidates' data, each once, with words, whose it is, and what it is part of. @module */

import { type Dimension, deviationOf, type Spread } from '../quantities/index.js';
import { type Datum, isDatum, type Share, type Unknown } from './datum.js';
import type { DoubtGroup } from './rules/doubt-groups.js';
import { isRule, RULES } from './rules/rules.js';
import { writtenGroup, writtenWords } from './written.js';

/** An independent deviate of a draw, and the unknown that it mostly is. */
export interface UnknownEntry {
  readonly key: string;
  readonly spread: Spread;
  /** Nominal value of the first datum that carries it [SI]. */
  readonly value: number;
  readonly dimension: Dimension;
  /** What it belongs to: a rule, the own parts of a rule's error over all candidates ("rule:press-fit@own"), or the place of a given datum. */
  readonly group: string;
  /** The given datum's path of keys without its candidate ("motor.resistance"), or the rule's name. */
  readonly subject: string;
  readonly words: string;
  readonly candidates: readonly string[];
  /** What its deviate is made of, where readings tied it to others. */
  readonly mix?: readonly Share[];
}

/** The group of doubt that an unknown's subject stands in. */
export const doubtGroupOf = (subject: string): DoubtGroup => (isRule(subject) ? RULES[subject].group : writtenGroup(subject));

export const OWN_WORDS = ' (each one’s own part)';

export function unknownsOf(candidates: readonly { readonly name: string; readonly data: object }[]): UnknownEntry[] {
  const found = new Map<string, UnknownEntry & { candidates: string[] }>();
  /** What the deviates of the data are made of; some of it may be another candidate's. */
  const tied = new Map<string, UnknownEntry>();
  for (const { name, data } of candidates) {
    const seen = new Set<object>();
    const note = ({ key, spread, mix }: Unknown, datum: Datum, own: boolean): void => {
      if (spread.shape === 'none' || !Number.isFinite(datum.value)) return;
      for (const { of } of mix ?? []) tied.set(of.key, of);
      const known = found.get(key);
      if (known !== undefined) {
        if (!known.candidates.includes(name)) known.candidates.push(name);
        return;
      }
      const { origin } = datum;
      const given = origin.kind === 'given';
      const subject = given ? origin.subject : origin.rule;
      const words = `${given ? writtenWords(subject) : RULES[origin.rule].words}${own ? OWN_WORDS : ''}`;
      const group = given ? key : `rule:${origin.rule}${own ? '@own' : ''}`;
      found.set(key, {
        key,
        spread,
        value: datum.value,
        dimension: datum.dimension,
        group,
        subject,
        words,
        candidates: [name],
        ...(mix === undefined ? {} : { mix }),
      });
    };
    const walk = (x: unknown): void => {
      if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x) || seen.has(x)) return;
      seen.add(x);
      if (isDatum(x)) {
        note(x.unknown, x, false);
        if (x.own !== undefined) note(x.own, x, true);
        if (x.origin.kind !== 'given') Object.values(x.origin.inputs).forEach(walk);
        return;
      }
      for (const key in x) walk((x as Record<string, unknown>)[key]);
    };
    walk(data);
  }
  return [...found.values(), ...[...tied.values()].filter(({ key }) => !found.has(key))];
}

/** Errors on one scale together, in the independent deviates that they are made of: a deviation for every key. */
export function summed(errors: readonly Unknown[]): Map<string, number> {
  const sum = new Map<string, number>();
  for (const { key, spread, mix } of errors) {
    const shares = mix?.map(({ of, weight }) => [of.key, weight] as const) ?? [[key, 1] as const];
    for (const [each, weight] of shares) sum.set(each, (sum.get(each) ?? 0) + weight * deviationOf(spread));
  }
  return sum;
}
