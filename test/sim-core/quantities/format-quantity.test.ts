import { formatNumber, formatQuantity, NARROW_SPACE, unitSign, usualUnit } from '@shaftwork/sim-core/quantities/format-quantity';
import { describe, expect, it } from 'vitest';

describe('formatNumber', () => {
  it.each([
    [0, {}, '0'],
    [-0, {}, '0'],
    [1, {}, '1.00'],
    [99.96, {}, '100'],
    [9.996, {}, '10.0'],
    [0.000999951, {}, '0.00100'],
    [12345, {}, '12345'],
    [-Math.PI, {}, '\u22123.14'],
    [Math.PI, { significant: 5 }, '3.1416'],
    [Math.PI, { decimals: 1 }, '3.1'],
    [Math.PI, { significant: 5, decimals: 0 }, '3'],
    [-0.001, { decimals: 1 }, '0.0'],
    [2.4e-7, {}, '2.40e-7'],
    [-2.4e-7, {}, '\u22122.40e-7'],
    [1.5e15, {}, '1.50e15'],
    [1.5e15, { decimals: 2 }, '1.5e15'],
  ])('%d %j is %s', (value, format, text) => {
    expect(formatNumber(value, format)).toBe(text);
  });

  it('refuses what is no number', () => {
    for (const value of [Number.NaN, Infinity, -Infinity]) expect(() => formatNumber(value)).toThrow(RangeError);
  });
});

describe('formatQuantity', () => {
  it.each([
    [297.15, 'temperature', { decimals: 1 }, '24.0 °C'],
    [268.15, 'temperature', { decimals: 0 }, '\u22125 °C'],
    [273.15, 'temperature', { decimals: 0 }, '0 °C'],
    [273.1, 'temperature', { decimals: 0 }, '0 °C'],
    [0.065, 'resistance', {}, '65.0 mΩ'],
    [0.065, 'resistance', { unit: 'ohm' }, '0.0650 Ω'],
    [0.8, 'fraction', { decimals: 0 }, '80 %'],
    [0.8, 'fraction', { unit: '1' }, '0.800'],
    [5.4, 'ratio', { decimals: 1 }, '5.4'],
    [Math.PI / 6, 'angle', { decimals: 0 }, '30°'],
    [0.8, 'conductance', { unit: 'K/W' }, '1.25 K/W'],
    [7920, 'charge', { unit: 'mA·h', decimals: 0 }, '2200 mA·h'],
    [3.3087728761e-6, 'wireGauge', { decimals: 0 }, '12 AWG'],
  ] as const)('%d %s %j is %s', (value, dimension, format, text) => {
    expect(formatQuantity(value, dimension, { ...format, space: ' ' })).toBe(text);
  });

  it('keeps number and unit on one line', () => {
    expect(formatQuantity(1, 'voltage')).toBe(`1.00${NARROW_SPACE}V`);
  });

  it('names units as they are printed', () => {
    expect(unitSign('mohm')).toBe('mΩ');
    expect(unitSign('1')).toBe('');
    expect(usualUnit('angularSpeed')).toBe('rpm');
  });

  it('refuses what cannot be shown', () => {
    expect(() => formatQuantity(Number.NaN, 'current')).toThrow(RangeError);
    expect(() => formatQuantity(0, 'conductance', { unit: 'K/W' })).toThrow(RangeError);
  });
});
