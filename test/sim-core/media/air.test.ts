import {
  airConductivity,
  airDensity,
  airPrandtl,
  airSpecificHeat,
  airViscosity,
  COLDEST_AIR,
  HOTTEST_AIR,
} from '@shaftwork/sim-core/media/air';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const temperature = fc.double({ min: COLDEST_AIR, max: HOTTEST_AIR - 1, noNaN: true });

describe('air', () => {
  it('grows thinner, more viscous and more conducting as it warms', () => {
    fc.assert(
      fc.property(temperature, (T) => {
        expect(airDensity(T + 1, 1e5)).toBeLessThan(airDensity(T, 1e5));
        expect(airViscosity(T + 1)).toBeGreaterThan(airViscosity(T));
        expect(airConductivity(T + 1)).toBeGreaterThan(airConductivity(T));
      }),
    );
  });

  it('has a Prandtl number near 0.7 over the whole range', () => {
    fc.assert(
      fc.property(temperature, (T) => {
        expect(airPrandtl(T)).toBeGreaterThan(0.67);
        expect(airPrandtl(T)).toBeLessThan(0.76);
      }),
    );
  });

  it.each([COLDEST_AIR - 0.1, HOTTEST_AIR + 0.1, Number.NaN])('refuses %d K', (T) => {
    for (const law of [airViscosity, airConductivity, airSpecificHeat, airPrandtl]) expect(() => law(T)).toThrow(RangeError);
    expect(() => airDensity(T, 1e5)).toThrow(RangeError);
  });

  it.each([0, -1, Number.NaN])('refuses a pressure of %d Pa', (pressure) =>
    expect(() => airDensity(300, pressure)).toThrow(/positive pressure/),
  );
});
