/** A short run of a drive of which two numbers are unsure, and logs that are made of it. */
import type { MeasurableId, MeasuredLog } from '@shaftwork/sim-core/provenance/measurables';
import { type Draw, NOMINAL, realise } from '@shaftwork/sim-core/provenance/realise';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { numbersOf } from '@shaftwork/sim-core/questions/doubt/numbers';
import { explain } from '@shaftwork/sim-core/questions/measured/explain';
import { planMeasured } from '@shaftwork/sim-core/questions/measured/measured';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { watchSystem } from '@shaftwork/sim-core/questions/simulate/watch';
import { expect } from 'vitest';
import { OUTRUNNER } from '../identify/heat-bench.js';
import { sureBut } from '../sure-but.js';

export const step = (duration: number, value: number) => ({ duration, hold: 'throttle' as const, value: { from: value, to: value } });
export const PROFILE = [step(3, 0.5), step(3, 0.9), step(4, 0.4)];
export const input = {
  ...OUTRUNNER,
  data: sureBut(OUTRUNNER.data, ({ origin }) => origin.kind === 'given' && ['motor.kv', 'motor.resistance'].includes(origin.subject)),
};
export const NUMBERS = numbersOf(unknownsOf([input]));
export const moved =
  (k: number, z: number): Draw =>
  (key) =>
    z * (NUMBERS[k].direction.get(key) ?? 0);
export const TIMES = Float64Array.from({ length: 41 }, (_, k) => 0.25 * k);
/** What instruments without error would have read, at a moment every quarter of a second; the log begins `late` seconds before the run. */
export function logOf(
  ids: readonly MeasurableId[],
  draw: Draw = NOMINAL,
  more: Partial<MeasuredLog> = {},
  late = 0,
  factor: Partial<Record<MeasurableId, number>> = {},
): MeasuredLog {
  const watched = watchSystem(realise(input.data, draw), { ids, times: TIMES });
  simulate(realise(input.data, draw), PROFILE, { method: 'dormand-prince', relative: 1e-5, record: false, watch: watched.watch });
  const series = watched.series();
  return {
    file: 'a.csv',
    rows: 99,
    time: TIMES.map((t) => t + late),
    columns: new Map(ids.map((id, k) => [id, series.slice(k * 41, (k + 1) * 41).map((each) => each * (factor[id] ?? 1))])),
    begins: { by: 'given', at: late },
    taken: ['said before'],
    ...more,
  };
}
export const planOf = (log: MeasuredLog, others?: readonly (typeof input)[]) => planMeasured(input, PROFILE, log, others) ?? expect.fail();
export const IDS: readonly MeasurableId[] = ['voltage', 'battery_current', 'shaft_speed', 'in_slot_temperature'];
export const explained = (log: MeasuredLog) => {
  const { moments, nominal } = planOf(log);
  return explain(input, PROFILE, moments, nominal, { watch: moments.watch, series: new Map() });
};
