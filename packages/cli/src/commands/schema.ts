/** `schema`: the JSON Schema of a scenario or of a part file. @module */

import { partJsonSchema, scenarioJsonSchema, sharedSchema } from '@shaftwork/sim-core/scenario';
import { EXIT } from '../hands/exit.js';
import type { Io } from '../hands/io.js';

/** What stands in a schema file, of a scenario or of a part. */
export const schemaText = (part: boolean): string =>
  `${JSON.stringify(part ? partJsonSchema() : sharedSchema(scenarioJsonSchema()), null, 2)}\n`;

export async function schema(io: Io, options: { readonly part?: boolean }): Promise<number> {
  io.out(schemaText(options.part === true));
  return EXIT.done;
}
