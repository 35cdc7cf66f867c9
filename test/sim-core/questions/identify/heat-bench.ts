/** Two small motors and short logs of a warming run, for tests of what their heat tells. */

import type { ThermometerPlaceId } from '@shaftwork/sim-core/heat/thermometer';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { type HeatRows, heatModel } from '@shaftwork/sim-core/questions/identify/heat-model';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { changed } from '../../scenario/smallest-scenario.js';

/** The first candidate of a scenario, and what it is with nominal data. */
export function driveOf(text: string) {
  const made = prepareScenario(text);
  if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
  const [candidate] = made.prepared.candidates;
  return { ...candidate, system: realise(candidate.data) };
}
/** Its bell turns in the slipstream of its propeller; all that is unsure of its resistance is 4 %. */
export const OUTRUNNER = driveOf(changed('96 mohm', '96 mohm ± 4 %'));
export const INRUNNER = driveOf(changed('layout: outrunner', 'layout: inrunner'));
export const AIR = 290;

export type Columns = Partial<Record<keyof HeatRows, number | readonly number[]>>;
/** A log of some rows: what is not said of a column is the same in each. */
export function heatLog(time: readonly number[], more: Columns = {}, place: ThermometerPlaceId = 'in-slot'): HeatRows {
  const column = (key: keyof HeatRows, usual: number): Float64Array => {
    const said = more[key] ?? usual;
    return Float64Array.from(time, (_, k) => (typeof said === 'number' ? said : said[k]));
  };
  return {
    time: Float64Array.from(time),
    voltage: column('voltage', 11),
    current: column('current', 20),
    speed: column('speed', 700),
    ...(more.torque === undefined ? {} : { torque: column('torque', 0) }),
    ...(more.thrust === undefined ? {} : { thrust: column('thrust', 0) }),
    air: column('air', AIR),
    probe: column('probe', AIR),
    place,
    atRest: 0.25,
  };
}

export const model = ({ name, given, data }: typeof OUTRUNNER, rows: HeatRows) => heatModel(name, given, data, rows);
/** Deviates that are nought but for some. */
export const deviates = (size: number, some: Readonly<Record<number, number>> = {}): number[] =>
  Array.from({ length: size }, (_, k) => some[k] ?? 0);
export const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
