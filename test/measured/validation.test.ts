/** The sums over a table, by hand; and the page that is made of them. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { PAGE, TITLES } from './kinds.js';
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
  expect(headingsOf(readFileSync(PAGE, 'utf8'))).toEqual(TITLES);
});

it('a section takes the place of its former one, and one without a kind goes', () => {
  const page = '# Page\n\nHead.\n\n## Old\n\nx\n\n## B\n\nb\n\n## A\n\nformer\n';
  expect(withSection(page, ['A', 'B', 'C'], 'A', 'now')).toBe('# Page\n\nHead.\n\n## A\n\nnow\n\n## B\n\nb\n');
});

/** Row by its quantity and column, each of which the README names in its words. */
const SAID = [
  ['speed at full throttle, resistance read off one row', 'RMS', 'speed of three small outrunners is 3.3 % off'],
  ['power at full throttle, resistance read off one row', 'RMS', 'and power 11.0 %'],
  ['speed at full throttle, label and size alone', 'RMS', 'label and size alone 7.6 and'],
  ['power at full throttle, label and size alone', 'RMS', 'and 25.2 %'],
  ['power at all other voltages', 'RMS', 'is 2.9 % off'],
  ['CT', 'RMS', 'diameter and pitch is 19.7 % off', 'diameter × pitch alone'],
  ['CT', 'RMS', 'point measured at rest 13.1 %', 'the same with a point at rest, no family'],
  ['highest after the cut', 'bias', '9.6 K too low', 'thirteen runs of another'],
  ['all of A1, identified on A2', 'RMS', 'within 2.1 K'],
  ['all of A3, identified on A2', 'RMS', 'within 2.1 K'],
  ['all of A4, identified on A2', 'RMS', 'within 2.1 K'],
] as const;

it('the README says what the tables say', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8').replaceAll(/\s+/g, ' ');
  const rows = readFileSync(PAGE, 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| '))
    .map((line) => line.split('|').map((cell) => cell.trim()));
  for (const [quantity, column, words, table] of SAID) {
    const found = rows.filter((cells) => cells[2] === quantity && (table === undefined || cells[1] === table));
    expect(found.length, quantity).toBe(1);
    const size = Math.abs(Number.parseFloat(found[0][column === 'RMS' ? 4 : 5].replace('−', '-')));
    const [number] = /[\d.]+(?= (?:%|K)|(?= and))/.exec(words) ?? [];
    expect(readme).toContain(words);
    if (words.startsWith('within')) expect(size).toBeLessThanOrEqual(Number(number));
    else expect([quantity, Number(number)]).toEqual([quantity, size]);
  }
});
