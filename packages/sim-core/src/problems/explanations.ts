/** What `explain` knows, whatever the kind. @module */

import { AUDIT_EXPLANATIONS } from './audit-explanations.js';
import type { Explanation } from './explanation.js';
import { FINDING_EXPLANATIONS } from './finding-explanations.js';
import { GLOSSARY } from './glossary.js';
import { PROBLEM_EXPLANATIONS } from './problem-explanations.js';

const ALL: Readonly<Record<string, Explanation>> = { ...PROBLEM_EXPLANATIONS, ...FINDING_EXPLANATIONS, ...AUDIT_EXPLANATIONS, ...GLOSSARY };

/** The text for a kind of problem or finding or a word of the report, however it is spelt; undefined for an unknown word. */
export function explanationOf(word: string): Explanation | undefined {
  const folded = (text: string): string => text.toLowerCase().replace(/[-_ ]/g, '');
  const known = Object.keys(ALL).find((key) => folded(key) === folded(word));
  return known === undefined ? undefined : ALL[known];
}

/** Words of the report that are explained. */
export const EXPLAINED_TERMS: readonly string[] = Object.keys(GLOSSARY);

/** All kinds that can be explained. */
export const EXPLAINED_KINDS: readonly string[] = [
  ...Object.keys(PROBLEM_EXPLANATIONS),
  ...Object.keys(FINDING_EXPLANATIONS),
  ...Object.keys(AUDIT_EXPLANATIONS),
];
