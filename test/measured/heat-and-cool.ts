/**
 * `npm run measured -- heat-and-cool <folder>`: how the runs in `heat-runs.csv` and `heat-energy-runs.csv` of the folder are foretold, as a table in Markdown.
 * `npm run measured -- heat-and-cool <table>`: fits and predicts one measured heat-and-cool run. Tables stay where they are.
 */
import { readFileSync, statSync } from 'node:fs';
import { inverseNormal } from '../../packages/sim-core/src/numerics/inverse-normal.js';
import { quantile } from '../../packages/sim-core/src/numerics/quantiles.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import { ZERO_CELSIUS } from '../../packages/sim-core/src/quantities/index.js';
import { fitHeat, rms } from './fit-heat.js';
import { heatRows } from './heat.js';
import { cutOf, modelOf, readRun, sizeOf } from './heat-run.js';

const [path] = process.argv.slice(2);
if (path === undefined) {
  process.stderr.write(
    'Give a folder with heat-runs.csv and heat-energy-runs.csv, or the table of a run: columns t_s, supply_V, supply_A, rpm, torque_Nm, thrust_N, probe_degC, ambient_degC.\n',
  );
  process.exit(2);
}
if (statSync(path).isDirectory()) {
  const percent = (share: number | undefined): string => (share === undefined ? '' : `${(100 * share).toFixed(0)} %`);
  process.stdout.write('| table | quantity | n | RMS | bias | in the 5–95 % band |\n| --- | --- | --- | --- | --- | --- |\n');
  for (const { table, quantity, n, rms: off, bias, inBand } of heatRows(path))
    process.stdout.write(
      `| ${table} | ${quantity} | ${n} | ${Number(off.toPrecision(2))} | ${Number(bias.toPrecision(2))} | ${percent(inBand)} |\n`,
    );
  process.exit(0);
}
const run = readRun(readFileSync(path, 'utf8'));
const model = modelOf(run);
const cut = cutOf(run);
const last = run.probe.length;
const say = (line: string): void => void process.stdout.write(`${line}\n`);

/** Peak of the run, reading at the cut, rise after it and when, reading at the end. */
function told(reading: ArrayLike<number>): string {
  const celsius = (k: number): string => `${(reading[k] - ZERO_CELSIUS).toFixed(1)} °C`;
  let top = cut;
  for (let k = cut; k < last; k++) if (reading[k] > reading[top]) top = k;
  return `at the cut ${celsius(cut - 1)}, then ${(reading[top] - reading[cut - 1]).toFixed(1)} K more after ${((top - cut) * run.spacing).toFixed(0)} s, at the end ${celsius(last - 1)}`;
}
const { mass, diameter, length } = sizeOf(run);
say(
  `a motor of ${(1000 * mass).toFixed(0)} g, ${(1000 * diameter).toFixed(0)} × ${(1000 * length).toFixed(0)} mm, by its torque; cut after ${(cut * run.spacing).toFixed(0)} s`,
);
say(`measured: ${told(run.probe)}`);
const nominal = model.predict([]);
say(`from size alone: ${told(nominal)}; ${rms(nominal, run.probe, 0, last).toFixed(2)} K RMS`);

const random = seededRandom(1, 1);
const normal = (): number => inverseNormal(random.fraction());
const deviatesDrawn = Array.from({ length: 400 }, () => model.unknowns.map(normal));
const draws = deviatesDrawn.map((each) => model.predict(each));
const share = (of: (reading: ArrayLike<number>) => number): string => {
  const values = draws.map(of);
  const measured = of(run.probe);
  const below = values.filter((value) => value < measured).length / values.length;
  return `${quantile(values, 0.05).toFixed(1)} to ${quantile(values, 0.95).toFixed(1)}; measured ${measured.toFixed(1)}, above ${(100 * below).toFixed(0)} % of them`;
};
const peak = (reading: ArrayLike<number>): number => Math.max(...Array.from({ length: last - cut }, (_, k) => reading[cut + k]));
say(`band of 5 to 95 %, reading at the cut: ${share((reading) => reading[cut - 1] - ZERO_CELSIUS)} °C`);
say(`  highest after the cut: ${share((reading) => peak(reading) - ZERO_CELSIUS)} °C`);
say(`  rise after the cut: ${share((reading) => peak(reading) - reading[cut - 1])} K`);
say(`  at the end: ${share((reading) => reading[last - 1] - ZERO_CELSIUS)} °C`);

const { deviates, reading } = fitHeat(run, model, deviatesDrawn);
say(`fitted: ${told(reading)}`);
say(`  ${rms(reading, run.probe, 0, last).toFixed(2)} K RMS over all, ${rms(reading, run.probe, cut, last).toFixed(2)} K after the cut`);
say('moved, in standard deviations of what our rules say:');
const moved = model.unknowns
  .map(({ words }, k) => ({ words, deviate: deviates[k] }))
  .filter(({ deviate }) => Math.abs(deviate) > 0.3)
  .sort((a, b) => Math.abs(b.deviate) - Math.abs(a.deviate));
for (const { words, deviate } of moved) say(`  ${deviate.toFixed(1).padStart(5)}  ${words}`);
