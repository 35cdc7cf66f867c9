/**
 * How heat that was measured is foretold from size alone: rows for `npm run measured -- <folder>`, and, identified on one run, how the others follow.
 *
 * Kennesaw State University UAS bench: `heat-runs.csv`, four runs of one large outrunner, and `heat-energy-runs.csv`, thirteen of another (81 × 37 mm, 555 g: from
 * memory). The tables stay where they are.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inverseNormal } from '../../packages/sim-core/src/numerics/inverse-normal.js';
import { mean, quantile } from '../../packages/sim-core/src/numerics/quantiles.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import { fitHeat, rms } from './fit-heat.js';
import { cutOf, type MeasuredRun, type Model, modelOf, readRuns } from './heat-run.js';

export interface MeasuredRow {
  readonly table: string;
  readonly quantity: string;
  readonly n: number;
  readonly rms: number;
  readonly bias: number;
  /** Share of what was measured that lies between the 5 and 95 % points foretold; undefined where nothing was foretold. */
  readonly inBand?: number;
}

const KNOWN_SIZE = { mass: 0.555, diameter: 0.081, length: 0.037 };
const DRAWS = 100;

/** What a run is judged by; temperatures over the air of that moment. */
export const FIGURES = {
  'at the cut, K': (run: MeasuredRun, reading: ArrayLike<number>) => reading[cutOf(run) - 1] - run.air[cutOf(run) - 1],
  'highest after it, K': (run: MeasuredRun, reading: ArrayLike<number>) => reading[topOf(run, reading)] - run.air[topOf(run, reading)],
  'rise after it, K': (run: MeasuredRun, reading: ArrayLike<number>) => reading[topOf(run, reading)] - reading[cutOf(run) - 1],
  'at the end, K': (run: MeasuredRun, reading: ArrayLike<number>) => reading[reading.length - 1] - run.air[reading.length - 1],
  'settling, s': (run: MeasuredRun, reading: ArrayLike<number>) => {
    const top = topOf(run, reading);
    const last = reading.length - 1;
    const falls = Math.log((reading[top] - run.air[top]) / (reading[last] - run.air[last]));
    return falls > 0 ? ((last - top) * run.spacing) / falls : Number.POSITIVE_INFINITY;
  },
} as const;

function topOf(run: MeasuredRun, reading: ArrayLike<number>): number {
  let top = cutOf(run);
  for (let k = top; k < reading.length; k++) if (reading[k] > reading[top]) top = k;
  return top;
}

/** Foretold by draws within the stated tolerances, against what was read. */
function judged(table: string, runs: ReadonlyMap<string, MeasuredRun>, modelled: (run: MeasuredRun) => Model): MeasuredRow[] {
  const random = seededRandom(1, 1);
  const cases = [...runs.values()].map((run) => {
    const model = modelled(run);
    const draws = Array.from({ length: DRAWS }, () => model.predict(model.unknowns.map(() => inverseNormal(random.fraction()))));
    return { run, nominal: model.predict([]), draws };
  });
  return Object.entries(FIGURES).flatMap(([quantity, figure]) => {
    const told = cases.flatMap(({ run, nominal, draws }) => {
      // a run that reads highest at its very end settles nowhere
      const measured = figure(run, run.probe);
      if (!Number.isFinite(measured)) return [];
      const values = draws.map((draw) => figure(run, draw)).filter((value) => !Number.isNaN(value));
      const expected = figure(run, nominal);
      const inside = measured >= quantile(values, 0.05) && measured <= quantile(values, 0.95);
      return [{ miss: expected - measured, inside }];
    });
    // what nominal data never let settle has a place in the band and no miss
    const missed = told.map(({ miss }) => miss).filter(Number.isFinite);
    return [
      {
        table,
        quantity,
        n: told.length,
        rms: Math.sqrt(mean(missed.map((miss) => miss ** 2))),
        bias: mean(missed),
        inBand: mean(told.map(({ inside }) => Number(inside))),
      },
    ];
  });
}

/** Unknowns moved by one run, the others driven with them. */
function identified(runs: ReadonlyMap<string, MeasuredRun>, on: string): MeasuredRow[] {
  const run = runs.get(on)!;
  const model = modelOf(run);
  const random = seededRandom(1, 1);
  const { deviates } = fitHeat(
    run,
    model,
    Array.from({ length: 60 }, () => model.unknowns.map(() => inverseNormal(random.fraction()))),
    20,
  );
  return [...runs].map(([name, each]) => {
    const reading = modelOf(each).predict(deviates);
    const bias = reading.reduce((sum, value, k) => sum + value - each.probe[k], 0) / reading.length;
    return {
      table: 'heat-runs',
      quantity: `${name}, all of it, identified on ${on}, K`,
      n: reading.length,
      rms: rms(reading, each.probe, 0, reading.length),
      bias,
    };
  });
}

/** Step and ends of the search over one deviate [1], error of a top [1], and what is called near [1]. */
const STEP = 0.1;
const LOWEST = -3;
const HIGHEST = 2;
const TOP_ERROR = 0.1;
const NEAR = 0.15;

/** One number, the air through the motor, moved as little as all tops ask for; how far each top's excess is then from what was read. */
function byEnergy(runs: ReadonlyMap<string, MeasuredRun>): MeasuredRow {
  const cases = [...runs.values()].map((run) => ({ run, model: modelOf(run, KNOWN_SIZE) }));
  const top = FIGURES['highest after it, K'];
  const missed = (z: number): number[] =>
    cases.map(({ run, model }) => {
      const reading = model.predict(model.unknowns.map(({ key }) => (key === 'rule:through-flow' ? z : 0)));
      return top(run, reading) / top(run, run.probe) - 1;
    });
  let best = { z: 0, misses: missed(0), misfit: Number.POSITIVE_INFINITY };
  for (let z = LOWEST; z <= HIGHEST; z += STEP) {
    const misses = missed(z);
    const misfit = z ** 2 + misses.reduce((sum, miss) => sum + (Math.log(1 + miss) / TOP_ERROR) ** 2, 0);
    if (misfit < best.misfit) best = { z, misses, misfit };
  }
  const near = best.misses.filter((miss) => Math.abs(miss) < NEAR).length;
  return {
    table: 'heat-energy-runs',
    quantity: `highest after it, %, air through the motor identified on all (${best.z.toFixed(1)} standard deviations); ${near} within ${100 * NEAR} %`,
    n: best.misses.length,
    rms: 100 * Math.sqrt(mean(best.misses.map((miss) => miss ** 2))),
    bias: 100 * mean(best.misses),
  };
}

export function heatRows(folder: string): MeasuredRow[] {
  const read = (name: string) => readRuns(readFileSync(join(folder, name), 'utf8'));
  const runs = read('heat-runs.csv');
  const energy = read('heat-energy-runs.csv');
  return [
    ...judged('heat-runs', runs, (run) => modelOf(run)),
    ...judged('heat-energy-runs', energy, (run) => modelOf(run, KNOWN_SIZE)),
    byEnergy(energy),
    ...identified(runs, 'A2'),
  ];
}
