/** Times a steady point, the reference case beside its straightforward version, and the demo; `--json` prints rows. Timings never fail a test. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createKernel } from '../../packages/sim-core/src/kernel/kernel.js';
import { ZERO_CELSIUS } from '../../packages/sim-core/src/quantities/index.js';
import { simulate } from '../../packages/sim-core/src/studies/simulate.js';
// @ts-expect-error plain JavaScript, kept as it was given
import { simulate as straightforward } from './reference/straightforward.mjs';
import { boat, referenceSystem, scenario } from './reference-system.js';

const { Solver } = createRequire(import.meta.url)('odex');

interface Row {
  name: string;
  median: number;
  unit: string;
  ratioToStraightforward?: number;
  evaluations?: number;
  /** Largest error of a temperature [K] and of charge [1] at the end, against a run at 1e-11. */
  error?: number;
  chargeError?: number;
}

const median = (work: () => unknown, repeats: number): number => {
  for (let k = 0; k < Math.min(repeats, 10); k++) work();
  const times: number[] = [];
  for (let k = 0; k < repeats; k++) {
    const from = performance.now();
    work();
    times.push(performance.now() - from);
  }
  return times.sort((a, b) => a - b)[repeats >> 1];
};

const rows: Row[] = [];
const slow = median(() => straightforward(Solver), 21);
rows.push({
  name: 'reference case, straightforward version',
  median: slow,
  unit: 'ms',
  ratioToStraightforward: 1,
  evaluations: straightforward(Solver).evaluations,
});
const ref = referenceSystem();
const tight = simulate(ref.system, ref.profile, { method: 'dormand-prince', relative: 1e-11, record: false });
for (const [method, relative] of [
  ['odex', 1e-4],
  ['dormand-prince', 2e-4],
] as const) {
  const options = { method, relative, record: false } as const;
  const run = simulate(ref.system, ref.profile, options);
  const time = median(() => simulate(ref.system, ref.profile, options), 21);
  rows.push({
    name: `reference case, ${method}`,
    median: time,
    unit: 'ms',
    ratioToStraightforward: slow / time,
    evaluations: run.evaluations,
    error: Math.max(...[0, 1, 2].map((k) => Math.abs(run.state[k] - tight.state[k]))),
    chargeError: Math.abs(run.state[run.state.length - 3] - tight.state[tight.state.length - 3]),
  });
}
const kernel = createKernel();
kernel.load(boat);
const y = new Float64Array(kernel.dimension);
kernel.initial(y);
y[kernel.dimension - 1] = 3;
let turn = 0;
const points = median(() => {
  for (let k = 0; k < 20_000; k++) {
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.7 + 0.001 * (turn++ % 10), to: 0.7 } }, 0, false);
    kernel.solve(0, y);
  }
}, 15);
rows.push({ name: 'steady point, warm, tabulated screw', median: (points / 20_000) * 1000, unit: 'µs' });
for (const [method, record] of [
  ['odex', true],
  ['dormand-prince', false],
] as const) {
  const options = { method, relative: record ? 1e-6 : 1e-4, record };
  const time = median(() => simulate(boat, scenario.profile, options), 9);
  rows.push({
    name: `survey boat, 784 s, ${method}${record ? ', recorded' : ''}`,
    median: time,
    unit: 'ms',
    evaluations: simulate(boat, scenario.profile, options).evaluations,
  });
}
if (process.argv.includes('--json')) process.stdout.write(`${JSON.stringify(rows, null, 2)}\n`);
else
  for (const row of rows)
    process.stdout.write(
      `${row.name.padEnd(45)} ${row.median.toFixed(3).padStart(9)} ${row.unit}${row.ratioToStraightforward ? `  ${row.ratioToStraightforward.toFixed(1)} ×` : ''}${row.error === undefined ? '' : `  error ${row.error.toExponential(1)} K`}\n`,
    );
const published = readFileSync(new URL('./reference/reference-solution.txt', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .at(-1)!
  .split(' ')
  .map(Number);
process.stderr.write(
  `reference case at its end, this model less the reference solution: winding ${(tight.state[0] - ZERO_CELSIUS - published[1]).toFixed(3)} K, can ${(tight.state[1] - ZERO_CELSIUS - published[2]).toFixed(3)} K, charge ${(tight.state[tight.state.length - 3] - published[4]).toExponential(1)}\n`,
);
