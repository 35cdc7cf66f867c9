/** The laws of air and water as their sources print them, and check values that the sources print for their users. */
import {
  airConductivity,
  airDensity,
  airKinematicViscosity,
  airPrandtl,
  airSpecificHeat,
  airViscosity,
  COLDEST_AIR,
  HOTTEST_AIR,
} from '@shaftwork/sim-core/media/air';
import {
  geopotentialAltitude,
  pressureAtAltitude,
  standardPressure,
  standardTemperature,
} from '@shaftwork/sim-core/media/standard-atmosphere';
import {
  waterConductivity,
  waterDensity,
  waterKinematicViscosity,
  waterPrandtl,
  waterSpecificHeat,
  waterVapourPressure,
  waterViscosity,
} from '@shaftwork/sim-core/media/water';
import { describe, expect, it } from 'vitest';

const same = (ours: number, theirs: number): void => expect(ours / theirs).toBeCloseTo(1, 11);
const ZERO = 273.15;

describe('air', () => {
  it.each([180, 288.15, 450, 1050])('at %d K: ISO 2533 for ρ, μ and k, Irvine & Liley for cp', (T) => {
    same(airDensity(T, 9e4), 9e4 / (287.05287 * T));
    same(airViscosity(T), (1.458e-6 * T ** 1.5) / (T + 110.4));
    same(airConductivity(T), (2.648151e-3 * T ** 1.5) / (T + 245.4 * 10 ** (-12 / T)));
    same(airSpecificHeat(T), 1034.09 - 0.284887 * T + 7.816818e-4 * T ** 2 - 4.970786e-7 * T ** 3 + 1.077024e-10 * T ** 4);
    same(airPrandtl(T), (airViscosity(T) * airSpecificHeat(T)) / airConductivity(T));
    same(airKinematicViscosity(T, 9e4), airViscosity(T) / airDensity(T, 9e4));
  });

  it('says which range it holds for', () => {
    expect([COLDEST_AIR, HOTTEST_AIR]).toEqual([180, 1050]);
    expect(() => airViscosity(179)).toThrow('180 to 1050 K; asked for 179 K');
  });
});

describe('the standard atmosphere', () => {
  it('has at 11 and 20 km what ISO 2533 prints: 216.65 K and 22 632.0 Pa, 5474.87 Pa', () => {
    expect(standardTemperature(11000)).toBeCloseTo(216.65, 9);
    expect(standardPressure(11000)).toBeCloseTo(22632.0, 0);
    expect(standardPressure(20000)).toBeCloseTo(5474.87, 1);
    expect(standardTemperature(-5000)).toBeCloseTo(320.65, 9);
    expect(standardPressure(-5000)).toBeCloseTo(177687, -2);
    expect(pressureAtAltitude(0)).toBe(101325);
    same(geopotentialAltitude(8000), (6356766 * 8000) / 6364766);
    expect(() => standardTemperature(20001)).toThrow('-5000 to 20000 m; asked for 20001 m');
  });
});

