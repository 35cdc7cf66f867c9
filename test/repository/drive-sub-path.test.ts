/** `@shaftwork/sim-core/drive`: a drive from plain numbers with every law beside it, and neither zod nor yaml behind it. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import * as drive from '@shaftwork/sim-core/drive';
import { build } from 'esbuild';
import { expect, it } from 'vitest';

const core = join(import.meta.dirname, '../../packages/sim-core/src');
/** Every file of the rooms whose laws are public. */
const laws = ['media', 'parts', 'heat', 'drive'].flatMap((room) =>
  readdirSync(join(core, room), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .map((path) => join(core, room, path)),
);

it('gives every law of parts, heat, drive and media', async () => {
  expect(laws.length).toBeGreaterThan(40);
  for (const file of laws) {
    const names = Object.keys(await import(file));
    expect(
      names.filter((name) => !(name in drive)),
      `${file}: add it to drive-laws.ts`,
    ).toEqual([]);
  }
});

it('drives in a bare virtual machine without the reader of scenarios', async () => {
  const bundle = await build({
    stdin: { contents: "export * from './drive-laws.ts'", resolveDir: core, loader: 'ts' },
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'drive',
    platform: 'neutral',
    mainFields: ['module', 'main'],
    metafile: true,
    logLevel: 'silent',
  });
  const inputs = Object.keys(bundle.metafile.inputs);
  expect(inputs.filter((path) => /node_modules\/(?!.*odex)|sim-core\/src\/scenario\//.test(path))).toEqual([]);
  const context = createContext({});
  runInContext(bundle.outputFiles[0]?.text ?? '', context);
  const hot = runInContext(
    `const made = drive.driveFromNumbers({
       battery: { cells: { series: 3 }, capacity: 7920 },
       propeller: { kind: 'blade-element', family: 'thin', diameter: 0.2286, pitch: 0.1143 },
       motor: { layout: 'outrunner', kv: 96.3, resistance: 0.096, noLoad: [{ current: 0.9, voltage: 10 }], mass: 0.066, can: { diameter: 0.027, length: 0.032 } },
     });
     drive.simulate(made.system, [{ duration: 60, hold: 'throttle', value: { from: 0.8, to: 0.8 } }]).highest.windingTemperature.value`,
    context,
  );
  expect(hot).toBeGreaterThan(300);
  expect(hot).toBeLessThan(450);
});
