import { RPM, ZERO_CELSIUS } from '@shaftwork/sim-core/quantities/constants';
import { readQuantity } from '@shaftwork/sim-core/quantities/read-quantity';
import { halfWidth95 } from '@shaftwork/sim-core/quantities/spread';
import type { Dimension } from '@shaftwork/sim-core/quantities/units';
import { describe, expect, expectTypeOf, it } from 'vitest';

const value = (text: string, dimension: Dimension): number => {
  const read = readQuantity(text, dimension);
  if (!read.ok) throw new Error(`${text}: ${JSON.stringify(read)}`);
  return read.value;
};

describe('readQuantity', () => {
  it('reads areas and volumes in decimetres, and guesses that a large charge is in mA·h', () => {
    expect(readQuantity('36 dm2', 'area')).toMatchObject({ ok: true, value: expect.closeTo(0.36, 12) });
    expect(readQuantity('2 dm', 'length')).toMatchObject({ ok: true, value: expect.closeTo(0.2, 12) });
    expect(readQuantity('3000', 'charge')).toMatchObject({ ok: false, hint: expect.stringContaining('3000 mA·h') });
    expect(readQuantity('3', 'charge')).toMatchObject({ ok: false, hint: expect.stringContaining('3 A·h') });
  });
  it.each([
    ['2.2 Ah', 'charge', 7920],
    ['2200mAh', 'charge', 7920],
    ['96 mohm', 'resistance', 0.096],
    ['96 mΩ', 'resistance', 0.096],
    ['96\u202fmΩ', 'resistance', 0.096],
    ['96 Mohm', 'resistance', 96e6],
    ['920 rpm/V', 'speedConstant', 920 * RPM],
    ['5 degC', 'temperature', ZERO_CELSIUS + 5],
    ['\u22125 °C', 'temperature', ZERO_CELSIUS - 5],
    ['10 K', 'temperatureDifference', 10],
    ['10 °C', 'temperatureDifference', 10],
    ['18 °F', 'temperatureDifference', 10],
    ['-0.12 %/K', 'temperatureCoefficient', -0.0012],
    ['0.00393 1/K', 'temperatureCoefficient', 0.00393],
    ['1.25 K/W', 'conductance', 0.8],
    ['1.25 °C/W', 'conductance', 0.8],
    ['45 C', 'dischargeRate', 0.0125],
    ['45 1/h', 'dischargeRate', 0.0125],
    ['12 AWG', 'wireGauge', 3.3087728761114723e-6],
    ['2.5 mm²', 'wireGauge', 2.5e-6],
    ['80 %', 'fraction', 0.8],
    ['150 %', 'fraction', 1.5],
    ['0.8', 'fraction', 0.8],
    ['1', 'fraction', 1],
    ['5.4', 'ratio', 5.4],
    ['2 mN·m·s/rad', 'torquePerSpeed', 0.002],
    ['2 mN·m·s', 'torquePerSpeed', 0.002],
    ['30e4 Pa', 'pressure', 300000],
  ] as const)('%s (%s) is %d SI', (text, dimension, si) => {
    // Binary fractions: 2.2 · 3600 is 7920 but for the last bit.
    expect(Math.abs(value(text, dimension) / si - 1)).toBeLessThan(4 * Number.EPSILON);
  });

  it('keeps the unit for showing, the listed one of the same size', () => {
    expect(readQuantity('96 milliohm', 'resistance')).toMatchObject({ shownUnit: 'mohm' });
    expect(readQuantity('8590 1/min', 'angularSpeed')).toMatchObject({ shownUnit: 'rpm' });
    expect(readQuantity('10 °F', 'temperatureDifference')).toMatchObject({ shownUnit: 'K' });
    const read = readQuantity('96 mohm', 'resistance');
    if (read.ok) expectTypeOf(read.shownUnit).toEqualTypeOf<'ohm' | 'mohm'>();
  });

  it.each([
    ['', 'current', 'empty'],
    ['some amperes', 'current', 'not-a-number'],
    ['NaN A', 'current', 'not-a-number'],
    ['Infinity A', 'current', 'not-a-number'],
    ['0x1F A', 'current', 'not-a-number'],
    ['AWG 12', 'wireGauge', 'not-a-number'],
    ['10² mm', 'length', 'not-a-number'],
    ['1/2 in', 'length', 'not-a-number'],
    ['1,5 A', 'current', 'decimal-comma'],
    ['1,000 mm', 'length', 'thousands-separator'],
    ['1 000 mm', 'length', 'thousands-separator'],
    ['65', 'resistance', 'bare-number'],
    ['30e4', 'resistance', 'bare-number'],
    ['80', 'fraction', 'bare-number'],
    ['65 ± 5 %', 'resistance', 'bare-number'],
    ['24 ± 5 %', 'temperature', 'bare-number'],
    ['65 mOhms', 'resistance', 'wrong-unit'],
    ['920 KV', 'speedConstant', 'wrong-unit'],
    ['5 A;', 'current', 'wrong-unit'],
    ['5 A)', 'current', 'wrong-unit'],
    ['9"', 'length', 'wrong-unit'],
    ['12 V', 'current', 'wrong-dimension'],
    ['500 g', 'force', 'wrong-dimension'],
    ['5 J', 'torque', 'wrong-dimension'],
    ['5 N·m', 'energy', 'wrong-dimension'],
    ['5 kg·m²', 'torquePerSpeedSquared', 'wrong-dimension'],
    ['5 Hz', 'dischargeRate', 'wrong-dimension'],
    ['45 °C', 'dischargeRate', 'wrong-dimension'],
    ['12 AWG', 'area', 'wrong-dimension'],
    ['5 %', 'ratio', 'wrong-dimension'],
    ['1.25 K/W', 'heatCapacity', 'wrong-dimension'],
    ['24 C', 'temperature', 'ambiguous'],
    ['45 C', 'charge', 'ambiguous'],
    ['143 1/s', 'angularSpeed', 'ambiguous'],
    ['143 Hz', 'angularSpeed', 'ambiguous'],
    ['10 W/m² K', 'heatTransferCoefficient', 'ambiguous'],
    ['5 A 3 V', 'current', 'two-quantities'],
    ['5 A, 3 V', 'current', 'two-quantities'],
    ['3 min 20 s', 'time', 'two-quantities'],
    ['60 to 100 %', 'fraction', 'two-quantities'],
    ['-274 °C', 'temperature', 'out-of-range'],
    ['0 K/W', 'conductance', 'out-of-range'],
    ['1e400 A', 'current', 'out-of-range'],
    ['1e308 km', 'length', 'out-of-range'],
    ['1e300 mm', 'length', 'out-of-range'],
    ['1e-300 rpm/V', 'speedConstant', 'out-of-range'],
    ['100 AWG', 'wireGauge', 'out-of-range'],
    ['x'.repeat(500), 'length', 'not-a-number'],
    ['1 '.concat('('.repeat(150)), 'length', 'wrong-unit'],
  ] as const)('%j (%s): %s', (text, dimension, kind) => {
    expect(readQuantity(text, dimension)).toMatchObject({ ok: false, kind });
  });

  it('says what was due, what stood there and what to do', () => {
    expect(readQuantity('65', 'resistance')).toEqual({
      ok: false,
      kind: 'bare-number',
      expected: 'a resistance in mohm or ohm',
      found: '“65”, a number without a unit',
      hint: 'write 65 mohm, if that is the unit',
    });
    expect(readQuantity('12 V', 'current')).toMatchObject({ expected: 'a current in A or mA', found: '“V”, a voltage' });
    expect(readQuantity('5 K/W', 'heatCapacity')).toMatchObject({ found: '“K/W”, a thermal resistance' });
    expect(readQuantity('500 g', 'force')).toMatchObject({ hint: expect.stringContaining('gf') });
    expect(readQuantity('920 KV', 'speedConstant')).toMatchObject({ hint: expect.stringContaining('rpm/V') });
    expect(readQuantity('40 Wh', 'charge')).toMatchObject({ hint: expect.stringContaining('nominal voltage') });
    expect(readQuantity('9"', 'length')).toMatchObject({ hint: 'write in' });
    expect(readQuantity('9″', 'length')).toMatchObject({ hint: 'write in' });
  });

  it('does not quote a page back', () => {
    const read = readQuantity(`5 ${'q'.repeat(150)}`, 'length');
    expect(!read.ok && read.found.length).toBeLessThan(70);
  });
});

