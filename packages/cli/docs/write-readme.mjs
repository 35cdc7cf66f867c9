/** Writes into the README what its first commands print: verdict and first rows of the starter boat. A test holds the two equal. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const readme = new URL('../../../README.md', import.meta.url);
const command = fileURLToPath(new URL('../bin/shaftwork.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'shaftwork-'));
try {
  const call = (...words) => execFileSync(process.execPath, [command, ...words], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
  call('init', folder, '--for', 'boat');
  const [, verdict, table] = call('run', join(folder, 'boat.yaml'))
    .replace(/[\u00a0\u202f]/g, ' ')
    .split('\n\n');
  const shown = `${verdict}\n\n${table.split('\n').slice(0, 6).join('\n')}`;
  writeFileSync(
    readme,
    readFileSync(readme, 'utf8').replace(/(?<=```text\n).*?(?=\n```)/s, () => shown),
  );
} finally {
  rmSync(folder, { recursive: true });
}
