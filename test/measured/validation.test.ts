/** The sums over a table, by hand; and the page that is made of them. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { KINDS, PAGE } from './kinds.js';
import { readTable } from './read-table.js';
import { headingsOf, sectionText, validationRow, withSection } from './validation.js';

it('RMS, bias and share inside the band', () => {
  const row = validationRow('T', 'speed', [
    { predicted: 103, measured: 100, low: 98, high: 108 },
    { predicted: 99, measured: 100, low: 90, high: 99.5 },
  ]);
  expect(row.rms).toBeCloseTo(Math.sqrt(5), 12);
  expect(row.bias).toBeCloseTo(1, 12);
  expect(row.inside).toBe(0.5);
  expect(
    sectionText({ data: 'D', rows: [row] })
      .split('\n')[4]!
      .replace(/ +/g, ' '),
  ).toBe('| T | speed | 2 | 2.2 % | +1.0 % | 50 % |');
  const kelvin = validationRow('T', 'rise', [{ predicted: 47, measured: 50 }], { unit: 'K' });
  expect([kelvin.bias, kelvin.inside]).toEqual([-3, undefined]);
  const never = { predicted: Number.POSITIVE_INFINITY, measured: 60, low: 50, high: Number.POSITIVE_INFINITY };
  expect(validationRow('T', 'settling', [never, { ...never, predicted: 62, high: 59 }], { unit: 's' })).toMatchObject({
    rows: 2,
    rms: 2,
    bias: 2,
    inside: 0.5,
  });
  expect(() => validationRow('T', 'rise', [])).toThrow(RangeError);
});

it('a table’s quoted cells keep their commas', () => {
  expect(readTable('motor,volts\n"A (22, small)",11.1\nB,7.4\n')).toEqual([
    { motor: 'A (22, small)', volts: '11.1' },
    { motor: 'B', volts: '7.4' },
  ]);
});

it('the page has the section of each kind and no other', () => {
  const titles = Object.values(KINDS).map(({ title }) => title);
  expect(headingsOf(readFileSync(PAGE, 'utf8'))).toEqual(titles);
});

it('a section takes the place of its former one, and one without a kind goes', () => {
  const page = '# Page\n\nHead.\n\n## Old\n\nx\n\n## B\n\nb\n\n## A\n\nformer\n';
  expect(withSection(page, ['A', 'B', 'C'], 'A', 'now')).toBe('# Page\n\nHead.\n\n## A\n\nnow\n\n## B\n\nb\n');
});
