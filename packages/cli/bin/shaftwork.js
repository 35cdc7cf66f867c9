#!/usr/bin/env node
import { existsSync } from 'node:fs';

const main = new URL('../dist/main.js', import.meta.url);
if (!existsSync(main)) {
  process.stderr.write('shaftwork is not built yet. In the folder of the clone, run: npm run setup\n');
  process.exit(4);
}
const { start } = await import(main.href);
await start(process.argv.slice(2));
