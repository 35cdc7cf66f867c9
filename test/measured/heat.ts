/**
 * How heat that was measured is foretold from size alone: and, identified on one run, how the others follow.
 *
 * Kennesaw State University UAS bench: `heat-runs.csv`, four runs of one large outrunner, and `heat-energy-runs.csv`, thirteen of another (81 × 37 mm, 555 g: from
 * memory). The tables stay where they are.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inverseNormal } from '../../packages/sim-core/src/numerics/inverse-normal.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import { quantile } from '../quantile.js';
import { fitHeat } from './fit-heat.js';
import { cutOf, type MeasuredRun, type Model, modelOf, readRuns } from './heat-run.js';
import { type Compared, type Section, type ValidationRow, validationRow } from './validation.js';

const KNOWN_SIZE = { mass: 0.555, diameter: 0.081, length: 0.037 };
const DRAWS = 100;
const FOUR = 'four runs of one motor';
const THIRTEEN = 'thirteen runs of another';

/** What a run is judged by, and its unit; temperatures over the air of that moment. */
const FIGURES = {
  'at the cut': { unit: 'K', of: (run: MeasuredRun, reading: ArrayLike<number>) => reading[cutOf(run) - 1] - run.air[cutOf(run) - 1] },
  'highest after the cut': { unit: 'K', of: highestAfter },
  'rise after the cut': {
    unit: 'K',
    of: (run: MeasuredRun, reading: ArrayLike<number>) => reading[topOf(run, reading)] - reading[cutOf(run) - 1],
  },
  'at the end': {
    unit: 'K',
    of: (run: MeasuredRun, reading: ArrayLike<number>) => reading[reading.length - 1] - run.air[reading.length - 1],
  },
  'time to settle': {
    unit: 's',
    of: (run: MeasuredRun, reading: ArrayLike<number>) => {
      const top = topOf(run, reading);
      const last = reading.length - 1;
      const falls = Math.log((reading[top] - run.air[top]) / (reading[last] - run.air[last]));
      return falls > 0 ? ((last - top) * run.spacing) / falls : Number.POSITIVE_INFINITY;
    },
  },
} as const;

function highestAfter(run: MeasuredRun, reading: ArrayLike<number>): number {
  const top = topOf(run, reading);
  return reading[top] - run.air[top];
}

function topOf(run: MeasuredRun, reading: ArrayLike<number>): number {
  let top = cutOf(run);
  for (let k = top; k < reading.length; k++) if (reading[k] > reading[top]) top = k;
  return top;
}

/** Foretold by draws within the stated tolerances, against what was read. */
function judged(table: string, runs: ReadonlyMap<string, MeasuredRun>, modelled: (run: MeasuredRun) => Model): ValidationRow[] {
  const random = seededRandom(1, 1);
  const cases = [...runs.values()].map((run) => {
    const model = modelled(run);
    const draws = Array.from({ length: DRAWS }, () => model.predict(model.unknowns.map(() => inverseNormal(random.fraction()))));
    return { run, nominal: model.predict([]), draws };
  });
  return Object.entries(FIGURES).map(([quantity, { unit, of }]) =>
    validationRow(
      table,
      quantity,
      cases.flatMap(({ run, nominal, draws }): Compared[] => {
        // a run that reads highest at its very end settles nowhere
        const measured = of(run, run.probe);
        if (!Number.isFinite(measured)) return [];
        const values = draws.map((draw) => of(run, draw)).filter((value) => !Number.isNaN(value));
        return [{ predicted: of(run, nominal), measured, low: quantile(values, 0.05), high: quantile(values, 0.95) }];
      }),
      { unit },
    ),
  );
}

/** Unknowns moved by one run, the others driven with them. */
function identified(runs: ReadonlyMap<string, MeasuredRun>, on: string): ValidationRow[] {
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
    return validationRow(
      FOUR,
      `all of ${name}, identified on ${on}`,
      Array.from(each.probe, (measured, k) => ({ predicted: reading[k], measured })),
      { unit: 'K' },
    );
  });
}

/** Step and ends of the search over one deviate [1], error of a top [1], and what is called near [1]. */
const STEP = 0.1;
const LOWEST = -3;
const HIGHEST = 2;
const TOP_ERROR = 0.1;
const NEAR = 0.15;

/** One number, the air through the motor, moved as little as all tops ask for; how far each top's excess is then from what was read. */
function byEnergy(runs: ReadonlyMap<string, MeasuredRun>): ValidationRow {
  const cases = [...runs.values()].map((run) => ({ run, model: modelOf(run, KNOWN_SIZE) }));
  const foretold = (z: number): Compared[] =>
    cases.map(({ run, model }) => {
      const reading = model.predict(model.unknowns.map(({ key }) => (key === 'rule:through-flow' ? z : 0)));
      return { predicted: highestAfter(run, reading), measured: highestAfter(run, run.probe) };
    });
  let best = { z: 0, tops: foretold(0), misfit: Number.POSITIVE_INFINITY };
  for (let z = LOWEST; z <= HIGHEST; z += STEP) {
    const tops = foretold(z);
    const misfit = z ** 2 + tops.reduce((sum, { predicted, measured }) => sum + (Math.log(predicted / measured) / TOP_ERROR) ** 2, 0);
    if (misfit < best.misfit) best = { z, tops, misfit };
  }
  const near = best.tops.filter(({ predicted, measured }) => Math.abs(predicted / measured - 1) < NEAR).length;
  const moved = `${best.z < 0 ? '−' : '+'}${Math.abs(best.z).toFixed(1)} standard deviations`;
  return validationRow(
    THIRTEEN,
    `excess at the top, air through the motor identified on all (${moved}); ${near} within ${100 * NEAR} %`,
    best.tops,
  );
}

export function heat(folder: string): Section {
  const read = (name: string) => readRuns(readFileSync(join(folder, name), 'utf8'));
  const runs = read('heat-runs.csv');
  const energy = read('heat-energy-runs.csv');
  return {
    data: `Two outrunners on the Kennesaw State University UAS bench (no licence stated: the tables are not ours to print). Four runs of one, driven at one throttle for three to
six minutes, cut, left to cool; thirteen of another (81 × 37 mm, 555 g: from memory), 20 to 2000 W of loss for 38 s to 10 min. The model is the heat network that
the rules make of a motor of that size, driven by the measured losses, read as a probe beside the coils reads. Temperatures are over the air.`,
    rows: [
      ...judged(FOUR, runs, (run) => modelOf(run)),
      ...judged(THIRTEEN, energy, (run) => modelOf(run, KNOWN_SIZE)),
      byEnergy(energy),
      ...identified(runs, 'A2'),
    ],
  };
}
