import { airDensity } from '@shaftwork/sim-core/media/air';
import {
  densityAtAltitude,
  geopotentialAltitude,
  pressureAtAltitude,
  SEA_LEVEL_PRESSURE,
  standardDensity,
  standardPressure,
  standardTemperature,
} from '@shaftwork/sim-core/media/standard-atmosphere';
import { DRY_AIR_GAS_CONSTANT, STANDARD_GRAVITY } from '@shaftwork/sim-core/quantities/constants';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

describe('standard atmosphere', () => {
  it('obeys hydrostatics dp/dH = −ρ·g everywhere', () => {
    fc.assert(
      fc.property(fc.double({ min: -4900, max: 19900, noNaN: true }), (H) => {
        const gradient = (standardPressure(H + 1) - standardPressure(H - 1)) / 2;
        expect(gradient / (-STANDARD_GRAVITY * standardDensity(H))).toBeCloseTo(1, 6);
      }),
    );
  });

  it('passes the tropopause without a step', () => {
    expect(standardPressure(11000 - 1e-6) / standardPressure(11000)).toBeCloseTo(1, 9);
    expect(standardTemperature(11000 - 1e-6)).toBeCloseTo(standardTemperature(20000), 6);
  });

  it('keeps the pressure of the altitude and takes the temperature of the day', () => {
    expect(pressureAtAltitude(0)).toBe(SEA_LEVEL_PRESSURE);
    expect(densityAtAltitude(1500, 308)).toBe(airDensity(308, pressureAtAltitude(1500)));
    expect(densityAtAltitude(1500, 308) * DRY_AIR_GAS_CONSTANT * 308).toBeCloseTo(pressureAtAltitude(1500), 6);
    expect(densityAtAltitude(1500, 308)).toBeLessThan(standardDensity(geopotentialAltitude(1500)));
  });

  it.each([-5001, 20001, Number.NaN])('refuses %d m', (H) => {
    expect(() => standardTemperature(H)).toThrow(RangeError);
    expect(() => standardPressure(H)).toThrow(RangeError);
  });
});
