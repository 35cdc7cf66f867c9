/** Writes the scenario reference; test/properties/scenario-reference.test.ts holds it. */
import { writeFileSync } from 'node:fs';
import { REFERENCE, scenarioReference } from './scenario-reference.js';

writeFileSync(REFERENCE, scenarioReference());
