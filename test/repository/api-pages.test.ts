/** The API pages of `npm run docs` build without a warning: every link leads somewhere, every parameter that is spoken of is there. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');

it('the API pages build without a warning', () => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(root, 'node_modules/typedoc/bin/typedoc'), '--emit', 'none', '--logLevel', 'Warn'],
    { cwd: root, encoding: 'utf8' },
  );
  expect(`${stdout}${stderr}`).toBe('');
  expect(status).toBe(0);
}, 180_000);
