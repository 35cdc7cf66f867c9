/** Puts the heads of source files into docs/theory.md; test/repository/theory.test.ts holds the page. */
import { readFileSync, writeFileSync } from 'node:fs';
import { THEORY, written } from './theory.js';

writeFileSync(THEORY, written(readFileSync(THEORY, 'utf8')));
