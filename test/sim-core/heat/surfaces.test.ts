/** What can, mount, compartment and thermometer make of the laws of convection and radiation, by their definitions. */
import { canEndHeat, canSideHeat, freeSide } from '@shaftwork/sim-core/heat/can-surface';
import { compartmentConvection, compartmentFactor } from '@shaftwork/sim-core/heat/compartment';
import { blendCoefficients, cylinderEndCoefficient, cylinderSideCoefficient, plateCoefficient } from '@shaftwork/sim-core/heat/convection';
import { emptyHeatOutlets, HEAT_WAY_IDS, HEAT_WAYS, sharers } from '@shaftwork/sim-core/heat/heat-ways';
import { mountHeat, mountLength, throughMount } from '@shaftwork/sim-core/heat/mount';
import {
  followThermometer,
  infraredReading,
  surfaceOfInfrared,
  THERMOMETER_PLACES,
  thermometerAfter,
  thermometerShare,
  thermometerSource,
} from '@shaftwork/sim-core/heat/thermometer';
import { airConductivity, airKinematicViscosity, airPrandtl } from '@shaftwork/sim-core/media/air';
import { describe, expect, it } from 'vitest';

const SIGMA = 5.670374419e-8;
const radiated = (a: number, b: number, emissivity: number): number => emissivity * SIGMA * (a ** 4 - b ** 4);
const same = (ours: number, theirs: number): void => expect(ours / theirs).toBeCloseTo(1, 9);

describe('the can', () => {
  const can = {
    sideArea: 0.006,
    sideCovered: 0.25,
    endArea: 0.002,
    canDiameter: 0.04,
    canLength: 0.05,
    convectionFactor: 1.2,
    emissivity: 0.8,
    openness: 0.5,
  };

  it('side: f·h·A·ΔT and radiation from what nothing covers, turning eased by openness^1.5', () => {
    expect(freeSide(can)).toBeCloseTo(0.0045, 15);
    const h = cylinderSideCoefficient(360, 300, 1e5, 0.04, 0.05, 0, 4, 700 * 0.5 ** 1.5);
    same(canSideHeat(can, 360, 300, 1e5, 4, 700), 0.0045 * (1.2 * h * 60 + radiated(360, 300, 0.8)));
    const still = cylinderSideCoefficient(360, 300, 1e5, 0.04, 0.05, 0, 4, 0);
    same(canSideHeat({ ...can, openness: -0.1 }, 360, 300, 1e5, 4, 700), 0.0045 * (1.2 * still * 60 + radiated(360, 300, 0.8)));
    same(canSideHeat({ ...can, openness: 0 }, 360, 300, 1e5, 4, 700), 0.0045 * (1.2 * still * 60 + radiated(360, 300, 0.8)));
  });

  it('ends: the same with openness²', () => {
    const h = cylinderEndCoefficient(360, 300, 1e5, 0.04, 4, 700 * 0.25);
    same(canEndHeat(can, 360, 300, 1e5, 4, 700), 0.002 * (1.2 * h * 60 + radiated(360, 300, 0.8)));
    const still = cylinderEndCoefficient(360, 300, 1e5, 0.04, 4, 0);
    same(canEndHeat({ ...can, openness: -0.1 }, 360, 300, 1e5, 4, 700), 0.002 * (1.2 * still * 60 + radiated(360, 300, 0.8)));
  });

  it('gives nothing without a surface, and no number where the laws end', () => {
    expect(canSideHeat({ ...can, sideCovered: 1 }, 360, 300, 1e5, 4, 700)).toBe(0);
    expect(canEndHeat({ ...can, endArea: 0 }, 360, 300, 1e5, 4, 700)).toBe(0);
    for (const wild of [181, 1000, Number.NaN]) {
      expect(canSideHeat(can, wild, 300, 1e5, 0, 0)).toBeNaN();
      expect(canEndHeat(can, wild, 300, 1e5, 0, 0)).toBeNaN();
    }
    expect(canSideHeat(can, 999, 300, 1e5, 0, 0)).toBeGreaterThan(0);
    expect(canEndHeat(can, 182, 300, 1e5, 0, 0)).toBeLessThan(0);
  });
});

