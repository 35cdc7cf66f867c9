/** Verification: the whole demo against a separately written explicit-Euler version of the model (test/twin), no shared code. */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { expect, it } from 'vitest';
import { demo } from '../demo.js';
import { plainBoat } from '../twin/plain-boat.js';

const prepared = demo('survey-boat');
const arrays = (_: string, value: unknown): unknown => (ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value);

it('follows the plain twin within 0.05 K and 1e-5 of charge at every step’s end', () => {
  const system = realise(prepared.candidates[0].data);
  const rows = plainBoat(JSON.parse(JSON.stringify(system, arrays)), JSON.parse(JSON.stringify(prepared.scenario.profile)));
  const names = ['winding', 'stator', 'can', 'magnets', 'controller', 'cells'] as const;
  // the product integrated to each of a few times, the last the end of the run
  const { recorded, state } = simulate(system, prepared.scenario.profile);
  const { trace } = recorded!;
  const last = rows[rows.length - 1];
  names.forEach((name, k) => {
    expect(Math.abs(state[k] - last[name])).toBeLessThan(0.05);
  });
  expect(Math.abs(state[6] - last.charge)).toBeLessThan(1e-5);
  const channels = {
    winding: 'windingTemperature',
    can: 'canTemperature',
    controller: 'controllerTemperature',
    cells: 'cellTemperature',
  } as const;
  for (const row of rows.slice(1, -1)) {
    const k = trace.time.findIndex((time) => time >= row.t);
    const share = (row.t - trace.time[k - 1]) / (trace.time[k] - trace.time[k - 1]);
    for (const [name, channel] of Object.entries(channels)) {
      const between = trace[channel][k - 1] + share * (trace[channel][k] - trace[channel][k - 1]);
      // straight lines between samples 0.65 s apart bend by at most a few hundredths of a kelvin more
      expect(Math.abs(between - row[name as keyof typeof channels])).toBeLessThan(0.1);
    }
  }
});
