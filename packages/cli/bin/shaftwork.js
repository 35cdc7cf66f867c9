#!/usr/bin/env node
import { existsSync, statSync } from 'node:fs';

/** When a file was last written; never, where there is none. */
const written = (path) => statSync(new URL(path, import.meta.url), { throwIfNoEntry: false })?.mtimeMs ?? 0;

const entry = '../dist/bundle/start.js';
// in a clone what is compiled may be older than what it was made from; what was packed is whole
const clone = existsSync(new URL('../src', import.meta.url));
const compiled = ['../dist', '../../report/dist', '../../sim-core/dist'].map((dist) => written(`${dist}/.tsbuildinfo`));
if (clone && (written(entry) < Math.max(...compiled) || compiled.includes(0))) {
  process.stderr.write('shaftwork is not built yet, or only in part. In the folder of the clone, run: npm run setup\n');
  process.exit(4);
}
const { start } = await import(entry);
start(process.argv.slice(2));
