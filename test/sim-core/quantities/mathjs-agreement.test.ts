/** Verification: another unit calculator, mathjs 15, gives the same SI values. It has no rpm, kn, mph, ozf and %, which are spelt out for it. */
import { readQuantity } from '@shaftwork/sim-core/quantities/read-quantity';
import type { Dimension } from '@shaftwork/sim-core/quantities/units';
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';

const CASES: readonly (readonly [text: string, dimension: Dimension, theirs: string, si: string])[] = [
  ['24 °C', 'temperature', '24 degC', 'K'],
  ['-40 degC', 'temperature', '-40 degC', 'K'],
  ['75.2 °F', 'temperature', '75.2 degF', 'K'],
  ['300 K', 'temperature', '300 K', 'K'],
  ['8590 rpm', 'angularSpeed', '8590 cycle/minute', 'rad/s'],
  ['8590 1/min', 'angularSpeed', '8590 cycle/minute', 'rad/s'],
  ['8590 min⁻¹', 'angularSpeed', '8590 cycle/minute', 'rad/s'],
  ['40 krpm', 'angularSpeed', '40000 cycle/minute', 'rad/s'],
  ['360 °/s', 'angularSpeed', '360 deg/s', 'rad/s'],
  ['610 rpm/V', 'speedConstant', '610 cycle/(minute V)', 'rad/(s V)'],
  ['610 /min/V', 'speedConstant', '610 cycle/(minute V)', 'rad/(s V)'],
  ['85 mNm', 'torque', '85 mN m', 'N m'],
  ['1.2 N·m', 'torque', '1.2 N m', 'N m'],
  ['12 Ncm', 'torque', '12 N cm', 'N m'],
  ['3 kgf·cm', 'torque', '3 kgf cm', 'N m'],
  ['40 ozf·in', 'torque', '2.5 lbf in', 'N m'],
  ['53.8 mN·m/A', 'torqueConstant', '53.8 mN m/A', 'N m/A'],
  ['5.6 mV/rpm', 'torqueConstant', '5.6 mV minute/cycle', 'V s/rad'],
  ['2.4e-4 kg*m2', 'inertia', '2.4e-4 kg m^2', 'kg m^2'],
  ['34.7 g·cm²', 'inertia', '34.7 g cm^2', 'kg m^2'],
  ['700 mA', 'current', '700 mA', 'A'],
  ['16.8 V', 'voltage', '16.8 V', 'V'],
  ['65 mΩ', 'resistance', '65 mohm', 'ohm'],
  ['65 milliohm', 'resistance', '65 mohm', 'ohm'],
  ['2 MΩ', 'resistance', '2 Mohm', 'ohm'],
  ['20.6 µH', 'inductance', '20.6 uH', 'H'],
  ['470 uF', 'capacitance', '470 uF', 'F'],
  ['6.2 Ah', 'charge', '6.2 A hour', 'A s'],
  ['2200 mAh', 'charge', '2200 mAh', 'A s'],
  ['24 Wh', 'energy', '24 W hour', 'J'],
  ['1.3 kWh', 'energy', '1.3 kW hour', 'J'],
  ['1.8 W/K', 'conductance', '1.8 W/K', 'W/K'],
  ['700 W/(m²·K)', 'heatTransferCoefficient', '700 W/(m^2 K)', 'W/(m^2 K)'],
  ['7e2 W m^-2 K^-1', 'heatTransferCoefficient', '700 W/(m^2 K)', 'W/(m^2 K)'],
  ['0.39 kJ/(kg K)', 'specificHeat', '0.39 kJ/(kg K)', 'J/(kg K)'],
  ['12 Wh/K', 'heatCapacity', '12 W hour/K', 'J/K'],
  ['16 kHz', 'frequency', '16 kHz', 'Hz'],
  ['3.5 min', 'time', '3.5 minute', 's'],
  ['2 h', 'time', '2 hour', 's'],
  ['50 ns', 'time', '50 ns', 's'],
  ['9 in', 'length', '9 in', 'm'],
  ['4.5 ft', 'length', '4.5 ft', 'm'],
  ['1.3 mile', 'length', '1.3 mile', 'm'],
  ['0.60 m2', 'area', '0.60 m^2', 'm^2'],
  ['3.31 mm²', 'area', '3.31 mm^2', 'm^2'],
  ['1.5 L', 'volume', '1.5 litre', 'm^3'],
  ['236 g', 'mass', '236 g', 'kg'],
  ['8.3 oz', 'mass', '8.3 oz', 'kg'],
  ['2.5 lb', 'mass', '2.5 lbm', 'kg'],
  ['36 km/h', 'speed', '36 km/hour', 'm/s'],
  ['12 mph', 'speed', '12 mi/hour', 'm/s'],
  ['8 kn', 'speed', '14816 m/hour', 'm/s'],
  ['980 gf', 'force', '0.98 kgf', 'N'],
  ['2 lbf', 'force', '2 lbf', 'N'],
  ['32 ozf', 'force', '2 lbf', 'N'],
  ['1013.25 hPa', 'pressure', '1013.25 hPa', 'Pa'],
  ['1.01325 bar', 'pressure', '1.01325 bar', 'Pa'],
  ['1.2 g/cm³', 'density', '1.2 g/cm^3', 'kg/m^3'],
  ['1.1 mPa·s', 'viscosity', '1.1 mPa s', 'Pa s'],
  ['15 mm²/s', 'kinematicViscosity', '15 mm^2/s', 'm^2/s'],
  ['2 L/min', 'volumeFlow', '2 litre/minute', 'm^3/s'],
  ['30 g/s', 'massFlow', '30 g/s', 'kg/s'],
  ['30°', 'angle', '30 deg', 'rad'],
  ['2 turns', 'angle', '2 cycle', 'rad'],
];

/** Both sides round a handful of multiplications. */
const LAST_BITS = 2e-15;

describe('agreement with mathjs', () => {
  it.each(CASES)('%s (%s) is %s', (text, dimension, theirs, si) => {
    const read = readQuantity(text, dimension);
    const expected = unit(theirs).toNumber(si);
    expect(read.ok).toBe(true);
    if (read.ok) expect(Math.abs(read.value / expected - 1)).toBeLessThan(LAST_BITS);
  });
});
