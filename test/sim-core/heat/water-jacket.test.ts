import { coilConductance, JACKET_REST_SHARE, jacketConductance, tubeWaterCoefficient } from '@shaftwork/sim-core/heat/water-jacket';
import { waterConductivity } from '@shaftwork/sim-core/media/water';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities/constants';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const lake = ZERO_CELSIUS + 14;

describe('water jacket by boat speed', () => {
  it('gives its rated conductance at the reference speed and a tenth at rest', () => {
    expect(jacketConductance(1.8, 3, 3)).toBeCloseTo(1.8, 12);
    expect(jacketConductance(1.8, 3, 0)).toBeCloseTo(1.8 * JACKET_REST_SHARE, 12);
    expect(jacketConductance(1.8, 3, 0, 0.2)).toBeCloseTo(0.36, 12);
    expect(jacketConductance(1.8, 3, -2)).toBe(jacketConductance(1.8, 3, 2));
    expect(jacketConductance(1.8, 3, 6, 0, 1)).toBeCloseTo(3.6, 12);
  });

  it('rises with speed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 10, noNaN: true }), fc.double({ min: 0.01, max: 2, noNaN: true }), (speed, more) => {
        expect(jacketConductance(1.8, 3, speed + more)).toBeGreaterThan(jacketConductance(1.8, 3, speed));
      }),
    );
  });

  it('refuses a reference speed of nothing', () => expect(() => jacketConductance(1.8, 0, 2)).toThrow(/speed at which it holds/));
});

describe('water in a tube', () => {
  it('is Nu·k/d: laminar at a trickle, thousands of W/(m²·K) at speed', () => {
    expect(tubeWaterCoefficient('fresh', lake, 0.05, 0.004)).toBeCloseTo((3.66 * waterConductivity('fresh', lake)) / 0.004, 9);
    expect(tubeWaterCoefficient('fresh', lake, 2, 0.004)).toBeGreaterThan(5000);
  });

  it('carries nothing without flow, and no more than its wall with plenty', () => {
    expect(coilConductance('fresh', lake, 0, 0.004, 0.3)).toBe(0);
    const wall = tubeWaterCoefficient('sea', lake, 1, 0.004) * Math.PI * 0.004 * 0.3;
    const coil = coilConductance('sea', lake, 1, 0.004, 0.3);
    expect(coil).toBeLessThan(wall);
    expect(coil).toBeGreaterThan(0.8 * wall);
  });
});
