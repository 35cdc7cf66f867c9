/** Logs made from the model itself: one candidate over the scenario's profile under a draw, seen by instruments that err as their kind does. */

import type { PreparedScenario } from '@shaftwork/sim-core/run-scenario';
import { inverseNormal } from '../packages/sim-core/src/numerics/inverse-normal.js';
import { seededRandom } from '../packages/sim-core/src/numerics/seeded-random.js';
import { type MeasurableId, measurableOf } from '../packages/sim-core/src/provenance/measurables.js';
import { type Draw, NOMINAL, realise } from '../packages/sim-core/src/provenance/realise.js';
import { STANDARD_DEVIATIONS_95, toUnit } from '../packages/sim-core/src/quantities/index.js';
import { simulate } from '../packages/sim-core/src/questions/simulate/simulate.js';
import { type ThermometerShares, watchSystem } from '../packages/sim-core/src/questions/simulate/watch.js';

export interface LogAsk {
  readonly candidate: string;
  readonly ids: readonly MeasurableId[];
  /** Time from row to row [s]. */
  readonly every: number;
  readonly draw?: Draw;
  /** Factor on the model's temperature rises and on the instruments' usual noise [1]. */
  readonly heat?: number;
  readonly noise?: number;
  /** Factors on the shares of thermometers. */
  readonly shares?: ThermometerShares;
  readonly seed?: number;
  /** What the log's clock shows when the run begins [s]; rows before it stand still. */
  readonly begins?: number;
  /** Rows from then on, before the run begins and after it. */
  readonly idle?: number;
}

export interface LoggedRun {
  readonly time: readonly number[];
  /** SI, a column a measurable. */
  readonly columns: ReadonlyMap<MeasurableId, readonly number[]>;
}

export function loggedRun({ candidates, scenario }: PreparedScenario, ask: LogAsk): LoggedRun {
  const input = candidates.find(({ name }) => name === ask.candidate);
  if (input === undefined) throw new Error(`no candidate ${ask.candidate}`);
  const { draw = NOMINAL, heat = 1, shares, noise = 1, seed = 1, begins = 0, idle = 0, every, ids } = ask;
  const system = realise(input.data, draw);
  const duration = scenario.profile.reduce((sum, step) => sum + step.duration, 0);
  const times = Float64Array.from({ length: Math.floor(duration / every) + 1 }, (_, k) => k * every);
  const watched = watchSystem(system, { ids, times });
  const { time: ends } = simulate(system, scenario.profile, {
    record: false,
    method: 'dormand-prince',
    relative: 1e-6,
    watch: watched.watch,
  });
  const series = watched.series(heat, shares);
  const count = times.filter((t) => t <= ends).length;
  const before = Math.round(idle / every);
  const random = seededRandom(seed, 7);
  const columns = ids.map((id, k): readonly [MeasurableId, readonly number[]] => {
    const clean = series.subarray(k * times.length, k * times.length + count);
    const { error, place } = measurableOf(id);
    const half = 'amount' in error ? error.amount : error.share * Math.max(...clean.map(Math.abs));
    // at rest: nothing flows and nothing turns, what is warm is as at the start
    const still = place !== undefined || id === 'voltage' || id === 'cell_voltage' ? clean[0] : 0;
    const rows = [...Array.from({ length: before }, () => still), ...clean];
    return [id, rows.map((value) => value + (noise * half * inverseNormal(random.fraction())) / STANDARD_DEVIATIONS_95)];
  });
  return { time: Array.from({ length: before + count }, (_, k) => begins + (k - before) * every), columns: new Map(columns) };
}

/** The log as a file with commas and heads of ours. */
export function asCsv({ time, columns }: LoggedRun): string {
  const heads = [...columns.keys()].map((id) => `${id.replaceAll('_', ' ')} [${measurableOf(id).shown.replace('·', '')}]`);
  const rows = time.map((t, k) =>
    [
      t.toFixed(2),
      ...[...columns].map(([id, values]) => toUnit(values[k], measurableOf(id).shown).toFixed(measurableOf(id).decimals)),
    ].join(','),
  );
  return `${['time [s]', ...heads].join(',')}\n${rows.join('\n')}\n`;
}
