/** The whole demo against a separately written explicit-Euler version of the model (test/twin), no shared code. @module */
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { demo } from '../demo.js';
import { plainBoat } from '../twin/plain-boat.js';
import type { Point } from './outside/check.js';

const arrays = (_: string, value: unknown): unknown => (ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value);
const CHANNELS = {
  winding: 'windingTemperature',
  can: 'canTemperature',
  controller: 'controllerTemperature',
  cells: 'cellTemperature',
} as const;

/** Bodies [K] and charge [1] at the end of the run, and bodies at the end of every step before. */
export function boatByTwin(): {
  readonly bodies: readonly Point[];
  readonly charge: readonly Point[];
  readonly onTheWay: readonly Point[];
} {
  const prepared = demo('survey-boat');
  const system = realise(prepared.candidates[0].data);
  const rows = plainBoat(JSON.parse(JSON.stringify(system, arrays)), JSON.parse(JSON.stringify(prepared.scenario.profile)));
  const { recorded, state, kernel } = simulate(system, prepared.scenario.profile);
  if (recorded === undefined) throw new Error('the run was not recorded');
  const { trace } = recorded;
  const last = rows[rows.length - 1];
  const { charge } = kernel.at;
  return {
    bodies: BODIES.map((body, k) => ({ at: body, theirs: last[body], ours: state[k] })),
    charge: [{ at: '', theirs: last.charge, ours: state[charge] }],
    onTheWay: rows.slice(1, -1).flatMap((row) => {
      const k = trace.time.findIndex((time) => time >= row.t);
      const share = (row.t - trace.time[k - 1]) / (trace.time[k] - trace.time[k - 1]);
      return (Object.keys(CHANNELS) as (keyof typeof CHANNELS)[]).map((body) => {
        const channel = trace[CHANNELS[body]];
        return { at: `${body}, ${row.t} s`, theirs: row[body], ours: channel[k - 1] + share * (channel[k] - channel[k - 1]) };
      });
    }),
  };
}
