/** `run`: all candidates over the profile. */
import { resolve } from 'node:path';
import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { formatClock, formatQuantity } from '@shaftwork/sim-core/quantities';
import { runScenario, withDoubt } from '@shaftwork/sim-core/run-scenario';
import { EXIT, InputFault } from '../exit.js';
import type { Io } from '../io.js';
import { sampleDoubt } from '../pool/sample-doubt.js';
import { problemJson, problemText } from '../render/problems.js';
import { createProgress } from '../render/progress.js';
import { resultJson } from '../render/result-json.js';
import { table, wrap } from '../render/table.js';
import { prepare } from './prepare.js';

export interface RunOptions {
  readonly html?: string;
  readonly json?: boolean;
  readonly date?: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly strict?: boolean;
  readonly samples?: string;
  readonly seed?: string;
}

/** Few enough that a run stays quick, enough to tell likely from unlikely; every chance is printed with its sampling error. */
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

export async function run(io: Io, path: string, options: RunOptions): Promise<number> {
  const prepared = prepare(io, path);
  if (!prepared.ok) {
    if (options.json) io.out(problemJson(prepared.problems));
    else io.err(problemText(prepared.problems, path));
    return EXIT.wrongInput;
  }
  const ask = doubtAsk(options);
  const nominal = runScenario(prepared.prepared);
  let result = nominal;
  if (ask.samples > 0) {
    const progress = createProgress('how sure', process.stderr, options.quiet);
    const { plan, rows } = await sampleDoubt(prepared.prepared, ask, progress);
    result = withDoubt(nominal, plan, rows);
  }
  if (options.html !== undefined) {
    const { renderReport } = await import('@shaftwork/report');
    io.write(options.html, await renderReport(result, options.date === undefined ? {} : { date: options.date }), options.force === true);
  }
  if (options.json) io.out(resultJson(result));
  else if (!options.quiet) io.out(summary(result));
  if (options.html !== undefined && options.html !== '-') io.err(`Report: ${resolve(options.html)}\n`);
  if (!options.json && !options.quiet)
    io.err('Next: copy the scenario, put your own parts in, and run: npx shaftwork check my-scenario.yaml\n');
  const feasible = result.candidates.some((candidate) => candidate.feasible);
  return !feasible || (options.strict && result.findings.length > 0) ? EXIT.notFeasible : EXIT.done;
}

function summary(result: RunResult): string {
  const ranked = result.ranking.map((name) => result.candidates.find((candidate) => candidate.name === name)!);
  const row = (words: string, figure: (candidate: CandidateResult) => string): string[] => [words, ...ranked.map(figure)];
  const degrees = (value: number): string => formatQuantity(value, 'temperature', { unit: '°C', decimals: 0 });
  const rows = [
    ['', ...ranked.map((candidate, k) => `${k + 1} ${candidate.name}`)],
    row('meets every limit', (c) => (c.feasible ? 'yes' : 'no')),
    row('peak winding', (c) => degrees(c.headline.peakWindingTemperature.nominal)),
    row('peak can', (c) => degrees(c.headline.peakCanTemperature.nominal)),
    row('peak controller', (c) => degrees(c.headline.peakControllerTemperature.nominal)),
    row('peak motor current', (c) => formatQuantity(c.headline.peakMotorCurrent.nominal, 'current', { unit: 'A', decimals: 1 })),
    row('peak battery current', (c) => formatQuantity(c.headline.peakBatteryCurrent.nominal, 'current', { unit: 'A', decimals: 1 })),
    row('top speed', (c) => formatQuantity(c.headline.topSpeed.nominal, 'speed', { unit: 'm/s', decimals: 2 })),
    row('energy used', (c) => formatQuantity(c.headline.energy.nominal, 'energy', { unit: 'W·h', decimals: 1 })),
    row('charge left', (c) => formatQuantity(c.headline.chargeLeft.nominal, 'fraction', { unit: '%', decimals: 0 })),
    row('time to cut-off', (c) => (c.headline.timeToCutoff === undefined ? '–' : formatClock(c.headline.timeToCutoff.nominal))),
    row('useful of energy', (c) => formatQuantity(c.headline.driveEfficiency.nominal, 'fraction', { unit: '%', decimals: 0 })),
  ];
  return [
    result.scenario.title,
    '',
    wrap(result.verdict.join(' ')),
    '',
    table(rows),
    wrap('Estimates, not a clearance: verify with a meter, a thermometer and short runs, propeller off for set-up.'),
    '',
  ].join('\n');
}
