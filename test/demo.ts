import { readFileSync } from 'node:fs';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';

/** A demo scenario of the project, prepared. */
export function demo(name: string): PreparedScenario {
  const text = readFileSync(new URL(`../scenarios/${name}.yaml`, import.meta.url), 'utf8');
  const preparation = prepareScenario(new Map([[`${name}.yaml`, text]]), `${name}.yaml`);
  if ('needs' in preparation || !preparation.ok) throw new Error(`${name} is not ready: ${JSON.stringify(preparation, null, 1)}`);
  return preparation.prepared;
}
