/** Each law of convection as its source prints it, powers written as powers, over the range it holds for; and what is made of them in series. */
import {
  blendCoefficients,
  cylinderEndCoefficient,
  cylinderSideCoefficient,
  finChannelCoefficient,
  plateCoefficient,
} from '@shaftwork/sim-core/heat/convection';
import { type HeatSink, heatSinkConductance, straightFinEfficiency } from '@shaftwork/sim-core/heat/fins';
import { crossFlowNusselt, laminarPlateNusselt, plateNusselt, turbulentPlateNusselt } from '@shaftwork/sim-core/heat/nusselt-forced';
import { channelNaturalNusselt, cylinderNaturalNusselt, plateNaturalNusselt } from '@shaftwork/sim-core/heat/nusselt-natural';
import { turningCylinderNusselt, turningDiscNusselt } from '@shaftwork/sim-core/heat/nusselt-rotation';
import { capacityLimitedConductance, gnielinskiNusselt, tubeNusselt } from '@shaftwork/sim-core/heat/tube-flow';
import { coilConductance, jacketConductance, tubeWaterCoefficient } from '@shaftwork/sim-core/heat/water-jacket';
import { airConductivity, airKinematicViscosity, airPrandtl } from '@shaftwork/sim-core/media/air';
import { waterConductivity, waterDensity, waterKinematicViscosity, waterPrandtl, waterSpecificHeat } from '@shaftwork/sim-core/media/water';
import { describe, expect, it } from 'vitest';

const same = (ours: number, theirs: number): void => expect(ours / theirs).toBeCloseTo(1, 11);
const pairs = (first: readonly number[], second: readonly number[]) => first.flatMap((a) => second.map((b) => [a, b] as const));

