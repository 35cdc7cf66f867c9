/** `run`: all candidates over the profile. @module */

import { embeddedRun, type Headline, headlineOf, movedBetween } from '@shaftwork/report/history';
import { meetsDemands, type RunResult } from '@shaftwork/sim-core';
import { resultJson } from '@shaftwork/sim-core/json';
import { type MeasuredPlan, planMeasuredOf, withMeasured } from '@shaftwork/sim-core/measured-questions';
import { withCostly, withDoubt, withRatings, withWhy } from '@shaftwork/sim-core/other-questions';
import { type PreparedScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { EXIT, InputFault } from '../hands/exit.js';
import { typed } from '../hands/shell-words.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { sampleDoubt } from '../pool/sample-doubt.js';
import { drivesWords } from '../render/drives-words.js';
import { createProgress } from '../render/progress.js';
import { runSummary } from '../render/run-summary.js';
import { wrap } from '../render/table.js';
import { checkOutputs, type OutputOptions, toStandardOutput, writeOutputs } from './outputs.js';
import { candidateNamed, prepare, sayProblems } from './prepare.js';

export interface RunOptions extends GlobalOptions, OutputOptions {
  readonly samples?: string;
  readonly seed?: string;
  readonly measured?: string;
  readonly measuredOn?: string;
}

/** Few enough that a run stays quick, enough to tell likely from unlikely; every chance is told with its interval. */
const USUAL_SAMPLES = 64;
const FEWEST_SAMPLES = 16;
const MOST_SAMPLES = 100_000;
const LARGEST_SEED = 2 ** 32 - 1;

/** `--samples` and `--seed`, read strictly. */
export function doubtAsk({ samples, seed }: Pick<RunOptions, 'samples' | 'seed'>): { readonly samples: number; readonly seed: number } {
  const whole = (flag: string, text: string | undefined, usual: number, most: number): number => {
    if (text === undefined) return usual;
    if (!/^\d+$/.test(text) || Number(text) > most)
      throw new InputFault(`${flag}: expected a whole number from 0 to ${most}; found ${text}.`);
    return Number(text);
  };
  const count = whole('--samples', samples, USUAL_SAMPLES, MOST_SAMPLES);
  if (count > 0 && count < FEWEST_SAMPLES)
    throw new InputFault(`--samples: expected 0 for none, or ${FEWEST_SAMPLES} and more; found ${count}. Fewer say nothing about a band.`);
  return { samples: count, seed: whole('--seed', seed, 1, LARGEST_SEED) };
}

export async function run(io: Terminal, path: string, options: RunOptions): Promise<number> {
  const ask = doubtAsk(options);
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const whose = candidateNamed(prepared.prepared, options.measuredOn, '--measured-on');
  if (whose !== undefined && prepared.prepared.scenario.measured === undefined)
    throw new InputFault('--measured-on: there is no log to compare with. Give one with --measured, or under measured: in the scenario.');
  checkOutputs(io, options);
  // Read before it is written over.
  const earlier = options.html === undefined ? undefined : io.ours(options.html);
  const last = earlier === undefined ? undefined : embeddedRun(earlier);
  const result = await worked(io, prepared.prepared, ask, options);
  const { written, faults } = await writeOutputs(io, result, options);
  if (options.json) io.out(resultJson(result));
  else if (!io.quiet && !toStandardOutput(options)) {
    io.out(await runSummary(result, io));
    const drives = drivesWords(prepared.prepared);
    if (drives !== undefined) io.out(`${wrap(drives)}\n`);
  }
  const now = headlineOf(result);
  if (prepared.embedded !== undefined) io.note(`${changes(prepared.embedded.now, now, 'the report it was read from')}\n`);
  else if (last !== undefined) io.note(`${changes(last.now, now, 'the report that stood there')}\n`);
  for (const line of written) io.note(`${line}\n`);
  if (!options.json) io.note(`Next: ${nextAfterRun(path, options)}\n`);
  // the work is done and told; what could not be written is told last
  for (const fault of faults) io.err(`${fault}\n`);
  if (faults.length > 0) return EXIT.readWrite;
  return !result.candidates.some(meetsDemands) || (options.strict && result.findings.length > 0) ? EXIT.notFeasible : EXIT.done;
}

/** The run with all that its outputs carry. */
async function worked(
  io: Terminal,
  prepared: PreparedScenario,
  ask: { readonly samples: number; readonly seed: number },
  options: RunOptions,
): Promise<RunResult> {
  const plain = runScenario(prepared);
  const measured = measuredPlan(prepared, plain, options.measuredOn);
  let result = withCostly(prepared, plain, measured?.looks);
  // only reports, figures and JSON carry ratings, and why the leader differs from the runner-up; they take as long as the run
  if (options.html !== undefined || options.svg !== undefined || options.json) result = withWhy(prepared, withRatings(prepared, result));
  if (ask.samples === 0) return measured === undefined ? result : withMeasured(result, measured);
  const progress = createProgress('how sure', io.screen, io.quiet);
  const doubt = await sampleDoubt(prepared, { ...ask, watch: measured?.moments.watch }, progress);
  if (doubt.died) io.note('A thread of the draws died, perhaps for want of memory; the rest was drawn without threads.\n');
  result = withDoubt(result, doubt.plan, doubt.rows);
  return measured === undefined ? result : withMeasured(result, measured, doubt);
}

/** Whose run a log is, and how its clock lies on the run's; throws InputFault where that cannot be told. */
function measuredPlan(prepared: PreparedScenario, result: RunResult, name: string | undefined): MeasuredPlan | undefined {
  try {
    return planMeasuredOf(prepared, result, name);
  } catch (error) {
    if (error instanceof RangeError) throw new InputFault(error.message);
    throw error;
  }
}

/** What moved since an earlier run, a line each. */
function changes(before: Headline, now: Headline, since: string): string {
  const { sentences, moves } = movedBetween(before, now);
  const same = before.hash === now.hash ? ', of the same scenario' : '';
  if (sentences.length + moves.length === 0) return `Since ${since}${same}: no headline number moved.`;
  return [
    `Since ${since}${same}:`,
    ...sentences.map((sentence) => `  ${sentence}`),
    ...moves.map(({ candidate, words, from, to }) => `  ${candidate}, ${words}: ${from} → ${to}`),
  ].join('\n');
}

/** The report first; then what had to be assumed. */
const nextAfterRun = (path: string, { html }: RunOptions): string =>
  html === undefined
    ? `npx shaftwork run ${typed(path)} --html report.html draws it; npx shaftwork check ${typed(path)} lists what was assumed.`
    : `npx shaftwork check ${typed(path)} lists what was assumed in place of what was not given.`;
