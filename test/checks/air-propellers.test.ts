import { readFileSync } from 'node:fs';
import { STATIC_FIGURE_OF_MERIT } from '@shaftwork/sim-core/parts/propeller/measured-points';
import { describe, expect, it } from 'vitest';
import { BASES as JUDGED_BASES, judge, linesOf } from '../measured/propellers.js';
import {
  type ErrorBasis,
  isLeftOut,
  keptOut,
  LEFT_OUT,
  measuredTen,
  measurements,
  propellerErrors,
  propellerErrorTable,
  propellers,
  spread,
  UNSWEPT,
} from './air-propeller-errors.js';

/** UIUC Propeller Database, vols. 1–3; citation in data/air-propellers.csv. Validation: somebody's measurements. */
describe('eight propellers in the wind tunnel', () => {
  it('is read whole', () => {
    expect(propellers).toHaveLength(8);
    expect(keptOut).toHaveLength(2);
    expect(measurements.length).toBeGreaterThan(800);
    const static10x5 = measurements.filter((row) => row.propeller === 'two-blade-10x5' && row.run === 'static').at(-1)!;
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

  // 95 % is stated; of ten propellers two may lie far off
  it.each(Object.entries(JUDGED_BASES))('from %s, lies inside the interval that is stated', (name, basis) => {
    const lines = linesOf(
      name,
      measuredTen().map((propeller) => judge(propeller, basis(propeller)!)),
    );
    for (const { quantity, inside } of lines) expect(inside, quantity).toBeGreaterThan(0.8);
  });
  // 10–20 % is usual for predictive models of this kind (common practice, no published source); the aims are 10 % of CT and 12 % of CP from
  // the blade's shape and 15 % of CT from diameter × pitch. Missed over all eight: CT from the shape, by the swept one alone.
  // How flat a broad blade stands beside its printed pitch is from fourteen others; the two here stand steeper than those.
  it.each<[ErrorBasis, number, number]>([
    ['stations', 0.155, 0.06],
    ['stations-and-pitch', 0.121, 0.07],
    ['family', 0.152, 0.08],
  ])('from %s scatters by at most %d in thrust and %d in power, without overall bias', (basis, thrust, power) => {
    const errors = propellerErrors(basis);
    expect(spread(errors, 'thrust').scatter).toBeLessThan(thrust);
    expect(spread(errors, 'power').scatter).toBeLessThan(power);
    expect(Math.abs(spread(errors, 'thrust').bias)).toBeLessThan(0.05);
    expect(Math.abs(spread(errors, 'power').bias)).toBeLessThan(0.05);
  });
  it.each<ErrorBasis>(['stations', 'stations-and-pitch', 'family'])(
    'meets the aims from %s for blades that run straight outwards',
    (basis) => {
      const errors = propellerErrors(basis, UNSWEPT);
      for (const quantity of ['thrust', 'power'] as const) {
        expect(spread(errors, quantity).scatter).toBeLessThan(0.1);
        expect(Math.abs(spread(errors, quantity).bias)).toBeLessThan(0.032);
      }
    },
  );
  // what counts: propellers that had no part in the fit
  it.each<[ErrorBasis, number, number]>([
    ['stations', 0.06, 0.05],
    ['stations-and-pitch', 0.057, 0.06],
    ['family', 0.112, 0.135],
  ])('foretells two that were kept out, from %s, to %d in thrust and %d in power (root mean square)', (basis, thrust, power) => {
    const errors = propellerErrors(basis, keptOut);
    expect(spread(errors, 'thrust').rms).toBeLessThan(thrust);
    expect(spread(errors, 'power').rms).toBeLessThan(power);
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
  it('stands in the theory page as it is', () => {
    const page = readFileSync(new URL('../../packages/sim-core/docs/theory.md', import.meta.url), 'utf8');
    const begin =
      '<!-- air-propeller errors, generated: node_modules/.bin/tsx --tsconfig test/tsconfig.json test/checks/print-propeller-errors.ts -->';
    const printed = page.slice(page.indexOf(begin) + begin.length, page.indexOf('<!-- end of air-propeller errors -->')).trim();
    expect(propellerErrorTable()).not.toMatch(/NaN|Infinity/);
    // the formatter sets the columns of a page; cells are what counts
    const cells = (table: string) => table.split('\n').map((line) => line.split('|').map((cell) => cell.trim().replace(/^-+$/, '-')));
    expect(cells(printed)).toEqual(cells(propellerErrorTable()));
  });
});
