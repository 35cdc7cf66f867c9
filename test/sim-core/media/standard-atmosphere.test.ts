import { airDensity } from '@shaftwork/sim-core/media/air';
import { standardPressure, standardTemperature } from '@shaftwork/sim-core/media/standard-atmosphere';
import { STANDARD_GRAVITY } from '@shaftwork/sim-core/quantities/constants';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

describe('standard atmosphere', () => {
  it('obeys hydrostatics dp/dH = −ρ·g everywhere', () => {
    fc.assert(
      fc.property(fc.double({ min: -4900, max: 19900, noNaN: true }), (H) => {
        const gradient = (standardPressure(H + 1) - standardPressure(H - 1)) / 2;
        expect(gradient / (-STANDARD_GRAVITY * airDensity(standardTemperature(H), standardPressure(H)))).toBeCloseTo(1, 6);
      }),
    );
  });

  it('passes the tropopause without a step', () => {
    expect(standardPressure(11000 - 1e-6) / standardPressure(11000)).toBeCloseTo(1, 9);
    expect(standardTemperature(11000 - 1e-6)).toBeCloseTo(standardTemperature(20000), 6);
  });

  it.each([-5001, 20001, Number.NaN])('refuses %d m', (H) => {
    expect(() => standardTemperature(H)).toThrow(RangeError);
    expect(() => standardPressure(H)).toThrow(RangeError);
  });
});