describe('the mount', () => {
  const mount = { area: 0.008, emissivity: 0.7 };

  it('joint and surface in series; its length is the edge of one face', () => {
    expect(mountLength(0.008)).toBeCloseTo(Math.sqrt(0.004), 15);
    expect(1 / throughMount(0.5, 0.008, 20)).toBeCloseTo(1 / 0.5 + 1 / (0.008 * 20), 12);
    const length = Math.sqrt(0.004);
    const still = plateCoefficient(340, 300, 1e5, length, 0);
    const h = (stream: number) => blendCoefficients(still, stream) + radiated(340, 300, 0.7) / 40;
    same(mountHeat({ toMount: 0.5, mount }, 340, 300, 1e5, 0), throughMount(0.5, 0.008, h(0)) * 40);
    // laminar plate, Incropera eq. 7.30
    const reynolds = (6 * length) / airKinematicViscosity(320, 1e5);
    const stream = (0.664 * reynolds ** 0.5 * airPrandtl(320) ** (1 / 3) * airConductivity(320)) / length;
    same(mountHeat({ toMount: 0.5, mount }, 340, 300, 1e5, -6), throughMount(0.5, 0.008, h(stream)) * 40);
  });

  it('is the joint alone where no surface is told, nothing without a joint, no number where the laws end', () => {
    expect(mountHeat({ toMount: 0.5, mount: undefined }, 340, 300, 1e5, 3)).toBe(20);
    expect(mountHeat({ toMount: 0, mount }, 340, 300, 1e5, 3)).toBe(0);
    for (const wild of [181, 1000, Number.NaN]) expect(mountHeat({ toMount: 0.5, mount }, wild, 300, 1e5, 0)).toBeNaN();
    expect(mountHeat({ toMount: 0.5, mount }, 182, 300, 1e5, 0)).toBeLessThan(0);
    expect(mountHeat({ toMount: 0.5, mount }, 999, 300, 1e5, 0)).toBeGreaterThan(0);
  });
});

it('the air of a compartment: 1 + c·((n³ + f³)^⅓ − 1), n² = p/p₀, f² = p/p₀·v/0.1', () => {
  const [n, f] = [Math.sqrt(0.8), Math.sqrt(0.8 * 30)];
  same(compartmentConvection(0.8 * 101325, 3), Math.cbrt(n ** 3 + f ** 3));
  same(compartmentFactor(0.6, 4), 1 + 0.6 * 3);
});

describe('ways out', () => {
  it('each is said in words of its own and starts with nothing; the cells’ is shared by all drives', () => {
    expect(new Set(HEAT_WAY_IDS.map((way) => HEAT_WAYS[way].words)).size).toBe(10);
    for (const way of HEAT_WAY_IDS) expect(HEAT_WAYS[way].words.length).toBeGreaterThan(5);
    expect(emptyHeatOutlets()).toEqual(Object.fromEntries(HEAT_WAY_IDS.map((way) => [way, 0])));
    expect(HEAT_WAY_IDS.filter((way) => sharers(way, 4) === 4)).toEqual(['cells']);
    expect(sharers('strap', 4)).toBe(1);
  });
});

describe('a thermometer', () => {
  const coils = THERMOMETER_PLACES['beside-coils'];

  it('reads less of the excess in a stream, and follows it with its lag', () => {
    expect(thermometerShare(coils, 0)).toBe(0.36);
    expect(thermometerShare(coils, -10)).toBeCloseTo(0.36 / 1.55, 12);
    expect(thermometerAfter(5, 20, 50, 50)).toBeCloseTo(20 - 15 / Math.E, 12);
    expect(thermometerAfter(5, 20, 50, 0)).toBe(5);
    const rising = followThermometer(coils, [
      { t: 0, excess: 100, speed: 0 },
      { t: 50, excess: 200, speed: 10 },
    ]);
    expect(rising[0]).toBeCloseTo(36, 12);
    const towards = (0.36 / 1.55) * 150;
    expect(rising[1]).toBeCloseTo(towards + (36 - towards) / Math.E, 10);
  });

  it('of every place has words, a share of one at most and a lag', () => {
    for (const { words, share, factor, lag } of Object.values(THERMOMETER_PLACES)) {
      expect(words.length).toBeGreaterThan(10);
      expect(share).toBeLessThan(1);
      expect(factor).toBeGreaterThan(1);
      expect(lag).toBeGreaterThan(0);
    }
  });

  it('is meant for one body, or for the mean of the motor by heat capacity', () => {
    const temperature = { winding: 400, stator: 380, can: 350, magnets: 340, controller: 330, cells: 310, end: 345 };
    const capacity = { winding: 10, stator: 30, can: 40, magnets: 20, controller: 500, cells: 900 };
    const source = (place: keyof typeof THERMOMETER_PLACES) => thermometerSource(THERMOMETER_PLACES[place], capacity, temperature);
    expect(['on-can', 'on-end', 'in-slot', 'on-controller', 'on-cells'].map((place) => source(place as 'on-can'))).toEqual([
      350, 345, 400, 330, 310,
    ]);
    expect(source('beside-coils')).toBeCloseTo((4000 + 11400 + 14000 + 6800) / 100, 9);
  });

  it('that sees infrared is set for one emissivity: ε_set·T⁴ balances, and reading undoes surface', () => {
    const reading = infraredReading(400, 0.3, 300);
    expect(0.95 * (reading ** 4 - 300 ** 4)).toBeCloseTo(0.3 * (400 ** 4 - 300 ** 4), -1);
    expect(surfaceOfInfrared(reading, 0.3, 300)).toBeCloseTo(400, 9);
    expect(infraredReading(400, 0.3, 300, 0.3)).toBeCloseTo(400, 9);
  });
});
