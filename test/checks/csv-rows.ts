import { readFileSync } from 'node:fs';

type Row = Readonly<Record<string, string>>;

/** Rows of a data file beside the checks. */
export const csvRows = (name: string): readonly Row[] => rowsOf(readFileSync(new URL(`data/${name}`, import.meta.url), 'utf8'));

/** Rows of a table, as text by column name; lines that begin with # cite the source. */
export function rowsOf(text: string): readonly Row[] {
  const [head, ...lines] = text
    .trim()
    .split(/\r?\n/)
    .filter((line) => !line.startsWith('#'));
  const names = head!.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [names[i]!, cell])));
}
