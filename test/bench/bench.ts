/** Times a steady point, the reference case beside its straightforward version, and the demo; `--json` prints rows. Timings never fail a test. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { DriveSystem } from '../../packages/sim-core/src/drive/drive-system.js';
import { createKernel } from '../../packages/sim-core/src/kernel/kernel.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import { realise } from '../../packages/sim-core/src/provenance/realise.js';
import { ZERO_CELSIUS } from '../../packages/sim-core/src/quantities/index.js';
import { simulate } from '../../packages/sim-core/src/studies/simulate.js';
// @ts-expect-error plain JavaScript, kept as it was given
import { simulate as straightforward } from './reference/straightforward.mjs';
import { boat, candidates, referenceSystem, scenario } from './reference-system.js';

const { Solver } = createRequire(import.meta.url)('odex');

interface Row {
  name: string;
  median: number;
  unit: string;
  ratioToStraightforward?: number;
  ratioToQuadratic?: number;
  ratioToShort?: number;
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

/** Relative tolerance of one of many. */
const MANY = 2e-4;
const ratioOf = ({ ratioToStraightforward, ratioToQuadratic, ratioToShort }: Row): string =>
  ratioToStraightforward !== undefined
    ? `  ${ratioToStraightforward.toFixed(1)} × faster`
    : ratioToQuadratic !== undefined
      ? `  ${ratioToQuadratic.toFixed(2)} × the quadratic one`
      : ratioToShort !== undefined
        ? `  ${ratioToShort.toFixed(2)} × the reference case`
        : '';
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
  ['dormand-prince', MANY],
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
/** Median time of a steady point [µs]: prebuilt, warm, throttle and vehicle speed moving a little. */
function steadyPoint(system: DriveSystem): number {
  kernel.load(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  const steps = Array.from({ length: 10 }, (_, k) => ({
    duration: 1,
    hold: 'throttle' as const,
    value: { from: 0.7 + 0.001 * k, to: 0.7 },
  }));
  const loops = 20_000;
  const time = median(() => {
    for (let k = 0; k < loops; k++) {
      y[kernel.dimension - 1] = 3 + 0.002 * (k % 7);
      kernel.begin(steps[k % 10], 0, false);
      kernel.solve(0, y);
    }
  }, 15);
  return (time / loops) * 1000;
}
const coefficients = steadyPoint(ref.system);
const table = steadyPoint(boat);
rows.push({ name: 'steady point, quadratic coefficients', median: coefficients, unit: 'µs' });
rows.push({ name: 'steady point, tabulated screw', median: table, unit: 'µs', ratioToQuadratic: table / coefficients });
for (const [method, record] of [
  ['odex', true],
  ['dormand-prince', false],
] as const) {
  const options = { method, relative: record ? 1e-6 : MANY, record };
  const time = median(() => simulate(boat, scenario.profile, options), 9);
  rows.push({
    name: `survey boat, 784 s, ${method}${record ? ', recorded' : ''}`,
    median: time,
    unit: 'ms',
    evaluations: simulate(boat, scenario.profile, options).evaluations,
  });
}
const many = { method: 'dormand-prince', relative: MANY, record: false } as const;
const timed = (work: () => unknown): number => {
  const from = performance.now();
  work();
  return performance.now() - from;
};
rows.push({
  name: '2000 reference profiles, one thread',
  median: timed(() => {
    for (let k = 0; k < 2000; k++) simulate(ref.system, ref.profile, many);
  }),
  unit: 'ms',
});
const random = seededRandom(1, 1);
rows.push({
  name: '2000 candidates realised, 50 points each',
  median: timed(() => {
    for (let k = 0; k < 2000; k++) {
      kernel.load(realise(candidates[k % candidates.length].data, () => random.fraction() - 0.5));
      const y = new Float64Array(kernel.dimension);
      kernel.initial(y);
      y[kernel.dimension - 1] = 3;
      for (let p = 0; p < 50; p++) {
        const duty = 0.3 + 0.014 * p;
        kernel.begin({ duration: 1, hold: 'throttle', value: { from: duty, to: duty } }, 0, false);
        kernel.solve(0, y);
      }
    }
  }),
  unit: 'ms',
});
const stretched = ref.profile.map((step) => ({ ...step, duration: 10 * step.duration }));
const short = median(() => simulate(ref.system, ref.profile, many), 21);
const long = median(() => simulate(ref.system, stretched, many), 21);
rows.push({ name: 'reference case, segments ten times as long', median: long, unit: 'ms', ratioToShort: long / short });
const twice = median(() => simulate(ref.system, [...ref.profile, ...ref.profile], many), 21);
rows.push({ name: 'reference case, driven twice', median: twice, unit: 'ms', ratioToShort: twice / short });
if (process.argv.includes('--json')) process.stdout.write(`${JSON.stringify(rows, null, 2)}\n`);
else
  for (const row of rows)
    process.stdout.write(
      `${row.name.padEnd(45)} ${row.median.toFixed(3).padStart(9)} ${row.unit}${ratioOf(row)}${row.error === undefined ? '' : `  error ${row.error.toExponential(1)} K`}\n`,
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