describe('water', () => {
  it('sea: the check values of UNESCO’s equation of state, by what salt adds (Fofonoff & Millard 1983)', () => {
    // ρ(S = 35) − ρ(S = 0) at 5 and 25 °C: 1027.67547 − 999.96675 and 1023.34306 − 997.04796 kg/m³
    for (const [t, salt] of [
      [5, 1027.67547 - 999.96675],
      [25, 1023.34306 - 997.04796],
    ])
      expect(waterDensity('sea', ZERO + t) - waterDensity('fresh', ZERO + t)).toBeCloseTo(salt, 4);
  });

  it.each([0, 25, 60])('at %d °C: viscosity and conductivity of SR6-08, salt by Sharqawy’s eqs. 22 and Jamieson’s', (t) => {
    const x = (ZERO + t) / 300;
    const fresh = 1e-6 * (280.68 / x ** 1.9 + 511.45 / x ** 7.7 + 61.131 / x ** 19.6 + 0.45903 / x ** 40);
    same(waterViscosity('fresh', ZERO + t), fresh);
    const s = 0.03516504;
    const [a, b] = [1.541 + 1.998e-2 * t - 9.52e-5 * t ** 2, 7.974 - 7.561e-2 * t + 4.724e-4 * t ** 2];
    same(waterViscosity('sea', ZERO + t), fresh * (1 + a * s + b * s ** 2));
    const k = 1.663 / x ** 1.15 - 1.7781 / x ** 3.4 + 1.1567 / x ** 6 - 0.432115 / x ** 7.6;
    same(waterConductivity('fresh', ZERO + t), k);
    same(waterConductivity('sea', ZERO + t), k / (1 + 0.22 * s));
    for (const kind of ['fresh', 'sea'] as const) {
      same(waterKinematicViscosity(kind, ZERO + t), waterViscosity(kind, ZERO + t) / waterDensity(kind, ZERO + t));
      same(
        waterPrandtl(kind, ZERO + t),
        (waterViscosity(kind, ZERO + t) * waterSpecificHeat(kind, ZERO + t)) / waterConductivity(kind, ZERO + t),
      );
    }
  });

  it.each([0, 25, 60])('at %d °C: density and specific heat of SR6-08, eqs. 2 and 4, sum by sum', (t) => {
    const T = ZERO + t;
    const [R, alpha, beta] = [461.51805, 10 / (593 - T), 10 / (T - 232)];
    const sum = (terms: readonly (readonly [number, number])[], of: number, plus = 0): number =>
      terms.reduce((all, [n, c]) => all + (plus === 0 ? c * of ** n : n * (n + 1) * c * of ** (n + plus)), 0);
    // table 1: a_n of v with their powers n, b_m; table 2: c_n and d_m
    const volume =
      0.0193763157 +
      sum(
        [
          [4, 6744.58446],
          [5, -222521.604],
          [7, 100231247],
          [8, -1635521180],
          [9, 8322996580],
        ],
        alpha,
      ) + // prettier-ignore
      sum(
        [
          [1, 5.78545292e-3],
          [2, -0.0153195665],
          [3, 0.0311337859],
          [4, -0.0423546241],
          [5, 0.0338713507],
          [6, -0.0119946761],
        ],
        beta,
      ); // prettier-ignore
    same(waterDensity('fresh', T), 1e5 / (10 * R * volume));
    const heat =
      sum(
        [
          [4, -166147.0539],
          [5, 2708781.64],
          [7, -155719154.4],
        ],
        alpha,
        2,
      ) + // prettier-ignore
      sum(
        [
          [2, -0.8237426256],
          [3, 1.908956353],
          [4, -2.017597384],
          [5, 0.8546361348],
        ],
        beta,
        2,
      ); // prettier-ignore
    same(waterSpecificHeat('fresh', T), -R * (-8.983025854 + (T / 10) * heat));
  });

  it.each([0, 25, 60])('at %d °C: specific heat of sea water, Jamieson et al. 1969, eq. 9 of Sharqawy et al.', (t) => {
    const [T, S] = [ZERO + t, 35.16504];
    const A = 5328 - 97.6 * S + 0.404 * S ** 2;
    const B = -6.913 + 0.7351 * S - 3.15e-3 * S ** 2;
    const C = 9.6e-3 - 1.927e-3 * S + 8.23e-6 * S ** 2;
    const D = 2.5e-6 + 1.666e-6 * S - 7.125e-9 * S ** 2;
    same(waterSpecificHeat('sea', T), A + B * T + C * T ** 2 + D * T ** 3);
  });

  it('boils at 3.53681 kPa at 300 K, the check value of IAPWS-IF97 (from memory), by the sum of SR1-86', () => {
    expect(waterVapourPressure('fresh', 300) / 3536.81).toBeCloseTo(1, 3);
    for (const T of [ZERO, 300, ZERO + 60]) {
      const tau = 1 - T / 647.096;
      const sum =
        -7.85951783 * tau +
        1.84408259 * tau ** 1.5 -
        11.7866497 * tau ** 3 +
        22.6807411 * tau ** 3.5 -
        15.9618719 * tau ** 4 +
        1.80122502 * tau ** 7.5;
      const fresh = 22.064e6 * Math.exp((647.096 / T) * sum);
      same(waterVapourPressure('fresh', T), fresh);
      same(waterVapourPressure('sea', T), fresh * (1 - 0.000537 * 35));
    }
  });

  it('is water from 0 to 60 °C, both ends in', () => {
    for (const T of [ZERO, ZERO + 60]) for (const kind of ['fresh', 'sea'] as const) expect(waterDensity(kind, T)).toBeGreaterThan(980);
    expect(() => waterDensity('fresh', 272)).toThrow('(0 to 60 °C); asked for 272 K');
  });
});
