/** What the README shows is what a person then sees. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { call, ownFolder } from './call.js';

const { folder } = ownFolder();

const ROOT = join(import.meta.dirname, '../..');
const README = readFileSync(join(ROOT, 'README.md'), 'utf8');

it('the README prints what its first commands print (npm run reference writes it)', async () => {
  const [, shown] = /```text\n(.*?)```/s.exec(README)!;
  const boat = join(folder, 'my-boat');
  expect((await call('init', boat, '--for', 'boat')).code).toBe(0);
  const { out } = await call('run', join(boat, 'boat.yaml'));
  const printed = out.replace(/[\u00a0\u202f]/g, ' ').split('\n');
  for (const line of shown.trimEnd().split('\n')) expect(printed).toContain(line);
});

it('its lines for a program run as they stand, on its own scenario', () => {
  const [yaml] = [...README.matchAll(/```yaml\n(.*?)```/gs)].map(([, text]) => text).filter((text) => text.startsWith('title:'));
  const [, program] = /```js\n(.*?)```/s.exec(README) ?? [];
  // names of packages are found from the folder it runs in
  mkdirSync(join(ROOT, 'reports'), { recursive: true });
  const beside = mkdtempSync(join(ROOT, 'reports/readme-'));
  try {
    writeFileSync(join(beside, 'scenario.yaml'), yaml);
    writeFileSync(join(beside, 'program.mjs'), program);
    const { stdout, stderr } = spawnSync(process.execPath, ['program.mjs'], { cwd: beside, encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(stdout).toMatch(/^27-32 \d{3}\.\d+\n$/);
  } finally {
    rmSync(beside, { recursive: true });
  }
});
