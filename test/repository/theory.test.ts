/** The theory page has every numbered equation as its file has it, its letters, and every source. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { block, blocksOf, THEORY, withEquations, written } from '../docs/theory.js';

const page = readFileSync(THEORY, 'utf8');
const shown = blocksOf(page);
const blocks = shown.map(block).join('\n');

it('has a block for every file with numbered equations, once', () => {
  expect(withEquations().length).toBeGreaterThan(70);
  expect(withEquations().filter((path) => !shown.includes(path))).toEqual([]);
  expect(shown.filter((path, k) => shown.indexOf(path) !== k)).toEqual([]);
});

it('has them as their files have them (npm run reference)', () => {
  expect(page.split('\n')).toEqual(written(page).split('\n'));
});

it('lists letters that occur in a block', () => {
  const table = page.slice(page.indexOf('## Symbols'), page.indexOf('## 1 '));
  const letters = [...table.matchAll(/^\| ([^|]+) \|/gm)]
    .map(([, cell]) => cell.trim())
    .filter((cell) => cell !== 'symbol' && cell !== '---');
  expect(letters.length).toBeGreaterThan(25);
  expect(letters.flatMap((cell) => cell.split(', ')).filter((letter) => !blocks.includes(letter))).toEqual([]);
});

it('lists every source that a block names with its year, and none that no block names', () => {
  const list = page.slice(page.indexOf('## References'));
  const entries = [...list.matchAll(/^- (.*)$/gm)].map(([, entry]) => entry);
  const sources = blocks.split(/\n\n/).filter((paragraph) => paragraph.includes('*Source*'));
  const years = new Set(sources.flatMap((source) => source.match(/\b(?:19|20)\d\d\b/g) ?? []));
  expect(years.size).toBeGreaterThan(40);
  expect([...years].filter((year) => !list.includes(year))).toEqual([]);
  // the last word of the first author's name, or of what stands in its place
  const nameOf = (entry: string): string =>
    entry
      .split(/,| & | et al/)[0]
      .split(' ')
      .filter((word) => !/^[A-Z]\.-?/.test(word))[0] ?? '';
  expect(entries.filter((entry) => !blocks.includes(nameOf(entry)))).toEqual([]);
});