describe('Nusselt numbers', () => {
  it('natural: Churchill & Chu 1975, Incropera eqs. 9.34 and 9.26', () => {
    for (const [ra, pr] of pairs([1, 1e3, 1e6, 1e9], [0.68, 0.71, 7])) {
      same(cylinderNaturalNusselt(ra, pr), (0.6 + (0.387 * ra ** (1 / 6)) / (1 + (0.559 / pr) ** (9 / 16)) ** (8 / 27)) ** 2);
      same(plateNaturalNusselt(ra, pr), (0.825 + (0.387 * ra ** (1 / 6)) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2);
    }
  });

  it('between fins: Bar-Cohen & Rohsenow 1984, Incropera eq. 9.47 (memory)', () => {
    for (const x of [0.3, 10, 1e3, 1e5]) same(channelNaturalNusselt(x), (576 / x ** 2 + 2.87 / x ** 0.5) ** -0.5);
  });

  it('forced: Churchill & Bernstein 1977, Incropera eqs. 7.54, 7.30 and 7.38', () => {
    for (const [re, pr] of pairs([10, 1e4, 3e5], [0.7, 5])) {
      const base = (0.62 * re ** 0.5 * pr ** (1 / 3)) / (1 + (0.4 / pr) ** (2 / 3)) ** 0.25;
      same(crossFlowNusselt(re, pr), 0.3 + base * (1 + (re / 282000) ** (5 / 8)) ** (4 / 5));
      same(laminarPlateNusselt(re, pr), 0.664 * re ** 0.5 * pr ** (1 / 3));
      same(turbulentPlateNusselt(re, pr), 0.037 * re ** 0.8 * pr ** (1 / 3));
      same(plateNusselt(re, pr), Math.hypot(0.664 * re ** 0.5 * pr ** (1 / 3), 0.037 * re ** 0.8 * pr ** (1 / 3)));
    }
  });

  it('turning: Becker’s cylinder, von Kármán’s disc, Cobb & Saunders beyond 250 000 (the last from memory)', () => {
    for (const [re, pr] of pairs([1e3, 1e5], [0.68, 0.72])) {
      same(turningCylinderNusselt(re, pr), 0.133 * re ** (2 / 3) * pr ** (1 / 3));
      same(turningDiscNusselt(re, pr), 0.326 * (pr / 0.71) ** 0.59 * re ** 0.5);
    }
    const inside = 0.326 * (0.7 / 0.71) ** 0.59 * 1e6 ** 0.5 * 0.25;
    same(turningDiscNusselt(1e6, 0.7), inside + 0.015 * 1e6 ** 0.8 * (1 - 0.25 ** 1.3));
    expect(turningDiscNusselt(250000 * (1 + 1e-9), 0.7)).toBeCloseTo(turningDiscNusselt(250000, 0.7), 4);
  });

  it('in a tube: Gnielinski 1976, Incropera eqs. 8.62 and 8.21, and straight between 2300 and 4000 (2013, memory)', () => {
    const turbulent = (re: number, pr: number): number => {
      const f = (0.79 * Math.log(re) - 1.64) ** -2;
      return ((f / 8) * (re - 1000) * pr) / (1 + 12.7 * (f / 8) ** 0.5 * (pr ** (2 / 3) - 1));
    };
    for (const [re, pr] of pairs([4000, 2e4, 1e6], [0.7, 7])) {
      same(gnielinskiNusselt(re, pr), turbulent(re, pr));
      same(tubeNusselt(re, pr), turbulent(re, pr));
    }
    same(tubeNusselt(3150, 7), 0.5 * 3.66 + 0.5 * turbulent(4000, 7));
    same(tubeNusselt(2640, 7), 0.8 * 3.66 + 0.2 * turbulent(4000, 7));
    expect(tubeNusselt(2300, 7)).toBe(3.66);
  });

  it('of a stream that warms: ṁc·(1 − e^(−NTU)), Incropera eq. 11.36a', () => {
    for (const [wall, stream] of pairs([0.5, 3], [0.2, 8]))
      same(capacityLimitedConductance(wall, stream), stream * (1 - Math.exp(-wall / stream)));
  });
});

describe('coefficients h = Nu·k/size, each with its own length, blended by third powers', () => {
  const [surface, air, pressure] = [350, 300, 9e4];
  const film = 325;
  const [k, nu, pr] = [airConductivity(film), airKinematicViscosity(film, pressure), airPrandtl(film)];
  const ra = (size: number): number => (9.80665 * 50 * size ** 3 * pr) / (film * nu ** 2);
  const blend = (...h: number[]): number => h.reduce((sum, each) => sum + each ** 3, 0) ** (1 / 3);

  it('a plate', () => {
    const natural = (plateNaturalNusselt(ra(0.06), pr) * k) / 0.06;
    same(plateCoefficient(surface, air, pressure, 0.06, 0), natural);
    same(plateCoefficient(surface, air, pressure, 0.06, -5), blend(natural, (plateNusselt((5 * 0.06) / nu, pr) * k) / 0.06));
  });

  it('the side of a can: across less its conduction, along on the length, turning on ω·D²', () => {
    const natural = (cylinderNaturalNusselt(ra(0.04), pr) * k) / 0.04;
    const across = ((crossFlowNusselt((3 * 0.04) / nu, pr) - 0.3) * k) / 0.04;
    const along = (plateNusselt((4 * 0.05) / nu, pr) * k) / 0.05;
    const turning = (turningCylinderNusselt((500 * 0.04 ** 2) / nu, pr) * k) / 0.04;
    const side = (cross: number, stream: number, spin: number) =>
      cylinderSideCoefficient(surface, air, pressure, 0.04, 0.05, cross, stream, spin);
    same(side(0, 0, 0), natural);
    same(side(-3, 0, 0), blend(natural, across));
    same(side(0, -4, 0), blend(natural, along));
    same(side(0, 0, -500), blend(natural, turning));
    same(side(3, 4, 500), blend(natural, across, along, turning));
  });

  it('its end: a disc on its radius', () => {
    const natural = (plateNaturalNusselt(ra(0.04), pr) * k) / 0.04;
    const along = (plateNusselt((4 * 0.04) / nu, pr) * k) / 0.04;
    const turning = (turningDiscNusselt((500 * 0.02 ** 2) / nu, pr) * k) / 0.02;
    const end = (stream: number, spin: number) => cylinderEndCoefficient(surface, air, pressure, 0.04, stream, spin);
    same(end(0, 0), natural);
    same(end(-4, 0), blend(natural, along));
    same(end(0, -500), blend(natural, turning));
    same(end(4, 500), blend(natural, along, turning));
  });

  it('between fins, on their spacing, by Ra·S/L', () => {
    same(finChannelCoefficient(surface, air, pressure, 0.006, 0.05), (channelNaturalNusselt((ra(0.006) * 0.006) / 0.05) * k) / 0.006);
  });

  it('a blend of one alone is that one; sizes of nothing are refused', () => {
    same(blendCoefficients(4, 0), 4);
    same(blendCoefficients(3, 4, 5), 6);
    same(blendCoefficients(1, 6, 8, 10), Math.cbrt(12 ** 3 + 1));
    for (const size of [0, -1, Number.NaN]) {
      expect(() => plateCoefficient(surface, air, pressure, size, 0)).toThrow(/positive size/);
      expect(() => cylinderSideCoefficient(surface, air, pressure, size, 0.05, 0, 0, 0)).toThrow(RangeError);
      expect(() => cylinderSideCoefficient(surface, air, pressure, 0.05, size, 0, 0, 0)).toThrow(RangeError);
      expect(() => cylinderEndCoefficient(surface, air, pressure, size, 0, 0)).toThrow(RangeError);
      expect(() => finChannelCoefficient(surface, air, pressure, size, 0.05)).toThrow(RangeError);
      expect(() => finChannelCoefficient(surface, air, pressure, 0.05, size)).toThrow(RangeError);
    }
  });
});

describe('fins and water', () => {
  it('a straight fin: tanh(mL)/(mL), m² = 2h/(k·t), Incropera eqs. 3.86 and 3.89', () => {
    // h 100, k 200, t 2 mm, L 30 mm: mL = 0.03·√500 = 0.67082; tanh/mL 0.87298
    expect(straightFinEfficiency(100, 200, 2e-3, 0.03)).toBeCloseTo(Math.tanh(0.03 * Math.sqrt(500)) / (0.03 * Math.sqrt(500)), 12);
  });

  it('a sheet of them: h·(N·2·W·L_c·η + free base), L_c = L + t/2, Incropera eqs. 3.88 and 3.102', () => {
    const sink: HeatSink = { fins: 7, finHeight: 0.02, finThickness: 0.001, length: 0.04, breadth: 0.037, conductivity: 150 };
    const corrected = 0.0205;
    const m = Math.sqrt((2 * 60) / (150 * 0.001));
    const efficiency = Math.tanh(m * corrected) / (m * corrected);
    same(heatSinkConductance(sink, 60), 60 * (7 * 2 * 0.04 * corrected * efficiency + (0.037 - 7 * 0.001) * 0.04));
  });

  it('a jacket between rest and its reference: s + (1 − s)·(V/V_ref)^n', () => {
    same(jacketConductance(1.8, 3, 1.5), 1.8 * (0.1 + 0.9 * 0.5 ** 0.6));
    same(jacketConductance(1.8, 3, 4.5, 0.3, 0.8), 1.8 * (0.3 + 0.7 * 1.5 ** 0.8));
  });

  it('water in a coil: Nu·k/d on its wall, ρ·u·π·d²/4·c through it', () => {
    for (const kind of ['fresh', 'sea'] as const) {
      const reynolds = (1.5 * 0.004) / waterKinematicViscosity(kind, 290);
      const h = (tubeNusselt(reynolds, waterPrandtl(kind, 290)) * waterConductivity(kind, 290)) / 0.004;
      same(tubeWaterCoefficient(kind, 290, -1.5, 0.004), h);
      const rate = waterDensity(kind, 290) * 1.5 * (Math.PI / 4) * 0.004 ** 2 * waterSpecificHeat(kind, 290);
      same(coilConductance(kind, 290, -1.5, 0.004, 0.3), rate * (1 - Math.exp((-h * Math.PI * 0.004 * 0.3) / rate)));
    }
  });
});
