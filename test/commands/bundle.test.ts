import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const bundle = join(import.meta.dirname, '../../packages/cli/dist/bundle');

/** What a file of the bundle pulls in at once, itself included; what it asks for later, by `import(…)`, is not counted. */
function readAtOnce(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  const text = readFileSync(join(bundle, file), 'utf8');
  for (const [, next] of text.matchAll(/^(?:import|\} from|export .* from) .*?"\.\/([^"]+)";$/gm)) readAtOnce(next, seen);
  for (const [, next] of text.matchAll(/^\} from "\.\/([^"]+)";$/gm)) readAtOnce(next, seen);
  return seen;
}

describe('the bundle that the command runs', () => {
  it('starts without the simulation, the reader of scenarios and what draws: help and errors come at once', () => {
    const text = [...readAtOnce('thread.js')].map((file) => readFileSync(join(bundle, file), 'utf8')).join('\n');
    expect(text.length).toBeLessThan(200_000);
    for (const late of ['node_modules/.pnpm/zod', 'node_modules/.pnpm/vega', 'node_modules/.pnpm/yaml', 'sim-core/dist/kernel'])
      expect(text).not.toContain(late);
  });
  it('reads no drawing library before something is drawn', () => {
    const text = [...readAtOnce('doubt-worker.js')].map((file) => readFileSync(join(bundle, file), 'utf8')).join('\n');
    expect(text).toContain('sim-core/dist/kernel');
    expect(text).not.toContain('node_modules/.pnpm/vega');
  });
  it('works its draws in threads of their own', () => {
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [join(root, 'packages/cli/bin/shaftwork.js'), 'run', join(root, 'scenarios/hot-day-mapper.yaml'), '--samples', '256'],
      { encoding: 'utf8' },
    );
    expect(stderr).not.toContain('Error');
    expect(status).toBe(0);
    expect(stdout).toContain('in 9 of 10 draws');
  });
});
