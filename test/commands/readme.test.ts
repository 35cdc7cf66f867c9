/** What the README shows is what a person then sees. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { call, ownFolder } from './call.js';

const { folder } = ownFolder();

it('the README prints what its first commands print (npm run reference writes it)', async () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  const [, shown] = /```text\n(.*?)```/s.exec(readme)!;
  const boat = join(folder, 'my-boat');
  expect((await call('init', boat, '--for', 'boat')).code).toBe(0);
  const { out } = await call('run', join(boat, 'boat.yaml'));
  const printed = out.replace(/[\u00a0\u202f]/g, ' ').split('\n');
  for (const line of shown.trimEnd().split('\n')) expect(printed).toContain(line);
});
