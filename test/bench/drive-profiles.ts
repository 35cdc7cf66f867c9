/** Drives the reference profile as often as it is told, in a thread of its own, and tells how long that took once it had begun. */
import { parentPort } from 'node:worker_threads';
import { simulate } from '../../packages/sim-core/src/questions/simulate/simulate.js';
import { referenceSystem } from './reference-system.js';

const ref = referenceSystem();
const drive = (times: number): void => {
  for (let k = 0; k < times; k++) simulate(ref.system, ref.profile, { method: 'dormand-prince', relative: 2e-4, record: false });
};
parentPort!.on('message', (times: number) => {
  drive(times);
  parentPort!.postMessage('done');
});
drive(100);
parentPort!.postMessage('ready');
