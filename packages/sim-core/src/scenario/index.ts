/** Text files → given data; the only room that knows YAML and schemas. @module */

export { type JsonSchema, partJsonSchema, scenarioJsonSchema } from './json-schema.js';
export { type KnownFolder, readKnown } from './known-parts.js';
export { nearestWord } from './nearest-key.js';
export type { FileTexts } from './part-files.js';
export { readScenario, type ScenarioReading } from './read-scenario.js';
export { PART_KINDS, type PartKind } from './schema/drive.js';
export { sharedSchema } from './shared-schema.js';
export { linkedOutside, tooLarge } from './yaml/text-checks.js';
