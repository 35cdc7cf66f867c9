/** sim-core runs where there is no Node: bundled, in a bare virtual machine that offers nothing but the language and a text decoder. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createContext, runInContext } from 'node:vm';
import { build } from 'esbuild';
import { expect, it } from 'vitest';

it('runs a scenario in a bare virtual machine', async () => {
  const entry = fileURLToPath(new URL('../../packages/sim-core/src/index.ts', import.meta.url));
  const bundle = await build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'core',
    platform: 'neutral',
    mainFields: ['module', 'main'],
    logLevel: 'silent',
  });
  const text = readFileSync(new URL('../../scenarios/survey-boat.yaml', import.meta.url), 'utf8').replace('repeat: 8', 'repeat: 1');
  const context = createContext({ text });
  runInContext(bundle.outputFiles[0].text, context);
  const ranking = runInContext(
    `const made = core.prepareScenario(text); JSON.stringify(made.kind === 'ready' ? core.runScenario(made.prepared).ranking : made)`,
    context,
  );
  expect(JSON.parse(ranking)).toEqual(['Long', 'Wide', 'Small']);
});
