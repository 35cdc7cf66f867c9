/** What `explain` knows, whatever the kind. @module */

import { AUDIT_EXPLANATIONS } from './audit-explanations.js';
import type { Explanation } from './explanation.js';
import { FINDING_EXPLANATIONS } from './finding-explanations.js';
import { GLOSSARY } from './glossary.js';
import { LABELS } from './labels.js';
import { PROBLEM_EXPLANATIONS } from './problem-explanations.js';

/** A word or a label that is explained; nothing else may stand at a row or a column of a table. */
export type Term = keyof typeof GLOSSARY | keyof typeof LABELS;

const ALL: Readonly<Record<string, Explanation>> = {
  ...PROBLEM_EXPLANATIONS,
  ...FINDING_EXPLANATIONS,
  ...AUDIT_EXPLANATIONS,
  ...GLOSSARY,
  ...Object.fromEntries(Object.entries(LABELS).map(([label, meaning]) => [label, { meaning, causes: [], tries: [] }])),
};

const plain = (text: string): string => text.toLowerCase().replaceAll('’', "'").trim();
const folded = (text: string): string => plain(text).replace(/[-_ ,:+()']/g, '');

/**
 * The text for a kind of problem or finding or a word of the report, however it is spelt; undefined for an unknown word. What stands behind a label, a unit, a
 * time or a name, may stand there: “for ever, 5.3 m/s”, “15 % of 10:00 (S3)”.
 */
export function explanationOf(word: string): Explanation | undefined {
  const known = (text: string): string | undefined => Object.keys(ALL).find((key) => folded(key) === folded(text));
  const begun = Object.keys(ALL)
    .filter((key) => plain(word).startsWith(plain(key)) && !/^[\p{L}\d]/u.test(plain(word).slice(plain(key).length)))
    .sort((a, b) => b.length - a.length)[0];
  const key = known(word) ?? begun ?? known(/\(([^)]+)\)/.exec(word)?.[1] ?? '');
  return key === undefined ? undefined : ALL[key];
}

/** Words of the report that are explained. */
export const EXPLAINED_TERMS: readonly string[] = [...Object.keys(GLOSSARY), ...Object.keys(LABELS)];

/** All kinds that can be explained. */
export const EXPLAINED_KINDS: readonly string[] = [
  ...Object.keys(PROBLEM_EXPLANATIONS),
  ...Object.keys(FINDING_EXPLANATIONS),
  ...Object.keys(AUDIT_EXPLANATIONS),
];
