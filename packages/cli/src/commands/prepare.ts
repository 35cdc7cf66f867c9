/** From a path to a prepared scenario: reads it and the part files it names; problems are printed by the caller. */
import { dirname, isAbsolute, join, normalize } from 'node:path';
import type { ScenarioProblem } from '@shaftwork/sim-core/problems';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { ReadWriteFault } from '../exit.js';
import type { Io } from '../io.js';

export type Prepared =
  | { readonly ok: true; readonly prepared: PreparedScenario }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

export function prepare(io: Io, path: string): Prepared {
  const folder = path === '-' ? '.' : dirname(path);
  const main = path === '-' ? 'standard-input.yaml' : path.slice(path.replaceAll('\\', '/').lastIndexOf('/') + 1);
  const files = new Map<string, string | null>([[main, io.read(path)]]);
  for (;;) {
    const preparation = prepareScenario(files, main);
    if (!('needs' in preparation)) return preparation;
    for (const need of preparation.needs) files.set(need, readPart(io, folder, need));
  }
}

/** A part file beside the scenario; null where it cannot be read, so that all problems come at once. */
function readPart(io: Io, folder: string, path: string): string | null {
  if (isAbsolute(path) || normalize(path).startsWith('..')) return null;
  try {
    return io.read(join(folder, path));
  } catch (error) {
    if (error instanceof ReadWriteFault) return null;
    throw error;
  }
}
