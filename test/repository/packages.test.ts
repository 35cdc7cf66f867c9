/** What each package packs: what is run and its types, a README and the licence, and no sources, tests or build notes. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const packed = (name: string): string[] => {
  const json = execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
    cwd: join(root, 'packages', name),
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return JSON.parse(json)[0].files.map(({ path }: { readonly path: string }) => path);
};

describe.each(['sim-core', 'report', 'cli'])('%s', (name) => {
  const folder = join(root, 'packages', name);
  const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const files = packed(name);

  it('packs what it is run from, a README and the licence, and nothing else', () => {
    expect(files).toEqual(expect.arrayContaining(['package.json', 'README.md', 'LICENSE']));
    expect(files.filter((path) => /^(src|test)\/|\.tsbuildinfo$|\.map$|tsconfig/.test(path))).toEqual([]);
    expect(readFileSync(join(folder, 'LICENSE'), 'utf8')).toBe(readFileSync(join(root, 'LICENSE'), 'utf8'));
    expect(readFileSync(join(folder, 'README.md'), 'utf8')).toContain(manifest.name);
  });

  it('packs every file that its manifest names', () => {
    const named = [
      ...Object.values((manifest.exports ?? {}) as Record<string, { types: string; default: string }>).flatMap((each) =>
        Object.values(each),
      ),
      ...Object.values((manifest.bin ?? {}) as Record<string, string>),
    ].map((path) => path.replace('./', ''));
    expect(named.length).toBeGreaterThan(0);
    for (const path of named) {
      expect(existsSync(join(folder, path)), path).toBe(true);
      expect(files, path).toContain(path);
    }
  });
});

it('the command packs its bundle, its worker and its starters, and asks for nothing that it has within', () => {
  const files = packed('cli');
  expect(files).toEqual(
    expect.arrayContaining(['dist/bundle/start.js', 'dist/bundle/thread.js', 'dist/bundle/doubt-worker.js', 'starters/boat/boat.yaml']),
  );
  const { dependencies } = JSON.parse(readFileSync(join(root, 'packages/cli/package.json'), 'utf8'));
  expect(Object.keys(dependencies).filter((name) => name.startsWith('@shaftwork/'))).toEqual([]);
});
