import { readFileSync } from 'node:fs';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';

export const DEMOS = ['survey-boat', 'burst-glider', 'hot-day-mapper', 'grass-car'] as const;
/** What `init` begins with. */
export const STARTERS = ['boat', 'aircraft', 'car'] as const;

/** A demo scenario of the project with its part files, prepared. */
export const demo = (name: string): PreparedScenario => prepared('../scenarios/', name);

/** A demo or a starter. */
export const demoOrStarter = (name: string): PreparedScenario =>
  (DEMOS as readonly string[]).includes(name) ? demo(name) : prepared(`../packages/cli/starters/${name}/`, name);

function prepared(folder: string, name: string): PreparedScenario {
  const read = (path: string): string => readFileSync(new URL(`${folder}${path}`, import.meta.url), 'utf8');
  const files = new Map([[`${name}.yaml`, read(`${name}.yaml`)]]);
  let preparation = prepareScenario(files, `${name}.yaml`);
  while (preparation.kind === 'needs') {
    for (const path of preparation.needs) files.set(path, read(path));
    preparation = prepareScenario(files, `${name}.yaml`);
  }
  if (preparation.kind !== 'ready') throw new Error(`${name} is not ready: ${JSON.stringify(preparation, null, 1)}`);
  return preparation.prepared;
}
