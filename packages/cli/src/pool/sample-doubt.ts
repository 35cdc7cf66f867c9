/**
 * Works the samples of a doubt study: here for small jobs or on one core, else by a pool of workers. The rows are the same either way.
 *
 * @module
 */

import { availableParallelism } from 'node:os';
import { setImmediate } from 'node:timers/promises';
import { type DoubtAsk, type DoubtPlan, jobsOf, planDoubtOf, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import type { PreparedScenario } from '@shaftwork/sim-core/run-scenario';
import { Interrupted } from '../hands/exit.js';
import type { Progress } from '../render/progress.js';

/** What a worker is given: the scenario's texts, the first its own, and what is drawn. */
export interface SampleAsk {
  readonly files: readonly { readonly path: string; readonly text: string }[];
  readonly ask: DoubtAsk;
}

export interface Sampled {
  readonly plan: DoubtPlan;
  readonly rows: Float64Array;
  readonly workers: number;
}

/** Samples to a job: short enough that the bar moves and an interrupt is heard. */
const JOB = 8;
/** A worker reads the scenario and warms up for itself; a pool pays only for more work than this [ms]. */
const WORTH_A_POOL = 1500;
const WARM_UP = 2;

/** Throws Interrupted when the person presses Ctrl-C. `cores` and `worthAPool` are for tests. */
export async function sampleDoubt(
  prepared: PreparedScenario,
  asked: DoubtAsk,
  progress: Progress,
  cores = availableParallelism(),
  worthAPool = WORTH_A_POOL,
): Promise<Sampled> {
  const { samples } = asked;
  const plan = planDoubtOf(prepared, asked);
  const jobs = jobsOf(plan, JOB);
  const parts: Float64Array[] = new Array(jobs.length);
  let interrupted = false;
  let stop = (): void => {};
  const onInterrupt = (): void => {
    interrupted = true;
    stop();
  };
  process.once('SIGINT', onInterrupt);
  let workers = 0;
  try {
    // the first share warms the code, the second tells what the rest will take
    let left = 0;
    for (let k = 0; k < Math.min(WARM_UP, jobs.length); k++) {
      const from = process.cpuUsage();
      parts[k] = workDoubtOf(prepared, plan, jobs[k]);
      progress.show(jobs[k].to, samples);
      // work, not waiting: a busy machine gains nothing by more threads
      left = (process.cpuUsage(from).user / 1000) * (jobs.length - 1 - k);
    }
    if (cores > 1 && left > worthAPool) {
      const { default: Tinypool } = await import('tinypool');
      workers = Math.min(cores, jobs.length - WARM_UP);
      const compared = prepared.scenario.measured?.file;
      // a log that is only compared with is not drawn
      const files = prepared.files.filter(({ path }) => path !== compared || path === prepared.scenario.log?.file);
      const ask: SampleAsk = { files, ask: asked };
      const pool = new Tinypool({
        // workers run what is built, also where this file is a source
        filename: new URL('../../dist/bundle/doubt-worker.js', import.meta.url).href,
        minThreads: workers,
        maxThreads: workers,
        workerData: ask,
      });
      const ended = new Promise<never>((_, reject) => {
        stop = () => reject(new Interrupted());
        if (interrupted) stop();
      });
      try {
        let done = jobs[WARM_UP - 1].to;
        const work = jobs.slice(WARM_UP).map(async (job, k) => {
          parts[k + WARM_UP] = await pool.run(job);
          done += job.to - job.from;
          progress.show(done, samples);
        });
        await Promise.race([Promise.all(work), ended]);
      } finally {
        await pool.destroy().catch(() => {});
      }
    } else {
      for (let k = Math.min(WARM_UP, jobs.length); k < jobs.length; k++) {
        parts[k] = workDoubtOf(prepared, plan, jobs[k]);
        progress.show(jobs[k].to, samples);
        await setImmediate();
        if (interrupted) throw new Interrupted();
      }
    }
  } finally {
    process.off('SIGINT', onInterrupt);
    progress.end();
  }
  const rows = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    rows.set(part, at);
    at += part.length;
  }
  return { plan, rows, workers };
}
