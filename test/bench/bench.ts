/** Times a steady point, the reference case beside its straightforward version, and the demo; `--json` prints rows. Timings never fail a test. */
import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { DriveSystem } from '../../packages/sim-core/src/drive/drive-system.js';
import { createKernel } from '../../packages/sim-core/src/kernel/kernel.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import { familyGeometry } from '../../packages/sim-core/src/parts/propeller/blade-families.js';
import { rotorFromGeometry } from '../../packages/sim-core/src/parts/propeller/blade-geometry.js';
import { bladeElementTable } from '../../packages/sim-core/src/parts/propeller/blade-table.js';
import { realiser } from '../../packages/sim-core/src/provenance/realise.js';
import { ZERO_CELSIUS } from '../../packages/sim-core/src/quantities/index.js';
import { rate, STANDARD_CHARGE, STANDARD_CYCLE } from '../../packages/sim-core/src/questions/rate/rate.js';
import { simulate } from '../../packages/sim-core/src/questions/simulate/simulate.js';
import { microKernel } from './micro-kernel.js';
// @ts-expect-error plain JavaScript, kept as it was given
import { simulate as straightforward } from './reference/straightforward.mjs';
import { boat, candidates, referenceSystem, scenario } from './reference-system.js';

const { Solver } = createRequire(import.meta.url)('odex');

interface Row {
  name: string;
  /** Least time of several turns. */
  time: number;
  unit: string;
  ratioToStraightforward?: number;
  ratioToQuadratic?: number;
  ratioToShort?: number;
  ratioToInlined?: number;
  evaluations?: number;
  /** Largest error of a temperature [K] and of charge [1] at the end, against a run at 1e-11. */
  error?: number;
  chargeError?: number;
  ratioToQuasiSteady?: number;
  /** Most memory that its process had resident, the text of the log included [MB]. */
  memory?: number;
}

/**
 * Least time of each work [ms], in turns: others share the machine, and what disturbs one turn must not count for one work alone.
 * Medians of each work by itself moved by half from run to run.
 */
const leastOf = (turns: number, ...works: (() => unknown)[]): number[] => {
  const least = works.map(() => Number.POSITIVE_INFINITY);
  for (let turn = -Math.min(10, turns); turn < turns; turn++) {
    works.forEach((work, k) => {
      const from = performance.now();
      work();
      if (turn >= 0) least[k] = Math.min(least[k], performance.now() - from);
    });
  }
  return least;
};

