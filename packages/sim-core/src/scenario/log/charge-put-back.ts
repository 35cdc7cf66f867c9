/**
 * A logged current set right by the charge that a charger put back after the run: what a sensor with a wrong scale has summed to is compared with it.
 *
 * *Holds for* lithium cells, which give back all but about 1 % of their charge (common practice, no published source); a few per cent more goes
 * into nickel cells than comes out.
 * @module
 */
import type { ScenarioProblem } from '../../problems/index.js';
import type { Place } from '../../provenance/datum.js';
import { CURRENT_SENSOR } from '../../provenance/measurables.js';
import { formatQuantity } from '../../quantities/index.js';
import { problem, quoted } from '../wording.js';
import type { LogValues } from './log-table.js';

/** A sensor that is farther off than this has another unit, or the charge is of another run [1]. */
const MOST_OFF = 2;
/** Rows farther apart leave a hole in the sum [s], and holes may make up this share of the time [1]. */
const HOLE = 5;
const MOST_HOLES = 0.05;

export interface PutBack {
  readonly columns: ReadonlyMap<string, Float64Array>;
  readonly taken: readonly string[];
  readonly problems: readonly ScenarioProblem[];
}

/** `charge` [A·s] was put back after what `columns` hold; `place` is where that is written. */
export function scaledByCharge(read: ReadonlyMap<string, LogValues>, charge: number | undefined, place: Place): PutBack {
  const columns = new Map([...read].map(([key, { values }]) => [key, values]));
  const refused = (...made: Parameters<typeof problem>): PutBack => ({ columns, taken: [], problems: [problem(...made)] });
  if (charge === undefined) return { columns, taken: [], problems: [] };
  const time = columns.get('time');
  const current = columns.get('battery_current');
  if (time === undefined || current === undefined) {
    const hint = 'name the column in the file, or say which it is: columns: { battery_current: "I [A]" }';
    return refused('missing-datum', place, 'a column of the battery current that the charge can be compared with', 'none', { hint });
  }
  const { sum, holes } = chargeOf(time, current);
  const shown = (value: number): string => formatQuantity(value, 'charge', { unit: 'mA·h', decimals: 0, space: ' ' });
  if (holes > MOST_HOLES * (time[time.length - 1] - time[0])) {
    return refused(
      'missing-datum',
      place,
      'a battery current without gaps, whose charge can be summed',
      `${holes.toFixed(0)} s without it`,
    );
  }
  const factor = charge / sum;
  if (!(factor > 1 / MOST_OFF && factor < MOST_OFF)) {
    const hint = 'it is the charge put back after this run alone; or the unit of the current is another';
    return refused('out-of-range', place, `about the charge that the log sums to, ${shown(sum)}`, shown(charge), { hint });
  }
  const sensor = CURRENT_SENSOR.filter((key) => columns.has(key));
  for (const key of sensor)
    columns.set(
      key,
      Float64Array.from(columns.get(key) ?? [], (value) => value * factor),
    );
  const titles = sensor.map((key) => quoted(read.get(key)?.column.title ?? key));
  return {
    columns,
    taken: [`${titles.join(', ')} times ${factor.toFixed(3)}: the current sums to ${shown(sum)}, ${shown(charge)} were put back`],
    problems: [],
  };
}

/** Charge of a current over time [A·s] by trapezoids, and the time without a value [s]. */
function chargeOf(time: Float64Array, current: Float64Array): { readonly sum: number; readonly holes: number } {
  let sum = 0;
  let holes = 0;
  let before = -1;
  for (let k = 0; k < time.length; k++) {
    if (Number.isNaN(current[k])) continue;
    const passed = time[k] - time[Math.max(before, 0)];
    if (passed > HOLE || before < 0) holes += passed;
    else sum += 0.5 * (current[before] + current[k]) * passed;
    before = k;
  }
  return { sum, holes: holes + time[time.length - 1] - time[Math.max(before, 0)] };
}
