/**
 * A worker of doubt samples: it is given the scenario's texts once, reads and plans for itself, and then works shares told by numbers.
 * A sample depends on its number alone, so the shares may come in any order and to any worker.
 *
 * @module
 */

import { workerData } from 'node:worker_threads';
import { type DoubtJob, planDoubtOf, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import Tinypool from 'tinypool';
import type { SampleAsk } from './sample-doubt.js';

/** The pool puts its own data before ours. */
const [, { files, ask, known }] = workerData as readonly [unknown, SampleAsk];
const preparation = prepareScenario(new Map(files.map(({ path, text }) => [path, text])), files[0].path, null, known);
if (preparation.kind !== 'ready') throw new Error('a worker was given a scenario that does not read');
const { prepared } = preparation;
const plan = planDoubtOf(prepared, ask);

export default function work(job: DoubtJob): unknown {
  return Tinypool.move(workDoubtOf(prepared, plan, job));
}
