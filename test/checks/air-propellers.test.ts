import { BLADE_ELEMENT_TOLERANCE } from '@shaftwork/sim-core/parts/propeller/blade-table';
import { STATIC_FIGURE_OF_MERIT } from '@shaftwork/sim-core/parts/propeller/measured-points';
import { describe, expect, it } from 'vitest';
import {
  type Basis,
  isLeftOut,
  LEFT_OUT,
  measurements,
  propellerErrors,
  propellerErrorTable,
  propellers,
  spread,
} from './air-propeller-errors.js';

/** UIUC Propeller Database, vols. 1–3; citation in data/air-propellers.csv. Validation: somebody's measurements. */
describe('eight propellers in the wind tunnel', () => {
  it('is read whole', () => {
    expect(propellers).toHaveLength(8);
    expect(measurements.length).toBeGreaterThan(800);
    const static10x5 = measurements.filter((row) => row.propeller === 'thin-electric-10x5' && row.run === 'static').at(-1)!;
    expect(static10x5).toMatchObject({ thrust: 0.0994, power: 0.0379 });
  });
  it('leaves out one run with a drag on its balance: CT low, the more the faster the stream, CP in agreement', () => {
    const others = measurements
      .filter((row) => row.propeller === LEFT_OUT.propeller && ['5008', '6018', '6913'].includes(row.run))
      .sort((a, b) => a.advanceRatio - b.advanceRatio);
    let deficitBefore = 0.009;
    for (const row of measurements.filter(isLeftOut)) {
      const near = others.filter((other) => Math.abs(other.advanceRatio - row.advanceRatio) < 0.035);
      expect(near.length).toBeGreaterThan(1);
      // a straight line through the neighbours, at this row's advance ratio
      const line = (take: (r: typeof row) => number) => {
        const x = near.reduce((sum, r) => sum + r.advanceRatio, 0) / near.length;
        const y = near.reduce((sum, r) => sum + take(r), 0) / near.length;
        const slope =
          near.reduce((sum, r) => sum + (r.advanceRatio - x) * (take(r) - y), 0) /
          near.reduce((sum, r) => sum + (r.advanceRatio - x) ** 2, 0);
        return y + slope * (row.advanceRatio - x);
      };
      const deficit = line((r) => r.thrust) - row.thrust;
      expect(deficit).toBeGreaterThan(deficitBefore);
      expect(deficit).toBeLessThan(0.015);
      deficitBefore = deficit;
      expect(Math.abs(row.power - line((r) => r.power))).toBeLessThan(0.0003);
    }
  });

  // The published tolerance is twice the root mean square error, rounded up by at most 3 points.
  it.each<[Basis, 'thrust' | 'power']>([
    ['geometry', 'thrust'],
    ['geometry', 'power'],
    ['family', 'thrust'],
    ['family', 'power'],
  ])('is predicted from %s with the %s error that is published as the default tolerance', (basis, quantity) => {
    const measured = 2 * spread(propellerErrors(basis), quantity).rms;
    expect(measured).toBeLessThanOrEqual(BLADE_ELEMENT_TOLERANCE[basis][quantity]);
    expect(measured).toBeGreaterThan(BLADE_ELEMENT_TOLERANCE[basis][quantity] - 0.03);
  });
  // 10–20 % is usual for predictive models of this kind (common practice, no published source)
  it('stays within what such models usually reach, without overall bias', () => {
    for (const basis of ['geometry', 'family'] as const) {
      const errors = propellerErrors(basis);
      expect(spread(errors, 'thrust').scatter).toBeLessThan(basis === 'family' ? 0.15 : 0.17);
      expect(spread(errors, 'power').scatter).toBeLessThan(0.12);
      expect(Math.abs(spread(errors, 'thrust').bias)).toBeLessThan(0.03);
      expect(Math.abs(spread(errors, 'power').bias)).toBeLessThan(0.03);
    }
  });
  it('agrees with the figure of merit that stands in for a missing thrust or power', () => {
    const merits = propellers.map((propeller) => {
      const { thrust, power } = measurements.filter((row) => row.propeller === propeller && row.run === 'static').at(-1)!;
      return (thrust ** 1.5 * Math.sqrt(2 / Math.PI)) / power;
    });
    const mean = merits.reduce((sum, merit) => sum + merit, 0) / merits.length;
    const scatter = Math.sqrt(merits.reduce((sum, merit) => sum + (merit - mean) ** 2, 0) / (merits.length - 1));
    expect(Math.abs(mean - STATIC_FIGURE_OF_MERIT.value)).toBeLessThan(0.01);
    expect(Math.abs(2 * scatter - STATIC_FIGURE_OF_MERIT.halfWidth)).toBeLessThan(0.01);
  });
  it('prints a table of every propeller on both bases', () => {
    const table = propellerErrorTable();
    expect(table.split('\n')).toHaveLength(2 + 2 * 9);
    expect(table).not.toMatch(/NaN|Infinity/);
  });
});
