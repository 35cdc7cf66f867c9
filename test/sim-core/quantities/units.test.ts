import { fromUnit, scaleOf, showIn, toUnit } from '@shaftwork/sim-core/quantities/convert';
import { DIMENSION_FACTS } from '@shaftwork/sim-core/quantities/dimension-facts';
import { formatQuantity } from '@shaftwork/sim-core/quantities/format-quantity';
import { readQuantity } from '@shaftwork/sim-core/quantities/read-quantity';
import { readUnit } from '@shaftwork/sim-core/quantities/read-unit';
import { type Dimension, UNITS, type UnitOf } from '@shaftwork/sim-core/quantities/units';
import { describe, expect, it } from 'vitest';

const DIMENSIONS = Object.keys(UNITS) as Dimension[];
const LISTED = DIMENSIONS.flatMap((dimension) => UNITS[dimension].map((unit) => [dimension, unit] as const));

describe('the table of units', () => {
  it.each(DIMENSIONS)('%s: the first unit is SI, scale 1', (dimension) => {
    expect(scaleOf(UNITS[dimension][0])).toEqual({ kind: 'linear', times: 1, over: 1, zero: 0 });
  });

  it.each(LISTED)('%s in %s has one scale, whichever dimension it is listed for', (dimension, unit) => {
    expect(readUnit(unit, dimension)).toEqual({ ok: true, scale: scaleOf(unit) });
  });

  it.each(LISTED)('%s in %s: SI → shown → SI', (_, unit) => {
    for (const si of [3.3e-6, 0.42, 17, 300]) {
      expect(Math.abs(fromUnit(toUnit(si, unit), unit) - si)).toBeLessThan(1e-12 * Math.max(si, 1));
      expect(showIn(unit)(si)).toBe(toUnit(si, unit));
    }
  });

  it.each(LISTED)('%s in %s is read back as itself', (dimension, unit) => {
    const text = unit === '1' ? '0.5' : `0.5 ${unit}`;
    const read = readQuantity(text, dimension);
    expect(read).toMatchObject({ ok: true, shownUnit: unit });
    expect(read.ok && read.value).toBe(fromUnit(0.5, unit));
  });

  it.each(DIMENSIONS)('%s is usually shown in one of its own units', (dimension) => {
    expect(UNITS[dimension]).toContain(DIMENSION_FACTS[dimension].shown);
  });

  it('refuses a spelling that is not listed', () => {
    expect(() => scaleOf('furlong' as UnitOf)).toThrow(RangeError);
  });
});

describe('converting', () => {
  it.each([
    [297.15, '°C', 24],
    [297.15, '°F', 75.2],
    [2 * Math.PI, 'rpm', 60],
    [7920, 'mA·h', 2200],
    [0.065, 'mohm', 65],
    [10, 'km/h', 36],
    [0.5, '%', 50],
    [0.8, 'K/W', 1.25],
    [0.0125, 'C', 45],
  ] as const)('%d SI is shown in %s as %d', (si, unit, shown) => {
    expect(toUnit(si, unit)).toBeCloseTo(shown, 10);
    expect(fromUnit(shown, unit)).toBeCloseTo(si, 12);
  });

  it('keeps decimal steps exact: 9 mohm is 0.009 ohm to the last bit', () => {
    for (let step = 1; step < 1000; step += 1) expect(fromUnit(step, 'mohm')).toBe(Number(`${step}e-3`));
    expect(9 * 0.001).not.toBe(0.009);
  });

  it('throws where the reciprocal or the gauge of nothing is asked for', () => {
    expect(() => toUnit(0, 'K/W')).toThrow(/reciprocal/);
    expect(() => fromUnit(0, 'K/W')).toThrow(/reciprocal/);
    expect(() => toUnit(0, 'AWG')).toThrow(RangeError);
  });

  it('lets the compiler refuse a unit of another dimension', () => {
    expect(toUnit<'angularSpeed'>(1, 'rad/s')).toBe(1);
    // @ts-expect-error ampere is no unit of angular speed
    expect(toUnit<'angularSpeed'>(1, 'A')).toBe(1);
    // @ts-expect-error ampere is no unit of temperature
    expect(formatQuantity(1, 'temperature', { unit: 'A' })).toContain('A');
    // @ts-expect-error furlong is no listed unit at all
    expect(() => toUnit(1, 'furlong')).toThrow(RangeError);
  });
});
