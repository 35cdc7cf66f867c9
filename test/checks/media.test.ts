import { readFileSync } from 'node:fs';
import {
  airConductivity,
  airDensity,
  airKinematicViscosity,
  airPrandtl,
  airSpecificHeat,
  airViscosity,
} from '@shaftwork/sim-core/media/air';
import {
  geopotentialAltitude,
  pressureAtAltitude,
  SEA_LEVEL_PRESSURE,
  standardTemperature,
} from '@shaftwork/sim-core/media/standard-atmosphere';
import {
  type WaterKind,
  waterConductivity,
  waterDensity,
  waterKinematicViscosity,
  waterPrandtl,
  waterSpecificHeat,
  waterVapourPressure,
  waterViscosity,
} from '@shaftwork/sim-core/media/water';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities/constants';
import { describe, expect, it } from 'vitest';

/** Rows of a table beside this file; its source stands in its first lines. */
const rows = (file: string): Record<string, string>[] => {
  const lines = readFileSync(new URL(`./data/${file}`, import.meta.url), 'utf8')
    .trim()
    .split('\n');
  const [head, ...body] = lines.filter((line) => !line.startsWith('#')).map((line) => line.split(','));
  return body.map((cells) => Object.fromEntries(cells.map((cell, i) => [head![i]!, cell])));
};
const off = (found: number, printed: string | number | undefined): number => Math.abs(found / Number(printed) - 1);

describe('air at one atmosphere, Çengel & Ghajar, table A-15, −50 to 250 °C', () => {
  const table = rows('air-1atm.csv').map(
    (row) => ({ ...row, T: Number(row['T_C']) + ZERO_CELSIUS }) as Record<string, string> & { T: number },
  );
  it.each(table)('at $T_C °C', ({ T, ...row }) => {
    expect(off(airDensity(T, SEA_LEVEL_PRESSURE), row['rho_kg_m3'])).toBeLessThan(0.001);
    expect(off(airViscosity(T), row['mu_Pa_s'])).toBeLessThan(0.012);
    expect(off(airKinematicViscosity(T, SEA_LEVEL_PRESSURE), row['nu_m2_s'])).toBeLessThan(0.012);
    expect(off(airSpecificHeat(T), row['cp_J_kgK'])).toBeLessThan(0.006);
    // The table's conductivity, hence its Pr, departs from ISO 2533 (checked below to 0.1 %) and from modern measurements by 1.4–2.7 %, always
    // to the low side. Held from both ends, so that a change on our side still shows.
    const conductivity = airConductivity(T) / Number(row['k_W_mK']);
    expect(conductivity).toBeGreaterThan(1.013);
    expect(conductivity).toBeLessThan(1.027);
    expect(off(airPrandtl(T), row['Pr'])).toBeLessThan(0.031);
  });

  it('agrees with the reference equations of E.W. Lemmon & R.T. Jacobsen, Int. J. Thermophysics 25, 2004, table V at 300 K (memory)', () => {
    expect(off(airConductivity(300), 0.0263529)).toBeLessThan(0.005);
    expect(off(airViscosity(300), 18.523e-6)).toBeLessThan(0.005);
  });
});

describe('standard atmosphere, ICAO Doc 7488/3 = ISO 2533:1975 and US Standard Atmosphere 1976', () => {
  it.each(rows('standard-atmosphere.csv'))('$table at $h_geometric_m m', (row) => {
    const altitude = Number(row['h_geometric_m']);
    const geopotential = geopotentialAltitude(altitude);
    const temperature = standardTemperature(geopotential);
    // Printed to five or six digits; temperatures of the US table to 0.01 K.
    if (row['H_geopotential_m']) expect(Math.abs(geopotential - Number(row['H_geopotential_m']))).toBeLessThan(0.51);
    expect(Math.abs(temperature - Number(row['T_K']))).toBeLessThan(0.006);
    expect(off(pressureAtAltitude(altitude), row['p_Pa'])).toBeLessThan(1e-4);
    expect(off(airDensity(temperature, pressureAtAltitude(altitude)), row['rho_kg_m3'])).toBeLessThan(1e-4);
    expect(off(airViscosity(temperature), row['mu_Pa_s'])).toBeLessThan(1e-4);
    if (row['k_W_mK']) expect(off(airConductivity(temperature), row['k_W_mK'])).toBeLessThan(1e-4);
    if (row['nu_m2_s']) expect(off(airKinematicViscosity(temperature, pressureAtAltitude(altitude)), row['nu_m2_s'])).toBeLessThan(1e-4);
  });
});

