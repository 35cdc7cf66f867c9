/** The theory page: blocks that are the heads of source files, put where the page names them. @module */
import { readdirSync, readFileSync } from 'node:fs';

export const THEORY = new URL('../../packages/sim-core/docs/theory.md', import.meta.url);
const SOURCES = new URL('../../packages/sim-core/src/', import.meta.url);

/** Lines of the docstring that a file begins with, without its frame and its `@module`. */
export function headOf(path: string): readonly string[] {
  const text = readFileSync(new URL(path, SOURCES), 'utf8');
  if (!text.startsWith('/**')) throw new Error(`${path} has no head`);
  const head = text.slice(3, text.indexOf('*/'));
  return head
    .replace(/@module\s*$/, '')
    .trim()
    .split('\n')
    .map((line) => line.replace(/^\s*\* ?/, '').trimEnd());
}

const EQUATION = /^ +\(\d+[a-z]?\) /;
/** Paths of all files whose head has numbered equations. */
export const withEquations = (): readonly string[] =>
  readdirSync(SOURCES, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => path.endsWith('.ts') && !path.endsWith('.d.ts'))
    .filter((path) => headOf(path).some((line) => EQUATION.test(line)))
    .sort();

/** A head as Markdown: what is indented keeps its columns, the rest are paragraphs. */
export function block(path: string): string {
  const paragraphs: string[][] = [];
  let before = '';
  for (const line of headOf(path)) {
    const last = paragraphs.at(-1);
    const indented = line.startsWith('  ');
    if (line === '') paragraphs.push([]);
    else if (last === undefined || line.startsWith('*') || (last.length > 0 && indented !== before.startsWith('  ')))
      paragraphs.push([line]);
    else last.push(line);
    before = line;
  }
  const shown = paragraphs
    .filter((lines) => lines.length > 0)
    .map((lines) => (lines[0].startsWith('  ') ? ['```text', ...lines.map((line) => line.slice(2)), '```'].join('\n') : lines.join('\n')));
  return [`\`${path}\``, ...shown].join('\n\n');
}

const MARKED = /<!-- equations: (\S+) -->\n[\s\S]*?<!-- end -->/g;
/** Files whose blocks a page has, in its order. */
export const blocksOf = (page: string): readonly string[] => [...page.matchAll(MARKED)].map(([, path]) => path);
/** The page with every block as its file has it. */
export const written = (page: string): string =>
  page.replace(MARKED, (_, path: string) => `<!-- equations: ${path} -->\n\n${block(path)}\n\n<!-- end -->`);
