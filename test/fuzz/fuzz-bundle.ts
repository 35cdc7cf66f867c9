/** The child of fuzz.ts joined into one file, with the packages as they are built: it starts in a moment, and a campaign stays with the code it began with. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** The commit that is driven; marked where the working tree differs from it. */
export function commitDriven(): string {
  const git = (...words: string[]): string => execFileSync('git', words, { encoding: 'utf8' }).trim();
  return git('rev-parse', '--short', 'HEAD') + (git('status', '--porcelain', '--untracked-files=no') === '' ? '' : '+');
}

/** Path of the joined child, taken away when this process ends. */
export async function bundledChild(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'shaftwork-fuzz-'));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  const outfile = join(folder, 'child.mjs');
  await build({
    entryPoints: [fileURLToPath(new URL('fuzz-child.ts', import.meta.url))],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    // the packages as they are built, not the paths that the type check reads
    tsconfigRaw: '{}',
    external: ['canvas'],
    banner: { js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);" },
    logLevel: 'error',
  });
  return outfile;
}