const ratioOf = ({ ratioToStraightforward, ratioToQuadratic, ratioToShort, ratioToQuasiSteady, ratioToInlined, memory }: Row): string => {
  if (memory !== undefined) return `  ${memory.toFixed(0)} MB at most`;
  if (ratioToQuasiSteady !== undefined) return `  ${ratioToQuasiSteady.toFixed(1)} × the quasi-steady run`;
  return ratioToStraightforward !== undefined
    ? `  ${ratioToStraightforward.toFixed(1)} × faster`
    : ratioToQuadratic !== undefined
      ? `  ${ratioToQuadratic.toFixed(2)} × the quadratic one`
      : ratioToShort !== undefined
        ? `  ${ratioToShort.toFixed(2)} × the reference case`
        : ratioToInlined !== undefined
          ? `  ${ratioToInlined.toFixed(2)} × the inlined one`
          : '';
};
const rows: Row[] = [];
const ref = referenceSystem();
/** How one of many is integrated. */
const many = { method: 'dormand-prince', relative: 2e-4, record: false } as const;
const extrapolated = { method: 'odex', relative: 1e-4, record: false } as const;
const stretched = ref.profile.map((step) => ({ ...step, duration: 10 * step.duration }));
const tight = simulate(ref.system, ref.profile, { method: 'dormand-prince', relative: 1e-11, record: false });
const [slow, odex, stepper, long, twice] = leastOf(
  40,
  () => straightforward(Solver),
  () => simulate(ref.system, ref.profile, extrapolated),
  () => simulate(ref.system, ref.profile, many),
  () => simulate(ref.system, stretched, many),
  () => simulate(ref.system, [...ref.profile, ...ref.profile], many),
);
rows.push({
  name: 'reference case, straightforward version',
  time: slow,
  unit: 'ms',
  ratioToStraightforward: 1,
  evaluations: straightforward(Solver).evaluations,
});
for (const [time, options] of [
  [odex, extrapolated],
  [stepper, many],
] as const) {
  const run = simulate(ref.system, ref.profile, options);
  rows.push({
    name: `reference case, ${options.method}`,
    time,
    unit: 'ms',
    ratioToStraightforward: slow / time,
    evaluations: run.evaluations,
    error: Math.max(...[0, 1, 2].map((k) => Math.abs(run.state[k] - tight.state[k]))),
    chargeError: Math.abs(run.state[run.kernel.at.charge] - tight.state[tight.kernel.at.charge]),
  });
}
rows.push({ name: 'reference case, segments ten times as long', time: long, unit: 'ms', ratioToShort: long / stepper });
rows.push({ name: 'reference case, driven twice', time: twice, unit: 'ms', ratioToShort: twice / stepper });
const kernel = createKernel(ref.system);
/** Twenty thousand steady points: prebuilt, warm, throttle and vehicle speed moving a little. */
const POINTS = 20_000;
const pointsOf = (system: DriveSystem) => (): void => {
  kernel.load(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  const steps = Array.from({ length: 10 }, (_, k) => ({
    duration: 1,
    hold: 'throttle' as const,
    value: { from: 0.7 + 0.001 * k, to: 0.7 },
  }));
  for (let k = 0; k < POINTS; k++) {
    y[kernel.at.speed] = 3 + 0.002 * (k % 7);
    kernel.begin(steps[k % 10], 0, false);
    kernel.solve(0, y);
  }
};
const micro = microKernel(ref.system, ref.coefficients);
const inlined = (): void => {
  for (let k = 0; k < POINTS; k++) micro.solve(0.7 + 0.001 * (k % 10), 3 + 0.002 * (k % 7));
};
inlined();
const last = POINTS - 1;
pointsOf(ref.system)();
if (Math.abs(micro.solve(0.7 + 0.001 * (last % 10), 3 + 0.002 * (last % 7)) / kernel.point.speed - 1) > 1e-9)
  throw new Error('the micro-kernel solves another point');
const [coefficients, table, bare] = leastOf(15, pointsOf(ref.system), pointsOf(boat), inlined).map((time) => (time / POINTS) * 1000);
rows.push({ name: 'steady point, laws inlined by hand', time: bare, unit: 'µs' });
rows.push({ name: 'steady point, quadratic coefficients', time: coefficients, unit: 'µs', ratioToInlined: coefficients / bare });
rows.push({ name: 'steady point, tabulated screw', time: table, unit: 'µs', ratioToQuadratic: table / coefficients });
const shown = { method: 'odex', relative: 1e-6 } as const;
const [recorded, quick] = leastOf(
  15,
  () => simulate(boat, scenario.profile, shown),
  () => simulate(boat, scenario.profile, many),
);
for (const [name, time, options] of [
  ['survey boat, 784 s, odex, recorded', recorded, shown],
  ['survey boat, 784 s, dormand-prince', quick, many],
] as const)
  rows.push({ name, time, unit: 'ms', evaluations: simulate(boat, scenario.profile, options).evaluations });
/** Two threads that each drive `times` profiles, once both are ready [ms]. */
async function onTwoThreads(times: number): Promise<number> {
  const workers = [0, 1].map(() => new Worker(new URL('./profiles-worker.mjs', import.meta.url)));
  const answers = () => Promise.all(workers.map((worker) => once(worker, 'message')));
  await answers();
  const from = performance.now();
  const done = answers();
  for (const worker of workers) worker.postMessage(times);
  await done;
  const time = performance.now() - from;
  await Promise.all(workers.map((worker) => worker.terminate()));
  return time;
}
const [profiles] = leastOf(3, () => {
  for (let k = 0; k < 2000; k++) simulate(ref.system, ref.profile, many);
});
const bursts = Array.from({ length: 12 }, (_, k) => {
  const duty = k % 2 === 0 ? 1 : 0;
  return { duration: duty === 1 ? 25 : 210, hold: 'throttle' as const, value: { from: duty, to: duty } };
});
const [follows, turns] = leastOf(
  10,
  () => simulate(boat, bursts, many),
  () => simulate({ ...boat, shaftSpeed: 'with-inertia' }, bursts, many),
);
rows.push({ name: 'six bursts of the boat, with shaft inertia', time: turns, unit: 'ms', ratioToQuasiSteady: turns / follows });
const reader = spawnSync(process.execPath, [...process.execArgv, fileURLToPath(new URL('./read-log.ts', import.meta.url))], {
  encoding: 'utf8',
});
rows.push({ name: 'log of a million rows to its profile', unit: 'ms', ...(JSON.parse(reader.stdout) as { time: number; memory: number }) });
const [rating] = leastOf(12, () => rate(boat, { charge: STANDARD_CHARGE, cycle: STANDARD_CYCLE }));
const [screw] = leastOf(40, () =>
  bladeElementTable(rotorFromGeometry(familyGeometry('thin', { diameter: 0.254, pitch: 0.127, blades: 2 }))),
);
rows.push({ name: 'full rating of one motor of the boat', time: rating, unit: 'ms' });
rows.push({ name: 'propeller table from diameter × pitch', time: screw, unit: 'ms' });
rows.push({ name: '2000 reference profiles, one thread', time: profiles, unit: 'ms' });
rows.push({ name: '2000 reference profiles, two threads', time: await onTwoThreads(1000), unit: 'ms' });
const random = seededRandom(1, 1);
const systemsOf = candidates.map(({ data }) => realiser(data));
const [sweep] = leastOf(5, () => {
  for (let k = 0; k < 2000; k++) {
    kernel.load(systemsOf[k % systemsOf.length](() => random.fraction() - 0.5));
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    y[kernel.at.speed] = 3;
    for (let p = 0; p < 50; p++) {
      const duty = 0.3 + 0.014 * p;
      kernel.begin({ duration: 1, hold: 'throttle', value: { from: duty, to: duty } }, 0, false);
      kernel.solve(0, y);
    }
  }
});
rows.push({ name: '2000 candidates realised, 50 points each', time: sweep, unit: 'ms' });
if (process.argv.includes('--json')) process.stdout.write(`${JSON.stringify(rows, null, 2)}\n`);
else
  for (const row of rows)
    process.stdout.write(
      `${row.name.padEnd(45)} ${row.time.toFixed(3).padStart(9)} ${row.unit}${ratioOf(row)}${row.error === undefined ? '' : `  error ${row.error.toExponential(1)} K`}\n`,
    );
const published = readFileSync(new URL('./reference/reference-solution.txt', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .at(-1)!
  .split(' ')
  .map(Number);
process.stderr.write(
  `reference case at its end, this model less the reference solution: winding ${(tight.state[tight.kernel.at.winding] - ZERO_CELSIUS - published[1]).toFixed(3)} K, can ${(tight.state[tight.kernel.at.can] - ZERO_CELSIUS - published[2]).toFixed(3)} K, charge ${(tight.state[tight.kernel.at.charge] - published[4]).toExponential(1)}\n`,
);
