/**
 * Locked figures of every demo and every scenario to start from, by both integrators. A locked figure that moves is named in the commit under
 * "Numbers move". The figures are the program's own; what is believable about them is checked beside.
 */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { DEMOS, demoOrStarter, STARTERS } from '../demo.js';

/** Scenario, candidate, peak of the winding [°C], charge left [1], greatest motor current [A]. */
const LOCKED: readonly (readonly [string, string, number, number, number])[] = [
  ['survey-boat', 'Wide', 109.14, 0.59745, 26.99],
  ['survey-boat', 'Long', 84.71, 0.60423, 26.36],
  ['survey-boat', 'Small', 170.13, 0.64974, 22.79],
  ['burst-glider', 'Disc', 114.13, 0.4961, 37.23],
  ['burst-glider', 'Pencil', 70.69, 0.48645, 35.89],
  ['burst-glider', 'Feather', 153.11, 0.55847, 33.33],
  ['hot-day-mapper', 'Cruiser', 102.76, 0.25111, 25.26],
  ['hot-day-mapper', 'Slim', 207.8, 0.22352, 26.2],
  ['hot-day-mapper', 'Anvil', 67.28, 0.15044, 26.77],
  ['grass-car', 'Short, 7.4 to 1', 84.63, 0.70391, 39.9],
  ['grass-car', 'Short, 5.4 to 1', 108.73, 0.67846, 53.36],
  ['grass-car', 'Short, 4.6 to 1', 134.32, 0.64942, 62.66],
  ['grass-car', 'Long, 5.4 to 1', 79.5, 0.66677, 55.86],
  ['boat', 'First', 52.74, 0.75406, 30.12],
  ['boat', 'Second', 73.6, 0.78723, 25.33],
  ['aircraft', 'First', 60.01, 0.7118, 14.62],
  ['aircraft', 'Second', 76.28, 0.73995, 10.96],
  ['car', '5.4 to 1', 56.14, 0.8963, 34.95],
  ['car', '3.6 to 1', 62.44, 0.89199, 50.16],
];

describe.each([...DEMOS, ...STARTERS])('%s', (name) => {
  const { candidates, scenario } = demoOrStarter(name);
  const locked = LOCKED.filter(([each]) => each === name);

  it('has all its candidates locked', () => expect(candidates.map((each) => each.name)).toEqual(locked.map(([, candidate]) => candidate)));

  it.each(candidates.map((each) => [each.name, each.data] as const))('%s keeps its figures, by both integrators', (candidate, data) => {
    const [, , winding, charge, current] = locked.find((row) => row[1] === candidate) ?? [name, candidate, 0, 0, 0];
    const system = realise(data);
    const [a, b] = (['odex', 'dormand-prince'] as const).map((method) =>
      simulate(system, scenario.profile, { method, relative: 1e-8, record: false }),
    );
    for (const run of [a, b]) {
      expect(run.end).toBe('finished');
      expect(Math.abs(run.highest.windingTemperature.value - ZERO_CELSIUS - winding)).toBeLessThan(0.01);
      expect(Math.abs(run.state[run.kernel.at.charge] - charge)).toBeLessThan(1e-5);
      expect(Math.abs(run.highest.motorCurrent.value - current)).toBeLessThan(0.01);
    }
    for (let k = 0; k < 6; k++) expect(Math.abs(a.state[k] - b.state[k])).toBeLessThan(1e-4);
    expect(Math.abs(a.state[a.kernel.at.charge] - b.state[b.kernel.at.charge])).toBeLessThan(1e-7);
  });
});
