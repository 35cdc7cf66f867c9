import {
  EXPLAINED_KINDS,
  type Explanation,
  explanationOf,
  FINDING_EXPLANATIONS,
  PROBLEM_EXPLANATIONS,
  PROBLEM_KINDS,
} from '@shaftwork/sim-core/problems';
import { ODDITY_KINDS } from '@shaftwork/sim-core/results/audit-result';
import type { FindingKind } from '@shaftwork/sim-core/results/finding';
import { describe, expect, it } from 'vitest';

/** Both directions by type: every kind of finding has a text, and no text is of a kind that is gone. */
const everyFinding: Readonly<Record<FindingKind, Explanation>> = FINDING_EXPLANATIONS;
const noOther: Readonly<Record<keyof typeof FINDING_EXPLANATIONS, true>> = {} as Readonly<Record<FindingKind, true>>;

describe('explanations', () => {
  it('has one for every kind of problem and finding', () => {
    expect(Object.keys(PROBLEM_EXPLANATIONS).sort()).toEqual([...PROBLEM_KINDS].sort());
    expect(EXPLAINED_KINDS).toHaveLength(PROBLEM_KINDS.length + Object.keys(everyFinding).length + ODDITY_KINDS.length);
    expect(new Set(EXPLAINED_KINDS).size).toBe(EXPLAINED_KINDS.length);
    expect(noOther).toEqual({});
  });

  it.each(EXPLAINED_KINDS)('%s says what it means, why, and what to try, in whole sentences', (kind) => {
    const { meaning, causes, tries } = explanationOf(kind)!;
    expect(causes.length).toBeGreaterThan(0);
    expect(tries.length).toBeGreaterThan(0);
    for (const text of [meaning, ...causes, ...tries]) expect(text).toMatch(/^([\p{Lu}“]|[a-z_]+: ).{9,}\.$/u);
  });

  it('knows no other words, whatever they are', () => {
    for (const word of ['', 'wrong', 'constructor', '__proto__', 'toString']) expect(explanationOf(word)).toBeUndefined();
  });
});
