/** Which of several failures comes first, by hand. */

import {
  asGoodAsFirst,
  compareStandings,
  nearestBy,
  rank,
  type Standing,
  sameTier,
  standingOf,
} from '@shaftwork/sim-core/questions/judge/rank';
import type { Finding } from '@shaftwork/sim-core/results/finding';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';
import { limitResult } from '../../words/limit-result.js';

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
  // of the larger size of the two, whichever sign they have; two that are nothing are equal
  expect(compareStandings({ ...passing, objective: -4 * (1 + 1e-12) }, { ...passing, objective: -4 })).toBe(0);
  expect(compareStandings({ ...passing, objective: -4 * (1 + 1e-6) }, { ...passing, objective: -4 })).toBeLessThan(0);
  expect(compareStandings({ ...passing, objective: 0 }, { ...passing, objective: 0 })).toBe(0);
  expect(compareStandings({ ...passing, objective: 1e-12 }, { ...passing, objective: 0 })).toBeGreaterThan(0);
});

it('puts what fits first, then what passes, whatever the objective', () => {
  const outside = { ...passing, fits: false, objective: 300 };
  const outsideFailing = { ...failing(1, 1, 290), fits: false };
  const fails = failing(1, 1, 310);
  const lost = { ...passing, holds: false, failures: 1, lack: 0.5, objective: 305 };
  expect([outsideFailing, outside, fails, lost, passing].sort(compareStandings)).toEqual([passing, fails, lost, outside, outsideFailing]);
});

it('counts shares to the whole per cent', () => {
  expect(compareStandings(failing(0.504, 3, 400), failing(0.496, 1, 410))).toBeGreaterThan(0);
  expect(compareStandings(failing(0.506, 3, 400), failing(0.494, 1, 410))).toBeLessThan(0);
});

it('a tie falls to the cooler winding', () => {
  expect(compareStandings({ ...passing, winding: 390 }, passing)).toBeLessThan(0);
  expect(compareStandings({ ...passing, winding: 410 }, passing)).toBeGreaterThan(0);
});

it('one tier holds what fits alike and fails alike', () => {
  expect(sameTier(passing, { ...passing, objective: 300, failures: 9, driven: 0.1 })).toBe(true);
  expect(sameTier(passing, failing(1, 1, 400))).toBe(false);
  expect(sameTier(failing(1, 1, 400), failing(1, 1, 300))).toBe(true);
  expect(sameTier(failing(1, 1, 400), failing(1, 2, 400))).toBe(false);
  expect(sameTier(passing, { ...passing, fits: false })).toBe(false);
});

describe('how a run stands', () => {
  const lost = (wanted: number, reached: number): Finding => ({ candidate: 'A', kind: 'step-not-held', step: 0, wanted, reached });
  const candidate = (name: string, more: Partial<CandidateResult> = {}, winding = 350): CandidateResult =>
    ({
      name,
      feasible: true,
      limits: [],
      findings: [],
      headline: {
        peakWindingTemperature: { dimension: 'temperature', nominal: winding },
        topSpeed: { dimension: 'speed', nominal: 4 },
        runTime: { dimension: 'time', nominal: 60 },
      },
      facts: { fits: true, mass: 0.2 },
      ...more,
    }) as CandidateResult;

  it('counts limits passed and steps lost, and the share that the worst of them lacks', () => {
    const limits = [
      limitResult({ id: 'motorCurrent', worst: 40, passed: { at: 3 } }),
      limitResult({ id: 'windingTemperature', worst: 310, bound: 400, start: 300 }),
      limitResult({ id: 'inputPower', worst: 50, passed: { at: 5 } }),
    ];
    const findings = [lost(4, 3), lost(10, 4), lost(4, 3.97), { candidate: 'A', kind: 'battery-empty' } as const];
    expect(standingOf(candidate('A', { feasible: false, limits, findings }), 'coolest', 120)).toEqual({
      fits: true,
      feasible: false,
      holds: false,
      driven: 0.5,
      failures: 4,
      lack: 0.6,
      objective: 350,
      winding: 350,
    });
    expect(standingOf(candidate('A'), 'fastest', 60)).toMatchObject({ holds: true, driven: 1, failures: 0, lack: 0, objective: -4 });
  });

  it('ranks by it, and counts how many are as good as the first', () => {
    const three = [candidate('A', {}, 380), candidate('B', {}, 350), candidate('C', { feasible: false }, 300)];
    const ranked = rank(three, 'coolest', 60);
    expect(ranked.map(({ name }) => name)).toEqual(['B', 'A', 'C']);
    expect(asGoodAsFirst(ranked, 'coolest', 60)).toBe(2);
    expect(asGoodAsFirst([], 'coolest', 60)).toBe(0);
    expect(asGoodAsFirst(ranked.slice(2), 'coolest', 60)).toBe(1);
  });

  it('ranks what is equal by name, whatever the order in the file', () => {
    for (const names of [
      ['Cee', 'Ay', 'Bee'],
      ['Bee', 'Cee', 'Ay'],
    ])
      expect(
        rank(
          names.map((name) => candidate(name)),
          'coolest',
          60,
        ).map(({ name }) => name),
      ).toEqual(['Ay', 'Bee', 'Cee']);
  });

  it('says by what those that come nearest stand before the next', () => {
    const fails = (more: Partial<CandidateResult>) => candidate('A', { feasible: false, limits: [], ...more });
    const burnt = { ...fails({}), headline: { ...fails({}).headline, runTime: { dimension: 'time', nominal: 20 } } } as CandidateResult;
    const passed = fails({ limits: [limitResult({ id: 'motorCurrent', worst: 40, passed: { at: 3 } })] });
    const by = (...ranked: CandidateResult[]) => nearestBy(ranked, 'coolest', 60);
    expect(by(fails({}), burnt)).toBe('driven');
    expect(by(fails({}), passed, burnt)).toBe('failures');
    expect(by(fails({ findings: [lost(4, 3)] }), fails({ findings: [lost(4, 1)] }))).toBe('lack');
    expect(by(fails({}), fails({ facts: { ...candidate('A').facts, fits: false } }))).toBe('fits');
    // where all are alike, or there is one, the objective alone tells
    expect([by(fails({}), fails({})), by(fails({}))]).toEqual([undefined, undefined]);
  });
});