describe('fresh water, Çengel & Ghajar, table A-9, 0–60 °C', () => {
  it.each(rows('water-saturated.csv'))('at $T_C °C', (row) => {
    const temperature = Number(row['T_C']) + ZERO_CELSIUS;
    expect(off(waterVapourPressure('fresh', temperature) / 1000, row['psat_kPa'])).toBeLessThan(0.001);
    expect(off(waterDensity('fresh', temperature), row['rho_kg_m3'])).toBeLessThan(0.001);
    expect(off(waterSpecificHeat('fresh', temperature), row['cp_J_kgK'])).toBeLessThan(0.001);
    expect(off(waterViscosity('fresh', temperature), row['mu_Pa_s'])).toBeLessThan(0.003);
    expect(off(waterConductivity('fresh', temperature), row['k_W_mK'])).toBeLessThan(0.01);
    expect(off(waterPrandtl('fresh', temperature), row['Pr'])).toBeLessThan(0.01);
  });

  it('reproduces the check values of IAPWS SR6-08(2011), table 8, at 298.15 K', () => {
    expect(off(waterDensity('fresh', 298.15), 997.047013)).toBeLessThan(1e-9);
    expect(off(waterViscosity('fresh', 298.15), 889.996774e-6)).toBeLessThan(1e-9);
  });
});

describe('water, ITTC 7.5-02-01-03', () => {
  it.each(rows('water-density-viscosity.csv'))('$fluid water at $T_C °C', (row) => {
    const kind = row['fluid'] as WaterKind;
    const temperature = Number(row['T_C']) + ZERO_CELSIUS;
    // Fresh: the table is at 101.3 kPa, our law at 100 kPa: 1 ppm. Sea: the table is a steady 0.048 kg/m³ heavier than UNESCO's equation of state, which is what
    // one further atmosphere of pressure would do (4.6·10⁻⁵).
    expect(off(waterDensity(kind, temperature), row['rho_kg_m3'])).toBeLessThan(kind === 'fresh' ? 3e-6 : 6e-5);
    if (row['nu_m2_s'])
      expect(off(waterKinematicViscosity(kind, temperature), row['nu_m2_s'])).toBeLessThan(kind === 'fresh' ? 3e-4 : 1.5e-3);
  });
});

describe('sea water at 20 °C and 35 g/kg, M.H. Sharqawy, J.H. Lienhard & S.M. Zubair 2010 (table values, memory)', () => {
  it('specific heat 4.00 kJ/(kg·K), conductivity 0.59 W/(m·K)', () => {
    expect(off(waterSpecificHeat('sea', ZERO_CELSIUS + 20), 4000)).toBeLessThan(0.005);
    expect(off(waterConductivity('sea', ZERO_CELSIUS + 20), 0.59)).toBeLessThan(0.01);
  });

  it('density stays within 0.05 % of their eq. 8 up to 60 °C, where UNESCO’s equation is extrapolated', () => {
    for (let t = 0; t <= 60; t += 5) {
      const s = 0.03516504;
      const fresh = 999.9 + t * (2.034e-2 + t * (-6.162e-3 + t * (2.261e-5 - t * 4.657e-8)));
      const salt = s * (802 + t * (-2.001 + t * (1.677e-2 - t * 3.06e-5))) - 1.613e-5 * t * t * s * s;
      expect(off(waterDensity('sea', ZERO_CELSIUS + t), fresh + salt)).toBeLessThan(5e-4);
    }
  });
});
