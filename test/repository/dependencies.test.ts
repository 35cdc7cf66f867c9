/** Every package that this project stands on is listed with its reason in DEVELOPERS.md, has an exact version, and none is listed that is not used. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
interface Manifest {
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
}
const manifests = ['package.json', ...['sim-core', 'report', 'cli'].map((name) => `packages/${name}/package.json`)].map(
  (path) => JSON.parse(read(path)) as Manifest,
);
const used = new Map(
  manifests
    .flatMap(({ dependencies = {}, devDependencies = {} }) => [...Object.entries(dependencies), ...Object.entries(devDependencies)])
    .filter(([name]) => !name.startsWith('@shaftwork/')),
);

it('each is listed with a reason, and only those', () => {
  const rows = read('DEVELOPERS.md').split('\n## Dependencies\n')[1]?.split('\n## ')[0]?.split('\n') ?? [];
  const listed = rows.flatMap((row) => {
    const [, names = '', reason = ''] = row.split('|');
    return Array.from(names.matchAll(/`([^`]+)`/g), ([, name]) => [name, reason.trim()] as const);
  });
  expect(listed.map(([name]) => name).sort()).toEqual([...used.keys()].sort());
  for (const [name, reason] of listed) expect(reason.length, name).toBeGreaterThan(5);
});

it('each has one exact version', () => {
  for (const [name, version] of used) expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
});

it('every promise of SECURITY.md names a test that is there', () => {
  const named = Array.from(read('SECURITY.md').matchAll(/`(test\/[^`]+)`/g), ([, path]) => path);
  expect(named.length).toBeGreaterThan(0);
  for (const path of named) expect(read(path)).toContain('expect(');
});
