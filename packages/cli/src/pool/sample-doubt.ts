/**
 * Works the samples of a doubt study: here for small jobs or on one core, else by a pool of workers. The rows are the same either way.
 *
 * @module
 */

import { availableParallelism } from 'node:os';
import { type DoubtAsk, type DoubtJob, type DoubtPlan, jobsOf, planDoubtOf, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import type { PreparedScenario } from '@shaftwork/sim-core/run-scenario';
import type { KnownFolder } from '@shaftwork/sim-core/scenario';
import type { Progress } from '../render/progress.js';

/** What a worker is given: the scenario's texts, the first its own, and what is drawn. */
export interface SampleAsk {
  readonly files: readonly { readonly path: string; readonly text: string }[];
  readonly ask: DoubtAsk;
  readonly known?: KnownFolder;
}

export interface Sampled {
  readonly plan: DoubtPlan;
  readonly rows: Float64Array;
  readonly workers: number;
  /** A thread died, and what it left was worked without threads. */
  readonly died: boolean;
}

/** Samples to a job: short enough that the bar moves. */
const JOB = 8;
/** A worker reads the scenario and warms up for itself; a pool pays only for more work than this [ms]. */
const WORTH_A_POOL = 1500;
const WARM_UP = 2;

/** `cores` and `worthAPool` are for tests. */
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
  const parts = new Map<DoubtJob, Float64Array>();
  let done = 0;
  const take = (job: DoubtJob, part: Float64Array): void => {
    parts.set(job, part);
    done += job.to - job.from;
    progress.show(done, samples);
  };
  let workers = 0;
  let died = false;
  try {
    // the first share warms the code, the second tells what the rest will take
    let left = 0;
    for (const [k, job] of jobs.slice(0, WARM_UP).entries()) {
      const from = process.cpuUsage();
      take(job, workDoubtOf(prepared, plan, job));
      // work, not waiting: a busy machine gains nothing by more threads
      left = (process.cpuUsage(from).user / 1000) * (jobs.length - 1 - k);
    }
    if (cores > 1 && left > worthAPool) {
      workers = Math.min(cores, jobs.length - WARM_UP);
      const compared = prepared.scenario.measured?.file;
      // a log that is only compared with is not drawn
      const files = prepared.files.filter(({ path }) => path !== compared || path === prepared.scenario.log?.file);
      died = await inThreads({ files, ask: asked }, jobs.slice(WARM_UP), workers, take);
    }
    for (const job of jobs) {
      if (parts.has(job)) continue;
      take(job, workDoubtOf(prepared, plan, job));
    }
  } finally {
    progress.end();
  }
  const rows = new Float64Array(jobs.reduce((sum, job) => sum + (parts.get(job)?.length ?? 0), 0));
  let at = 0;
  for (const job of jobs) {
    const part = parts.get(job);
    if (part === undefined) throw new Error('a share of the draws was not worked');
    rows.set(part, at);
    at += part.length;
  }
  return { plan, rows, workers, died };
}

/**
 * Works jobs in threads, and tells whether one died of what is not the job's fault, such as want of memory: then some jobs are left. One whose
 * own work fails is left too, to fail where it is told.
 */
async function inThreads(
  ask: SampleAsk,
  jobs: readonly DoubtJob[],
  workers: number,
  take: (job: DoubtJob, part: Float64Array) => void,
): Promise<boolean> {
  const { default: Tinypool } = await import('tinypool');
  const pool = new Tinypool({
    // workers run what is built, also where this file is a source
    filename: new URL('../../dist/bundle/doubt-worker.js', import.meta.url).href,
    minThreads: workers,
    maxThreads: workers,
    workerData: ask,
  });
  // the pool itself waits for ever for a thread that is gone
  const died = new Promise<boolean>((resolve) => {
    pool.on('error', () => resolve(true));
    for (const thread of pool.threads) thread.on('exit', () => resolve(true));
  });
  const work = Promise.all(jobs.map(async (job) => take(job, await pool.run(job)))).then(
    () => false,
    () => true,
  );
  try {
    return await Promise.race([work, died]);
  } finally {
    await Promise.race([pool.destroy().catch(() => {}), died]);
  }
}
