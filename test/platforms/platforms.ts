/**
 * `npm run platforms -- [versions] [projects]`: runs the tests on other versions of Node, each a package of the registry, and prints how each ended.
 * Such as `npm run platforms -- 20,24 unit,commands`; else 20, 22 and 24, all but what needs a browser.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const [versions = '20,22,24', projects = 'unit,checks,properties,commands,repository'] = process.argv.slice(2);

/** The program of a version of Node for this machine; a package without scripts brings it. */
function nodeOf(version: string): string {
  const folder = join(root, 'node_modules', '.cache', 'platforms', version);
  const name = `node-${process.platform === 'win32' ? 'win' : process.platform}-${process.arch}`;
  const program = join(folder, 'node_modules', name, 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
  if (!existsSync(program)) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');
    const npm = spawnSync('npm', ['install', '--ignore-scripts', '--no-audit', '--no-fund', `${name}@${version}`], {
      cwd: folder,
      stdio: 'inherit',
      shell: process.platform === 'win32',
    });
    if (npm.status !== 0 || !existsSync(program)) throw new Error(`${name}@${version} could not be installed`);
  }
  return program;
}

let failed = false;
for (const version of versions.split(',')) {
  const node = nodeOf(version);
  const own = spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout.trim();
  const began = Date.now();
  const words = [
    'run',
    '--reporter=default',
    '--reporter=./test/count-reporter.ts',
    ...projects.split(',').flatMap((project) => ['--project', project]),
  ];
  const { status, stdout } = spawnSync(node, [join(root, 'node_modules', 'vitest', 'vitest.mjs'), ...words], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    env: { ...process.env, PATH: `${dirname(node)}${delimiter}${process.env['PATH'] ?? ''}` },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const closing = stdout.trim().split('\n').at(-1) ?? '';
  console.log(`Node ${own}: ${closing} (${projects}; ${((Date.now() - began) / 60_000).toFixed(1)} min)`);
  if (status !== 0) {
    failed = true;
    console.log(stdout.split('\n').slice(-120).join('\n'));
  }
}
process.exitCode = failed ? 1 : 0;
