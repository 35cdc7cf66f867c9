/** Which of several failures comes first, by hand. */

import { compareStandings, type Standing } from '@shaftwork/sim-core/questions/judge/rank';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { expect, it } from 'vitest';
import { SMALLEST } from '../../scenario/smallest-scenario.js';

const passing: Standing = { fits: true, feasible: true, holds: true, driven: 1, failures: 0, lack: 0, objective: 400, winding: 400 };
const failing = (driven: number, failures: number, objective: number): Standing => ({
  ...passing,
  feasible: false,
  driven,
  failures,
  objective,
});

it('puts what drives more of the run first among failures, then what passes fewer limits, then the objective', () => {
  const stopsEarly = failing(121 / 740, 1, 310);
  const passesTwo = failing(1, 2, 380);
  const passesOne = failing(1, 1, 420);
  const hotter = failing(1, 1, 430);
  expect([stopsEarly, hotter, passesTwo, passing, passesOne].sort(compareStandings)).toEqual([
    passing,
    passesOne,
    hotter,
    passesTwo,
    stopsEarly,
  ]);
});

it('puts what lacks less of the speed asked for before what is cooler', () => {
  // 23.1 and 16.6 m/s of 26
  const nearer = { ...failing(1, 3, 420), lack: 1 - 23.1 / 26 };
  const cooler = { ...failing(1, 3, 390), lack: 1 - 16.6 / 26 };
  expect([cooler, nearer].sort(compareStandings)).toEqual([nearer, cooler]);
  // less than a per cent is no merit
  expect(compareStandings({ ...cooler, lack: nearer.lack + 0.001 }, nearer)).toBeLessThan(0);
});

it('lets the objective alone decide between those that pass', () => {
  expect(compareStandings({ ...passing, objective: 350 }, passing)).toBeLessThan(0);
});

it('lets rounding decide nothing: figures equal to a part in 10⁹ are a tie', () => {
  expect(compareStandings({ ...passing, objective: 400 * (1 + 1e-12) }, passing)).toBe(0);
  expect(compareStandings({ ...passing, objective: 400 * (1 + 1e-6) }, passing)).toBeGreaterThan(0);
});

it('ranks what is equal by name, whatever the order in the file', () => {
  const sheet = SMALLEST.slice(SMALLEST.indexOf('  - name'));
  const head = SMALLEST.slice(0, SMALLEST.indexOf('  - name'));
  const rankingOf = (names: readonly string[]): readonly string[] => {
    const text = head + names.map((name) => sheet.replace('"27-32"', name)).join('');
    const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
    if (!('prepared' in preparation)) throw new Error(JSON.stringify(preparation));
    return runScenario(preparation.prepared).ranking;
  };
  expect(rankingOf(['Cee', 'Ay', 'Bee'])).toEqual(['Ay', 'Bee', 'Cee']);
  expect(rankingOf(['Bee', 'Cee', 'Ay'])).toEqual(['Ay', 'Bee', 'Cee']);
});
