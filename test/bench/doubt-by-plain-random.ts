/**
 * The bands of a demo by the usual quasi-random samples against many plain random ones, and what doubling the samples does.
 * Run: node_modules/.bin/tsx test/bench/doubt-by-plain-random.ts [demo] [plain samples]. Takes minutes.
 */
import { readFileSync } from 'node:fs';
import { planDoubt } from '../../packages/sim-core/src/questions/doubt/plan.js';
import { rowIndex, rowLength, workDoubt } from '../../packages/sim-core/src/questions/doubt/sample.js';
import { prepareScenario } from '../../packages/sim-core/src/run-scenario.js';
import { quantile } from '../quantile.js';

const demo = process.argv[2] ?? 'survey-boat';
const many = Number(process.argv[3] ?? 20_000);
const text = readFileSync(new URL(`../../scenarios/${demo}.yaml`, import.meta.url), 'utf8');
const preparation = prepareScenario(new Map([[`${demo}.yaml`, text]]), `${demo}.yaml`);
if (preparation.kind !== 'ready') throw new Error(`${demo} is not ready, or has part files: choose another demo`);
const { scenario, candidates } = preparation.prepared;

function peaks(samples: number, seed: number, quasiRandom: boolean): number[][] {
  const plan = planDoubt(candidates, scenario.profile, scenario.objective, { samples, seed, quasiRandom });
  const found: number[][] = candidates.map(() => []);
  // in shares, so that the curves of all samples need not be held at once
  for (let from = 0; from < samples; from += 500) {
    const to = Math.min(samples, from + 500);
    const rows = workDoubt(plan, candidates, { from, to });
    for (let i = 0; i < to - from; i++) {
      candidates.forEach((_, c) => {
        found[c].push(rows[(i * candidates.length + c) * rowLength(plan) + rowIndex('windingTemperature')]);
      });
    }
  }
  return found;
}
const kelvin = (value: number): string => value.toFixed(1).padStart(8);
const line = (words: string, found: number[][]): void => {
  const wins = found.length > 1 ? found[0].filter((peak, i) => peak > found[1][i]).length / found[0].length : Number.NaN;
  const bands = found.map((values) => [0.05, 0.5, 0.95].map((p) => kelvin(quantile(values, p))).join(''));
  process.stdout.write(`${words.padEnd(24)}${bands.join('  |')}  | second cooler than first ${(100 * wins).toFixed(1)} %\n`);
};

process.stdout.write(`${demo}: peak winding [K] at 5, 50, 95 %, of ${candidates.map(({ name }) => name).join(', ')}\n`);
for (const samples of [64, 128, 256, 512, 1024]) line(`quasi-random ${samples}`, peaks(samples, 1, true));
line(`plain random ${many}`, peaks(many, 2, false));
