/**
 * What half a sheet is worth, held against a bench: three small outrunners on four 5-inch propellers, 7.4 and 11.1 V, full throttle. Known of the
 * motor are the label's Kv and its size (masses and cans of these sizes from memory); of the propeller thrust and speed at one part throttle,
 * turned by another motor. Resistance, no-load current, inductance and the power of the propeller are all estimated.
 * Data: StrawsonDesign, motor_propeller_testing, raw data, MIT licence; makers' names left out, rows at the supply's limit too.
 * @module
 */
import { readFileSync } from 'node:fs';
import { type PointResult, pointsOfScenario } from '@shaftwork/sim-core/other-questions';
import { RPM } from '@shaftwork/sim-core/quantities';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import type { Point } from './outside/check.js';

const SHEETS: Readonly<Record<string, string>> = {
  A: 'kv: 2400 rpm/V, mass: 28 g, can: { diameter: 27.9 mm, length: 18 mm }',
  B: 'kv: 2000 rpm/V, mass: 29 g, can: { diameter: 27.9 mm, length: 19 mm }',
  C: 'kv: 2400 rpm/V, mass: 32 g, can: { diameter: 28.5 mm, length: 19 mm }',
};
const rows = readFileSync(new URL('data/thrust-stand.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [motor, propeller, throttle, ...numbers] = line.split(',');
    const [voltage, current, rpm, thrust] = numbers.map(Number);
    return { motor: motor!, propeller: propeller!, throttle: throttle!, voltage: voltage!, current: current!, rpm: rpm!, thrust: thrust! };
  });
type Row = (typeof rows)[number];

/** The prediction for a row at full throttle from a stiff supply of its voltage; nothing where no other motor turned its propeller. */
function predicted({ motor, propeller, voltage }: Row): PointResult | undefined {
  const known = rows.find((row) => row.throttle === 'part' && row.propeller === propeller && row.motor !== motor);
  if (known === undefined) return undefined;
  const text = `title: stand
ambient: { air: 20 °C, altitude: 0 m }
battery: { cells: { series: 1 }, capacity: 50 Ah, open_circuit: [{ charge: 0 %, voltage: ${voltage} V }, { charge: 100 %, voltage: ${voltage} V }], cell_resistance: 0.001 mohm ± 0 % }
wiring: { resistance: 0.001 mohm }
propeller: { kind: measured-points, diameter: 5 in, points: [{ shaft_speed: ${known.rpm} rpm, thrust: ${known.thrust} N }] }
profile: [{ for: 1 s, throttle: 100 % }]
candidates: [{ name: One, motor: { layout: outrunner, poles: 14, ${SHEETS[motor]} } }]
`;
  const made = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (!('prepared' in made)) throw new Error(JSON.stringify(made));
  return pointsOfScenario(made.prepared, { hold: 'throttle', value: 1 })[0];
}

const JUDGED = ['shaftSpeed', 'batteryCurrent', 'thrust'] as const;

/** Share of the rows inside the 5 to 95 % band [%], against all of them. */
export function insideBands(): readonly Point[] {
  const inside = { shaftSpeed: 0, batteryCurrent: 0, thrust: 0 };
  let count = 0;
  for (const row of rows.filter(({ throttle }) => throttle === 'full')) {
    const bands = predicted(row)?.bands?.channels;
    if (bands === undefined) continue;
    count++;
    const measured = { shaftSpeed: row.rpm * RPM, batteryCurrent: row.current, thrust: row.thrust };
    for (const id of JUDGED) if (measured[id] >= bands[id].p05 && measured[id] <= bands[id].p95) inside[id]++;
  }
  if (count <= 15) throw new Error(`${count} rows are too few`);
  return JUDGED.map((id) => ({ at: `${id}, ${count} rows`, theirs: 100, ours: (100 * inside[id]) / count }));
}
