/** Every source file of every package begins with a docstring about the file, marked as such: words first, the tag last, as TypeDoc reads it. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../packages', import.meta.url));
/** The words of a file's head; undefined where it has none. */
function head(text: string): string | undefined {
  const [comment] = /^\/\*\*.*?\*\//s.exec(text) ?? [];
  const body = comment?.slice(3, -2).replace(/^ *\*/gm, '');
  return body === undefined ? undefined : /^(.*\S)\s+@module\s*$/s.exec(body)?.[1]?.trim();
}

it('every file begins with what it is about', () => {
  const files = readdirSync(root).flatMap((name) =>
    readdirSync(join(root, name, 'src'), { recursive: true, encoding: 'utf8' })
      .filter((path) => path.endsWith('.ts'))
      .map((path) => join(root, name, 'src', path)),
  );
  expect(files.length).toBeGreaterThan(350);
  const without = files.filter((file) => head(readFileSync(file, 'utf8')) === undefined).map((file) => file.slice(root.length + 1));
  expect(without, 'these want `/** What the file is about. @module */` as the very first thing, the tag last').toEqual([]);
});

it('knows a head from other comments', () => {
  expect(head('/** The gearbox. @module */\n\nimport x')).toBe('The gearbox.');
  expect(head('/**\n * The gearbox.\n *\n * (1) a = b\n *\n * @module\n */\n')).toContain('(1) a = b');
  for (const text of [
    'import x\n/** The gearbox. @module */',
    '/** The gearbox. */\nimport x',
    '/** @module The gearbox. */',
    '/** @module */',
  ]) {
    expect(head(text), text).toBeUndefined();
  }
});
