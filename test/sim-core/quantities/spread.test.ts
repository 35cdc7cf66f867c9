import {
  drawn,
  halfWidth95,
  interval95,
  logNormal95,
  NO_SPREAD,
  normal95,
  STANDARD_DEVIATIONS_95,
  together,
} from '@shaftwork/sim-core/quantities/spread';
import { describe, expect, it } from 'vitest';

describe('spread', () => {
  it('has the 97.5 % quantile as half-width: the normal density integrates to 0.95 over it', () => {
    const steps = 2000;
    const width = (2 * STANDARD_DEVIATIONS_95) / steps;
    let area = 0;
    for (let step = 0; step < steps; step += 1) {
      const z = -STANDARD_DEVIATIONS_95 + (step + 0.5) * width;
      area += (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)) * width;
    }
    expect(area).toBeCloseTo(0.95, 7); // midpoint rule: error width²/24 · f' ≈ 4e-8
  });

  it('of two independent errors adds by squares, and with none is the other', () => {
    expect(together(normal95(3), normal95(4))).toEqual({ shape: 'normal', sd: expect.closeTo(5 / STANDARD_DEVIATIONS_95, 12) });
    expect(together(NO_SPREAD, logNormal95(0.08))).toEqual(logNormal95(0.08));
    expect(together(normal95(3), NO_SPREAD)).toEqual(normal95(3));
    expect(together(NO_SPREAD, NO_SPREAD)).toBe(NO_SPREAD);
  });

  it('reaches from x/(1 + p) to x·(1 + p) where log-normal', () => {
    const { low, high } = interval95(6.2, logNormal95(0.08));
    expect(high).toBeCloseTo(6.2 * 1.08, 12);
    expect(low).toBeCloseTo(6.2 / 1.08, 12);
  });

  it('reaches from x − h to x + h where normal', () => {
    const { low, high } = interval95(297.15, normal95(2));
    expect([low, high]).toEqual([expect.closeTo(295.15, 10), expect.closeTo(299.15, 10)]);
  });

  it('draws the nominal value at z = 0', () => {
    for (const spread of [NO_SPREAD, normal95(3), logNormal95(0.5)]) expect(drawn(-7, spread, 0)).toBe(-7);
  });

  it('never draws a positive scale to zero or below', () => {
    expect(drawn(0.065, logNormal95(0.9), -40)).toBeGreaterThan(0);
  });

  it('gives the lower end first for a negative value too', () => {
    const { low, high } = interval95(-2, logNormal95(0.25));
    expect([low, high]).toEqual([expect.closeTo(-2.5, 12), expect.closeTo(-1.6, 12)]);
  });

  it('gives back what was written', () => {
    expect(halfWidth95(logNormal95(0.15))).toBeCloseTo(0.15, 14);
    expect(halfWidth95(normal95(2.5))).toBeCloseTo(2.5, 14);
    expect(halfWidth95(NO_SPREAD)).toBe(0);
  });

  it('is none for a half-width of zero, and refuses a negative or endless one', () => {
    expect(normal95(0)).toEqual(NO_SPREAD);
    expect(logNormal95(0)).toEqual(NO_SPREAD);
    for (const wrong of [-0.1, Number.NaN, Infinity]) {
      expect(() => normal95(wrong)).toThrow(RangeError);
      expect(() => logNormal95(wrong)).toThrow(RangeError);
    }
  });
});
