/** Every link of the pages leads to a file that is there, and to a heading that it has. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const PAGES = [
  'README.md',
  'DEVELOPERS.md',
  'SECURITY.md',
  'packages/cli/README.md',
  'packages/report/README.md',
  'packages/sim-core/README.md',
  'packages/cli/docs/scenario-reference.md',
  'packages/sim-core/docs/theory.md',
  'packages/sim-core/docs/validation.md',
];
const LINK = /\]\((?!https?:)([^)\s#]*)(?:#([^)\s]+))?\)/g;
/** A heading as a page on the web names it. */
const anchor = (heading: string): string =>
  heading
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N} _-]/gu, '')
    .replaceAll(' ', '-');

it.each(PAGES)('%s', (page) => {
  const text = readFileSync(join(ROOT, page), 'utf8').replaceAll(/```.*?```|<!-- equations.*?<!-- end -->/gs, '');
  for (const [, path, heading] of text.matchAll(LINK)) {
    const file = path === '' ? join(ROOT, page) : join(ROOT, dirname(page), path);
    expect(existsSync(file), path).toBe(true);
    if (heading === undefined) continue;
    const headings = [...readFileSync(file, 'utf8').matchAll(/^#+ (.*)$/gm)].map(([, words]) => anchor(words));
    expect(headings, path).toContain(heading);
  }
});

it('the README leads to reference, theory, validation, recipes, security and licence', () => {
  const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
  const paths = [...readme.matchAll(LINK)].map(([, path]) => path);
  for (const page of [
    'packages/cli/docs/scenario-reference.md',
    'packages/sim-core/docs/theory.md',
    'packages/sim-core/docs/validation.md',
    'DEVELOPERS.md',
    'SECURITY.md',
    'LICENSE',
  ])
    expect(paths).toContain(page);
});
