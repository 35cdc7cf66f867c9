/** One of many runs under a draw: the same standing as a shown run, and a draw that moves it. */
import { outcomeOf } from '@shaftwork/sim-core/questions/judge/outcome';
import { standingOf } from '@shaftwork/sim-core/questions/judge/rank';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { describe, expect, it } from 'vitest';
import { OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';

const run = (more: Section) => {
  const { candidates, scenario } = preparedOf(more);
  return { input: candidates[0], profile: scenario.profile };
};
/** A lift that is not reached, a motor current that is passed, a space that is too small. */
const FAILING: Section = {
  motor: { ...OUTRUNNER, maker_limits: { current: '5 A' } },
  profile: [
    { for: '10 s', thrust: '30 N' },
    { for: '10 s', throttle: '50 %' },
  ],
  space: { diameter: '20 mm' },
};

describe('an outcome', () => {
  it.each([
    ['passing', {}],
    ['failing', FAILING],
  ] as const)('stands as the run that is shown, %s', (_, more) => {
    const { input, profile } = run(more);
    const shown = standingOf(
      runCandidate(input, profile),
      'coolest',
      profile.reduce((sum, { duration }) => sum + duration, 0),
    );
    const { standing } = outcomeOf(input, profile, 'coolest');
    expect({ ...standing, objective: 0, winding: 0, lack: 0 }).toEqual({ ...shown, objective: 0, winding: 0, lack: 0 });
    expect(Math.abs(standing.winding - shown.winding)).toBeLessThan(0.05);
    expect(standing.lack).toBeCloseTo(shown.lack, 3);
    expect(standing.objective).toBe(standing.winding);
  });
  it('asks how long the pack lasts only where that counts', () => {
    const { input, profile } = run({});
    expect(outcomeOf(input, profile, 'coolest').figures.time).toBeCloseTo(10, 9);
    const lasting = outcomeOf(input, profile, 'longest').figures.time;
    expect(lasting).toBeGreaterThan(100);
    const asked = run({ limits: { run_time: '1 h' } });
    const { limits, figures } = outcomeOf(asked.input, asked.profile, 'coolest');
    expect(figures.time).toBeCloseTo(lasting, 6);
    expect(limits.find(({ id }) => id === 'runTime')?.worst).toBe(figures.time);
    // to the reserve where one is kept
    const kept = run({ limits: { reserve: '50 %' } });
    const half = outcomeOf(kept.input, kept.profile, 'longest').figures.time;
    expect(half / lasting).toBeGreaterThan(0.4);
    expect(half / lasting).toBeLessThan(0.6);
  });
  it('follows its draw', () => {
    const { input, profile } = run({});
    const { key } = input.data.motor.resistance.unknown;
    const peak = (z: number): number => outcomeOf(input, profile, 'coolest', (each) => (each === key ? z : 0)).figures.winding;
    expect(peak(2)).toBeGreaterThan(peak(0));
    expect(peak(0)).toBeGreaterThan(peak(-2));
  });
  it('has what instruments show where it is watched, and no curves', () => {
    const { input, profile } = run({});
    const plain = outcomeOf(input, profile, 'coolest');
    expect(plain).not.toHaveProperty('series');
    expect(plain.simulation.recorded).toBeUndefined();
    const watch = { ids: ['throttle', 'charge_used'], times: Float64Array.of(0, 5) } as const;
    const { series, simulation } = outcomeOf(input, profile, 'coolest', undefined, undefined, watch);
    expect([...(series ?? [])]).toEqual([
      0.7,
      0.7,
      0,
      expect.closeTo(0.5 * (1 - simulation.state[simulation.kernel.at.charge]) * 2.2 * 3600, 0),
    ]);
  });
  it('reads its objective', () => {
    const { input, profile } = run({});
    const { figures, standing } = outcomeOf(input, profile, 'lightest');
    expect([figures.mass, standing.objective]).toEqual([0.066, 0.066]);
    expect(outcomeOf(input, profile, 'fastest').standing.objective).toBeCloseTo(-figures.topSpeed, 12);
  });
});
