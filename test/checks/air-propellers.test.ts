import { describe, expect, it } from 'vitest';
import { isLeftOut, keptOut, LEFT_OUT, measurements, propellers } from './air-propeller-errors.js';

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
});
