/** What `explain` knows, whatever the kind. */
import { AUDIT_EXPLANATIONS } from './audit-explanations.js';
import type { Explanation } from './explanation.js';
import { FINDING_EXPLANATIONS } from './finding-explanations.js';
import { PROBLEM_EXPLANATIONS } from './problem-explanations.js';

/** The text for a kind of problem or finding, or undefined for a word that is neither. */
export function explanationOf(kind: string): Explanation | undefined {
  const all: Readonly<Record<string, Explanation>> = { ...PROBLEM_EXPLANATIONS, ...FINDING_EXPLANATIONS, ...AUDIT_EXPLANATIONS };
  return Object.hasOwn(all, kind) ? all[kind] : undefined;
}

export const EXPLAINED_KINDS: readonly string[] = [
  ...Object.keys(PROBLEM_EXPLANATIONS),
  ...Object.keys(FINDING_EXPLANATIONS),
  ...Object.keys(AUDIT_EXPLANATIONS),
];
