#!/usr/bin/env node
import { statSync } from 'node:fs';

/** When a file was last written; never, where there is none. */
const written = (path) => statSync(new URL(path, import.meta.url), { throwIfNoEntry: false })?.mtimeMs ?? 0;

const main = '../dist/bundle/main.js';
const compiled = ['../dist', '../../report/dist', '../../sim-core/dist'].map((dist) => written(`${dist}/.tsbuildinfo`));
if (written(main) < Math.max(...compiled) || compiled.includes(0)) {
  process.stderr.write('shaftwork is not built yet, or only in part. In the folder of the clone, run: npm run setup\n');
  process.exit(4);
}
const { start } = await import(main);
await start(process.argv.slice(2));
