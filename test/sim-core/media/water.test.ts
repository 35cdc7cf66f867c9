import {
  waterConductivity,
  waterDensity,
  waterKinematicViscosity,
  waterPrandtl,
  waterSpecificHeat,
  waterVapourPressure,
  waterViscosity,
} from '@shaftwork/sim-core/media/water';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities/constants';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const laws = {
  waterDensity,
  waterConductivity,
  waterKinematicViscosity,
  waterPrandtl,
  waterSpecificHeat,
  waterVapourPressure,
  waterViscosity,
};

describe('water', () => {
  it('salt makes it denser, more viscous, less conducting, slower to boil and cheaper to warm', () => {
    fc.assert(
      fc.property(fc.double({ min: ZERO_CELSIUS, max: ZERO_CELSIUS + 60, noNaN: true }), (T) => {
        expect(waterDensity('sea', T) - waterDensity('fresh', T)).toBeGreaterThan(25);
        expect(waterViscosity('sea', T)).toBeGreaterThan(1.05 * waterViscosity('fresh', T));
        expect(waterConductivity('sea', T)).toBeLessThan(waterConductivity('fresh', T));
        expect(waterVapourPressure('sea', T)).toBeLessThan(waterVapourPressure('fresh', T));
        expect(waterSpecificHeat('sea', T)).toBeLessThan(waterSpecificHeat('fresh', T));
      }),
    );
  });

  it('is densest at 4 °C', () => {
    const four = waterDensity('fresh', ZERO_CELSIUS + 4);
    expect(four).toBeGreaterThan(waterDensity('fresh', ZERO_CELSIUS + 2));
    expect(four).toBeGreaterThan(waterDensity('fresh', ZERO_CELSIUS + 6));
  });

  it.each(Object.entries(laws))('%s refuses ice, hot water and NaN', (_, law) => {
    for (const T of [ZERO_CELSIUS - 0.1, ZERO_CELSIUS + 60.1, Number.NaN]) {
      expect(() => law('fresh', T)).toThrow(RangeError);
      expect(() => law('sea', T)).toThrow(RangeError);
    }
  });
});
