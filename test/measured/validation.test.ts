/** The sums over a table, by hand. */
import { expect, it } from 'vitest';
import { readTable } from './read-table.js';
import { markdownTable, validationRow } from './validation.js';

it('RMS, bias and share inside the band', () => {
  const row = validationRow('T', 'speed', [
    { predicted: 103, measured: 100, low: 98, high: 108 },
    { predicted: 99, measured: 100, low: 90, high: 99.5 },
  ]);
  expect(row.rms).toBeCloseTo(Math.sqrt(5), 12);
  expect(row.bias).toBeCloseTo(1, 12);
  expect(row.inside).toBe(0.5);
  expect(markdownTable([row]).split('\n')[2]!.replace(/ +/g, ' ')).toBe('| T | speed | 2 | 2.2 % | +1.0 % | 50 % |');
  const kelvin = validationRow('T', 'rise', [{ predicted: 47, measured: 50 }], { unit: 'K' });
  expect([kelvin.bias, kelvin.inside]).toEqual([-3, undefined]);
  expect(() => validationRow('T', 'rise', [])).toThrow(RangeError);
});

it('a table’s quoted cells keep their commas', () => {
  expect(readTable('motor,volts\n"A (22, small)",11.1\nB,7.4\n')).toEqual([
    { motor: 'A (22, small)', volts: '11.1' },
    { motor: 'B', volts: '7.4' },
  ]);
});
