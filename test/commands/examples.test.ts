/** The examples in packages/sim-core/docs run as they stand, in about fifteen lines each, on what is built. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const folder = join(import.meta.dirname, '../../packages/sim-core/docs/examples');

it.each([
  ['scenario.mjs', /^Small true [\d.]+\u202f°C\n$/],
  ['drive.mjs', /^winding \d+\.\d K, \d+ numbers assumed\n$/],
])('%s', (name, says) => {
  expect(readFileSync(join(folder, name), 'utf8').trimEnd().split('\n').length).toBeLessThanOrEqual(21);
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(folder, name)], { encoding: 'utf8' });
  expect(stderr).toBe('');
  expect(stdout).toMatch(says);
  expect(status).toBe(0);
});
