/**
 * Packs each package and tries the tarballs in empty folders: the command from `init` to a report, the two examples, and the types of
 * every sub-path as Node resolves them and as a bundler does. Needs the network for what the packages stand on.
 *
 *   npm run packages
 */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../..');
const base = mkdtempSync(join(tmpdir(), 'shaftwork-packages-'));
const run = (folder: string, command: string, ...words: string[]): string =>
  execFileSync(command, words, { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });
const say = (line: string): void => void process.stdout.write(`${line}\n`);
const tarballs = new Map(
  ['sim-core', 'report', 'cli'].map((name) => {
    run(join(root, 'packages', name), 'npx', '--yes', 'pnpm@12.4.2', 'pack', '--pack-destination', base);
    const file = join(base, readdirSync(base).find((each) => each.startsWith(`shaftwork-${name}-`)) ?? name);
    say(`${name}: ${Math.round(statSync(file).size / 1000)} kB`);
    return [name, file] as const;
  }),
);
/** A folder with nothing in it but these tarballs and what they stand on. */
function folderWith(...names: string[]): string {
  const folder = mkdtempSync(join(base, 'empty-'));
  writeFileSync(join(folder, 'package.json'), '{ "private": true, "type": "module" }\n');
  run(folder, 'npm', 'install', '--no-audit', '--no-fund', ...names.map((name) => tarballs.get(name) ?? name));
  return folder;
}

try {
  const command = folderWith('cli');
  run(command, 'npx', '--no-install', 'shaftwork', 'init', 'boat', '--for', 'boat');
  const said = run(command, 'npx', '--no-install', 'shaftwork', 'run', 'boat/boat.yaml', '--html', 'report.html', '--samples', '16');
  if (!said.includes('Choose First') || !readFileSync(join(command, 'report.html'), 'utf8').includes('</html>'))
    throw new Error(`the command does not run from its tarball: ${said}`);
  say('the command runs from its tarball');

  const library = folderWith('sim-core', 'report');
  cpSync(join(library, 'node_modules/@shaftwork/sim-core/docs/examples'), library, { recursive: true });
  for (const example of ['scenario.mjs', 'drive.mjs']) say(`${example}: ${run(library, process.execPath, example).trim()}`);

  const imports = ['sim-core', 'report'].flatMap((name) => {
    const { exports } = JSON.parse(readFileSync(join(root, 'packages', name, 'package.json'), 'utf8'));
    return Object.keys(exports).map((path, k) => `import * as ${name.replace('-', '')}${k} from '@shaftwork/${name}${path.slice(1)}';`);
  });
  const used = [...imports.join('\n').matchAll(/as (\w+)/g)].map(([, name]) => `Object.keys(${name}).length`);
  writeFileSync(join(library, 'all.ts'), `${imports.join('\n')}\nexport const count: number = ${used.join(' + ')};\n`);
  for (const [module, resolution] of [
    ['node16', 'node16'],
    ['nodenext', 'nodenext'],
    ['esnext', 'bundler'],
  ]) {
    const options = ['--module', module, '--moduleResolution', resolution, '--target', 'es2023', '--strict', '--noEmit', '--skipLibCheck'];
    run(library, process.execPath, join(root, 'node_modules/typescript/bin/tsc'), ...options, 'all.ts');
    say(`types resolve under ${resolution}`);
  }
} finally {
  rmSync(base, { recursive: true, force: true });
}
