import { rotorCoefficients } from '@shaftwork/sim-core/parts/propeller/blade-element';
import { familyGeometry } from '@shaftwork/sim-core/parts/propeller/blade-families';
import { rotorFromGeometry } from '@shaftwork/sim-core/parts/propeller/blade-geometry';
import { describe, expect, it } from 'vitest';

const geometry = familyGeometry('stout', { diameter: 0.25, pitch: 0.2, blades: 2 });
const station = geometry.stations[0]!;

describe('a blade cut into elements', () => {
  it('covers the blade from the first station to the tip', () => {
    const { elements } = rotorFromGeometry(geometry);
    expect(elements.reduce((sum, element) => sum + element.width, 0)).toBeCloseTo(1 - station.radius, 12);
    for (const element of elements) expect(element.chord).toBeGreaterThan(0);
  });
  it('is cut finely enough: within 1 % of the static values of a blade cut eight times finer', () => {
    for (const family of ['thin', 'broad', 'stout', 'folding'] as const) {
      const blade = familyGeometry(family, { diameter: 0.25, pitch: 0.2, blades: 2 });
      const [coarse, fine] = [rotorFromGeometry(blade), rotorFromGeometry(blade, 112)];
      const rest = rotorCoefficients(fine, 0, 4e5);
      for (const advanceRatio of [0, 0.3, 0.6, 0.9]) {
        const [a, b] = [coarse, fine].map((rotor) => rotorCoefficients(rotor, advanceRatio, 4e5));
        expect(Math.abs(a!.thrustCoefficient - b!.thrustCoefficient)).toBeLessThan(0.01 * rest.thrustCoefficient);
        expect(Math.abs(a!.powerCoefficient - b!.powerCoefficient)).toBeLessThan(0.01 * rest.powerCoefficient);
      }
    }
  });
  it.each([
    [{ blades: 1.5 }, /whole number of blades/],
    [{ stations: geometry.stations.slice(0, 2) }, /at least three stations/],
    [{ hubRadius: 0.3 }, /hub radius/],
    [{ stations: [{ ...station, radius: 0.1 }, { ...station, chord: 0 }, ...geometry.stations.slice(1)] }, /station 2: the chord/],
    [{ stations: [station, station, ...geometry.stations.slice(1)] }, /station 2.*sort the stations/],
    [{ stations: [...geometry.stations.slice(0, -1), { ...station, radius: 1.1 }] }, /between 0 and 1/],
    [{ stations: [...geometry.stations.slice(0, -1), { ...station, radius: 1, twist: 2 }] }, /within ±90°/],
    [{ stations: [...geometry.stations.slice(0, -1), { ...station, radius: 1, camber: Number.NaN }] }, /not a finite number/],
    [{ stations: geometry.stations.slice(0, 5) }, /0.9 of the tip radius/],
  ])('refuses a blade that cannot be: %#', (change, message) => {
    expect(() => rotorFromGeometry({ ...geometry, ...change })).toThrow(message);
  });
});
