/** Makes scenarios/logs/survey-boat-long.csv, an invented log of the demo, from the model itself with other constants and the noise of usual instruments: `npx tsx test/make-boat-log.ts`. */
import { writeFileSync } from 'node:fs';
import { inverseNormal } from '../packages/sim-core/src/numerics/inverse-normal.js';
import { seededRandom } from '../packages/sim-core/src/numerics/seeded-random.js';
import { unknownsOf } from '../packages/sim-core/src/provenance/unknowns.js';
import { demo } from './demo.js';
import { asCsv, loggedRun } from './logged-run.js';

/** The hull drags more than was towed, by about 1.8 of that number's deviations; all else is a little off too. */
const FOUL_HULL = 1.8;
const A_LITTLE = 0.15;

const boat = demo('survey-boat');
const random = seededRandom(11, 1);
const off = new Map(
  unknownsOf(boat.candidates).map(({ key, subject }) => [
    key,
    subject === 'drag-error' ? FOUL_HULL : A_LITTLE * inverseNormal(random.fraction()),
  ]),
);
const log = loggedRun(boat, {
  candidate: 'Long',
  ids: ['voltage', 'battery_current', 'shaft_speed', 'vehicle_speed', 'can_temperature', 'controller_temperature'],
  every: 2,
  draw: (key) => off.get(key) ?? 0,
  seed: 3,
});
writeFileSync(new URL('../scenarios/logs/survey-boat-long.csv', import.meta.url), asCsv(log));
