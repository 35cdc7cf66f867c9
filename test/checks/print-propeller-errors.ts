/** Prints the table that docs/theory.md carries; air-propellers.test.ts holds the two together. */
import { propellerErrorTable } from './air-propeller-errors.js';

process.stdout.write(`${propellerErrorTable()}\n`);
