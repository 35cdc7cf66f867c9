/** Writes the scenario reference from the built package; a test holds the two equal. */
import { writeFileSync } from 'node:fs';
import { scenarioReference } from '../dist/scenario-reference.js';

writeFileSync(new URL('./scenario-reference.md', import.meta.url), scenarioReference());
