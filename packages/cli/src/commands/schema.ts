/** `schema`: the JSON Schema of a scenario. */
import { scenarioJsonSchema } from '@shaftwork/sim-core/scenario';
import { EXIT } from '../exit.js';
import type { Io } from '../io.js';

export async function schema(io: Io): Promise<number> {
  io.out(`${JSON.stringify(scenarioJsonSchema(), null, 2)}\n`);
  return EXIT.done;
}
