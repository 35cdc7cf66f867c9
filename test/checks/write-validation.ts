/** Writes what the checks say into docs/validation.md and their count into the README; outside.test.ts holds both. */
import { readFileSync, writeFileSync } from 'node:fs';
import { PAGE, TITLES } from '../measured/kinds.js';
import { withSection } from '../measured/validation.js';
import { propellerErrorTable } from './air-propeller-errors.js';
import { checksText, countedText, TITLE, worked } from './outside/page.js';
import { TOPICS } from './outside/topics.js';

const text = checksText(TOPICS, TOPICS.map(worked), propellerErrorTable());
writeFileSync(PAGE, withSection(readFileSync(PAGE, 'utf8'), TITLES, TITLE, text));
const readme = new URL('../../README.md', import.meta.url);
writeFileSync(
  readme,
  readFileSync(readme, 'utf8').replace(/(?<=<!-- counted -->\n)[^\n]*(?=\n<!-- end -->)/, () => `${countedText(TOPICS)}.`),
);
