import { readFileSync } from 'node:fs';

/** Rows of a data file beside the checks, as text by column name; lines that begin with # cite the source. */
export function csvRows(name: string): readonly Readonly<Record<string, string>>[] {
  const [head, ...lines] = readFileSync(new URL(`data/${name}`, import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .filter((line) => !line.startsWith('#'));
  const names = head!.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [names[i]!, cell])));
}
