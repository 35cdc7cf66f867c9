import {
  EXPLAINED_KINDS,
  EXPLAINED_TERMS,
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

  it('knows every label by what stands behind it, with or without its signs', () => {
    for (const [typed, says] of [
      ['heat, hardest moment', 'both its ends at the hardest moment'],
      ["of the motor's run", 'over the whole run'],
      ['Best climb', 'rate of climb'],
      ['motor current (maker)', 'maker_limits'],
      ['motor current', 'in the motor’s leads'],
      ['for ever, 5.3 m/s', 'a sheet calls continuous'],
      ['S3, 15 % of 10:00', 'IEC 60034-1'],
      ['15 % of 10:00 (S3)', 'IEC 60034-1'],
      ['of maker’s A', 'the maker gives'],
      ['from warm (96 °C)', 'mean temperatures of the run'],
      ['Km', 'root of the copper loss'],
      ['leaves by the mount at the hardest moment', 'leaves the motor this way'],
    ] as const)
      expect(explanationOf(typed)?.meaning, typed).toContain(says);
  });

  it.each(EXPLAINED_TERMS)('“%s” is explained in whole sentences, once', (term) => {
    const { meaning, tries } = explanationOf(term) ?? expect.fail();
    for (const text of [meaning, ...tries]) expect(text).toMatch(/^([\p{Lu}“\d±–-]|[a-z_]+: )[\s\S]{9,}$/u);
    expect(meaning).toMatch(/[.}]$/);
    expect(EXPLAINED_TERMS.filter((each) => each.toLowerCase() === term.toLowerCase())).toHaveLength(1);
  });

  it('knows no other words, whatever they are', () => {
    for (const word of ['', 'wrong', 'constructor', '__proto__', 'toString']) expect(explanationOf(word)).toBeUndefined();
  });
});
