import {
  BLADE_FAMILIES,
  familyGeometry,
  measuredGeometry,
  printedAngle,
  stationAngle,
  twistWithPrintedPitch,
} from '@shaftwork/sim-core/parts/propeller/blade-families';
import { describe, expect, it } from 'vitest';

const size = { diameter: 0.25, pitch: 0.15, blades: 3 };

describe('blades of the usual kinds', () => {
  it('have constant pitch, its chord ¾° above a flat face, less where it is thin, below a hollow one, and a root of at most 45°', () => {
    for (const family of BLADE_FAMILIES) {
      const { stations, blades } = familyGeometry(family, size);
      expect(blades).toBe(3);
      for (const { radius, twist } of stations) {
        const helix = Math.atan(0.15 / (Math.PI * 0.25 * radius));
        expect(twist).toBeCloseTo(
          Math.min(Math.PI / 4, helix + ({ stout: 0.75, broad: -0.8 }[family as string] ?? 0.61) * (Math.PI / 180)),
          12,
        );
      }
    }
    expect(familyGeometry('stout', { ...size, pitch: 0.3 }).stations[0]!.twist).toBeCloseTo(Math.PI / 4, 12);
  });
  it('are broader for their size when small', () => {
    const chord = (diameter: number) => familyGeometry('stout', { ...size, diameter }).stations[4]!.chord;
    expect(chord(0.125) / chord(0.25)).toBeCloseTo(2 ** 0.25, 12);
  });
  it('are a quarter narrower where there are more than two', () => {
    const chord = (blades: number) => familyGeometry('thin', { ...size, blades }).stations[4]!.chord;
    expect(chord(3) / chord(2)).toBeCloseTo(0.75, 12);
    expect(chord(4)).toBe(chord(3));
  });
  it('lend camber and thickness to a measured blade', () => {
    const stations = [0.2, 0.325, 0.9, 1].map((radius) => ({ radius, chord: 0.15, twist: 0.3 }));
    const blade = measuredGeometry(stations, 'broad', 2);
    expect(blade.stations.map((station) => station.camber)).toEqual([0.075, 0.075, 0.075, 0.075]);
    expect(blade.stations[1]!.thickness).toBeCloseTo((0.07 + 0.055) / 2, 12);
    expect(blade.stations[3]!.thickness).toBe(0.045);
    expect(measuredGeometry([{ radius: 0.05, chord: 0.1, twist: 0.3 }], 'stout', 2)).toMatchObject({
      hubRadius: 0.05,
      stations: [{ thickness: 0.2 }],
    });
  });
  it('meet the printed pitch half way where the twist was measured too', () => {
    const helix = (radius: number) => Math.atan(0.15 / (Math.PI * 0.25 * radius)) + (0.75 * Math.PI) / 180;
    const measured = [0.3, 0.7, 0.8, 1].map((radius) => ({ radius, twist: helix(0.75) + 0.04 + (0.75 - radius) }));
    const turned = twistWithPrintedPitch(measured, 'stout', { diameter: 0.25, pitch: 0.15 });
    for (const [k, station] of turned.entries()) expect(station.twist).toBeCloseTo(measured[k]!.twist - 0.02, 12);
    expect(() => twistWithPrintedPitch(measured, 'stout', { diameter: 0.25, pitch: 0 })).toThrow(/positive/);
  });
  it('stand at 0.75 of the radius where straight lines between their stations put them, held past the ends', () => {
    const at = (...rows: readonly (readonly [number, number])[]) => stationAngle(rows.map(([radius, twist]) => ({ radius, twist })));
    expect(at([0.3, 0.5], [0.7, 0.4], [0.9, 0.2])).toBeCloseTo(0.35, 12);
    expect(at([0.3, 0.5], [0.75, 0.4], [0.9, 0.2])).toBe(0.4);
    expect(at([0.3, 0.5], [0.7, 0.4])).toBe(0.4);
    expect(at([0.8, 0.5], [0.9, 0.4])).toBe(0.5);
    expect(printedAngle('stout', { diameter: 0.25, pitch: 0.15 })).toBeCloseTo(
      Math.atan(0.15 / (Math.PI * 0.25 * 0.75)) + (0.75 * Math.PI) / 180,
      12,
    );
  });
  it('reach from the hub to the tip, and get no thicker outwards', () => {
    for (const family of BLADE_FAMILIES) {
      const { stations, hubRadius } = familyGeometry(family, size);
      expect([hubRadius, stations[0]?.radius, stations.at(-1)?.radius]).toEqual([0.1, 0.15, 1]);
      stations.forEach(({ radius, chord, thickness }, k) => {
        const inner = stations[k - 1];
        if (inner !== undefined) expect([radius > inner.radius, thickness <= inner.thickness]).toEqual([true, true]);
        expect(Math.min(chord, thickness)).toBeGreaterThan(0.02);
      });
    }
  });
  it('refuse a size that cannot be', () => {
    expect(() => familyGeometry('stout', { ...size, pitch: 0 })).toThrow(/positive/);
    expect(() => familyGeometry('stout', { ...size, diameter: Number.NaN })).toThrow(/positive/);
  });
});
