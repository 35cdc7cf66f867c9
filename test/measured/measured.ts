/**
 * `npm run measured -- <kind> <table or folder> [--write]`: holds what was measured against the model; `--write` puts the sums into docs/validation.md.
 * Tables stay where they are.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { KINDS, PAGE, TITLES } from './kinds.js';
import { sectionText, withSection } from './validation.js';

const [name = '', path, ...options] = process.argv.slice(2);
const kind = KINDS[name];
if (kind === undefined || path === undefined) {
  process.stderr.write('Say what kind of data it is, then where it lies:\n');
  for (const [each, { needs }] of Object.entries(KINDS)) process.stderr.write(`  ${each.padEnd(13)} ${needs}\n`);
  process.exit(2);
}
const text = sectionText(kind.section(path));
process.stdout.write(`${text}\n`);
if (options.includes('--write')) {
  writeFileSync(PAGE, withSection(readFileSync(PAGE, 'utf8'), TITLES, kind.title, text));
}
