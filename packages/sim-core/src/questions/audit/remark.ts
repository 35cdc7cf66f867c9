/** One thing an audit remarks on, and oddities made of them. @module */

import { AUDIT_EXPLANATIONS } from '../../problems/index.js';
import { listed } from '../../problems/listed.js';
import type { Oddity, OddityKind } from '../../results/audit-result.js';

export const PHYSICS = 'physics';
export const PRACTICE = 'common practice, no published source';

export interface Remark {
  readonly kind: OddityKind;
  readonly candidate: string;
  readonly weight: Oddity['weight'];
  /** What follows the candidate's name. */
  readonly says: string;
  readonly basis: string;
  readonly value: number;
  readonly bound: number;
  readonly unit: string;
}

/** One oddity a kind: the same of several candidates is told once. */
export function together(remarks: readonly Remark[]): Oddity[] {
  const byKind = new Map<OddityKind, Remark[]>();
  for (const remark of remarks) byKind.set(remark.kind, [...(byKind.get(remark.kind) ?? []), remark]);
  return [...byKind.values()].map((all) => {
    const [first] = all;
    // the same sheet in several candidates says the same of each
    const said = new Map<string, string[]>();
    for (const { says, candidate } of all) said.set(says, [...(said.get(says) ?? []), candidate]);
    // and several things that are said of the same candidates stand behind their names once
    const whose = new Map<string, string[]>();
    for (const [says, names] of said) whose.set(listed(names), [...(whose.get(listed(names)) ?? []), says]);
    return oddity(
      first.kind,
      [...new Set(all.map(({ candidate }) => candidate))],
      all.some(({ weight }) => weight === 'contradiction') ? 'contradiction' : first.weight,
      `${[...whose].map(([names, says]) => `${names}: ${says.join('; ')}`).join('; ')}.`,
      first,
    );
  });
}

export function oddity(
  kind: OddityKind,
  candidates: readonly string[],
  weight: Oddity['weight'],
  says: string,
  { basis, value, bound, unit }: Pick<Remark, 'basis' | 'value' | 'bound' | 'unit'>,
): Oddity {
  const { meaning, tries } = AUDIT_EXPLANATIONS[kind];
  // a mark that lies at no number is none
  const mark = Number.isFinite(bound) ? { bound } : {};
  return { kind, candidates, weight, says, means: meaning, settles: tries[0], basis, value, ...mark, unit };
}
