/** The child of fuzz.ts joined into one file, with the packages as they are built: it starts in a moment, and a campaign stays with the code it began with. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** The commit that is driven; marked where the working tree differs from it. */
export function commitDriven(): string {
  const git = (...words: string[]): string => execFileSync('git', words, { encoding: 'utf8' }).trim();
  return git('rev-parse', '--short', 'HEAD') + (git('status', '--porcelain', '--untracked-files=no') === '' ? '' : '+');
}

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** Path of the joined child, beside the command's own packages; taken away when this process ends. */
export async function bundledChild(): Promise<string> {
  const outdir = mkdtempSync(at('../../packages/cli/dist/fuzz-'));
  process.on('exit', () => rmSync(outdir, { recursive: true, force: true }));
  await build({
    entryPoints: [at('fuzz-child.ts')],
    outdir,
    entryNames: '[name]',
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    // the packages as they are built, not the paths that the type check reads
    tsconfigRaw: '{}',
    alias: { '@shaftwork/cli/hands': at('../../packages/cli/dist/hands'), '@shaftwork/cli/main': at('../../packages/cli/dist/main.js') },
    external: ['canvas', '@resvg/resvg-js', '@expo-google-fonts/inter', 'tinypool'],
    banner: { js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);" },
    logLevel: 'error',
  });
  return join(outdir, 'fuzz-child.js');
}