describe('the tolerance', () => {
  const tolerance = (text: string, dimension: Dimension) => {
    const read = readQuantity(text, dimension);
    if (!read.ok || read.tolerance === undefined) throw new Error(`${text}: ${JSON.stringify(read)}`);
    return { shape: read.tolerance.shape, halfWidth: halfWidth95(read.tolerance) };
  };

  it.each([
    ['6.2 Ah ± 8 %', 'charge', 'log-normal', 0.08],
    ['6.2 Ah +/- 8 %', 'charge', 'log-normal', 0.08],
    ['6.2 Ah ± 500 mAh', 'charge', 'log-normal', 0.5 / 6.2],
    ['6.2 ± 0.5 Ah', 'charge', 'log-normal', 0.5 / 6.2],
    ['(6.2 ± 0.5) Ah', 'charge', 'log-normal', 0.5 / 6.2],
    ['610 rpm/V ± 4 %', 'speedConstant', 'log-normal', 0.04],
    ['0.78 W/K ± 40 %', 'conductance', 'log-normal', 0.4],
    ['1.25 K/W ± 40 %', 'conductance', 'log-normal', 0.4],
    ['1.25 K/W ± 0.5 °C/W', 'conductance', 'log-normal', 0.4],
    ['24 °C ± 2 °C', 'temperature', 'normal', 2],
    ['24 °C ± 2 K', 'temperature', 'normal', 2],
    ['24 ± 2 °C', 'temperature', 'normal', 2],
    ['75 °F ± 9 °F', 'temperature', 'normal', 5],
    ['10 K ± 20 %', 'temperatureDifference', 'normal', 2],
    ['92 % ± 3 %', 'fraction', 'normal', 0.03],
    ['92 ± 3 %', 'fraction', 'normal', 0.03],
    ['0.92 ± 0.03', 'fraction', 'normal', 0.03],
    ['5.2 ± 2 %', 'ratio', 'log-normal', 0.02],
    ['5.2 ± 0.26', 'ratio', 'log-normal', 0.05],
    ['-2 m/s ± 10 %', 'speed', 'normal', 0.2],
    ['0 m/s ± 3 km/h', 'speed', 'normal', 3 / 3.6],
    ['6.2 Ah ± 0 %', 'charge', 'none', 0],
  ] as const)('%s (%s) is %s, %d', (text, dimension, shape, halfWidth) => {
    const read = tolerance(text, dimension);
    expect(read.shape).toBe(shape);
    expect(read.halfWidth).toBeCloseTo(halfWidth, 12);
  });

  it('is absent where none was written', () => {
    expect(readQuantity('6.2 Ah', 'charge')).not.toHaveProperty('tolerance');
  });

  it.each([
    ['24 °C ± 5 %', 'temperature', 'bad-tolerance', 'a % of a temperature has no meaning; give it in K'],
    ['24 °C ± 5', 'temperature', 'bad-tolerance', 'give the tolerance in K'],
    ['6.2 Ah ± 100 %', 'charge', 'bad-tolerance', 'less than 100 %'],
    ['6.2 Ah ± 7 Ah', 'charge', 'bad-tolerance', 'smaller than the value'],
    ['6.2 Ah ± -8 %', 'charge', 'bad-tolerance', 'never negative'],
    ['6.2 Ah ± 0.5', 'charge', 'bad-tolerance', 'its unit'],
    ['6.2 Ah ± 5 V', 'charge', 'bad-tolerance', 'same kind of unit'],
    ['6.2 Ah ± much', 'charge', 'bad-tolerance', 'a number follows'],
    ['6.2 Ah ±', 'charge', 'bad-tolerance', 'a number follows'],
    ['6.2 Ah ± 0,5 Ah', 'charge', 'bad-tolerance', 'write 0.5 Ah'],
    ['6.2 Ah ± 1 % ± 2 %', 'charge', 'bad-tolerance', 'one ±'],
    ['0 A ± 5 %', 'current', 'bad-tolerance', 'zero'],
    ['0 A ± 1 A', 'current', 'bad-tolerance', 'zero'],
    ['1.25 K/W ± 0.2 W/K', 'conductance', 'bad-tolerance', 'both'],
    ['12 AWG ± 1 AWG', 'wireGauge', 'bad-tolerance', 'mm²'],
    ['92 % ± 100 %', 'fraction', 'bad-tolerance', 'less than 100 %'],
    ['0.92 ± 3 %', 'fraction', 'ambiguous', 'points'],
    ['92 % ± 0.03', 'fraction', 'bad-tolerance', 'its unit'],
  ] as const)('%s (%s): %s', (text, dimension, kind, hint) => {
    expect(readQuantity(text, dimension)).toMatchObject({ ok: false, kind, hint: expect.stringContaining(hint) });
  });
});
