/** What a campaign found, a row a seed: kept in a file of lines, so that it can be gone on with, joined with others, and summed. */
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import type { Fuzzed } from './fuzz-one.js';

/** A row of a seed: what came of it, and of which code. */
export interface Row extends Fuzzed {
  readonly commit: string;
  /** Whether it was read in another language and time zone too. */
  readonly elsewhere?: boolean;
}

/** Rows by seed; a later row of a seed stands in place of an earlier one. */
export type Rows = Map<number, Row>;

export function rowsOf(paths: readonly string[]): Rows {
  const rows: Rows = new Map();
  for (const path of paths)
    for (const line of existsSync(path) ? readFileSync(path, 'utf8').split('\n') : []) {
      // the last line of a campaign that was killed may be cut off
      if (!line.endsWith('}')) continue;
      const row = JSON.parse(line) as Row;
      rows.set(row.seed, row);
    }
  return rows;
}

export const keep = (path: string, row: Row): void => appendFileSync(path, `${JSON.stringify(row)}\n`);

const crashes = ({ broken }: Row): boolean => broken.some((law) => law.includes('crash: '));
const hangs = ({ broken }: Row): boolean => broken.some((law) => law.includes('hangs'));

/** The closing line. */
export function summary(rows: Rows, bytes: boolean): string {
  const all = [...rows.values()];
  const count = (which: (row: Row) => boolean): number => all.filter(which).length;
  const commits = new Map<string, number>();
  for (const { commit } of all) commits.set(commit, (commits.get(commit) ?? 0) + 1);
  const slowest = all.reduce((a, b) => (b.seconds > a.seconds ? b : a));
  const broken = count((row) => row.broken.length > 0 && !crashes(row) && !hangs(row));
  const on = [...commits].map(([commit, n]) => `${n} on ${commit}`).join(', ');
  const slow = `slowest ${slowest.seconds.toFixed(1)} s (seed ${slowest.seed})`;
  const [read, told] = [count(({ refused }) => !refused), count(({ refused }) => refused)];
  if (bytes)
    return `${all.length} damaged files (${on}): ${read} read, ${told} told what is wrong; ${count(crashes)} crash, ${count(hangs)} hang, ${broken} without place or advice; ${slow}.`;
  return [
    `${all.length} scenarios (${on}):`,
    `${read} ran, ${told} refused;`,
    `${count(crashes)} crash, ${count(hangs)} hang, ${broken} break a law;`,
    `${count(({ variants }) => variants === true)} driven in variants, ${count(({ questions }) => questions === true)} asked every question,`,
    `${count(({ elsewhere }) => elsewhere === true)} read in another language;`,
    `${slow}, mean ${(all.reduce((sum, { seconds }) => sum + seconds, 0) / all.length).toFixed(3)} s.`,
  ].join(' ');
}
