import { readNumber } from '@shaftwork/sim-core/quantities/read-number';
import { describe, expect, it } from 'vitest';

describe('readNumber', () => {
  it.each([
    ['14', 14],
    ['1.15', 1.15],
    ['.6', 0.6],
    ['5.', 5],
    ['-3', -3],
    ['\u22123', -3],
    ['+3', 3],
    ['30e4', 300000],
    ['2.4E-4', 0.00024],
    ['-0', 0],
  ])('%s', (text, value) => {
    const read = readNumber(text);
    expect(read).toEqual({ ok: true, value });
    expect(Object.is(read.ok && read.value, -0)).toBe(false);
  });

  it.each([
    ['', 'empty'],
    [' \u00a0 ', 'empty'],
    ['many', 'not-a-number'],
    ['NaN', 'not-a-number'],
    ['Infinity', 'not-a-number'],
    ['-inf', 'not-a-number'],
    ['0x1F', 'not-a-number'],
    ['10²', 'not-a-number'],
    ['3·10^5', 'not-a-number'],
    ['1/2', 'not-a-number'],
    ['1:5.4', 'not-a-number'],
    ['5.4 : 1', 'not-a-number'],
    ['½', 'not-a-number'],
    ['1,5', 'decimal-comma'],
    ['-0,25', 'decimal-comma'],
    ['0,500', 'decimal-comma'],
    ['1,000', 'thousands-separator'],
    ['12,345,678', 'thousands-separator'],
    ['1 000', 'thousands-separator'],
    ["1'000'000", 'thousands-separator'],
    ['1_000', 'thousands-separator'],
    ['1.000.000', 'thousands-separator'],
    ['1e999', 'out-of-range'],
    ['1e-999', 'out-of-range'],
    ['14 poles', 'unit-not-due'],
    ['14 ± 1', 'unit-not-due'],
    ['3e', 'unit-not-due'],
    ['1.2.3', 'thousands-separator'],
  ])('%j: %s', (text, kind) => {
    expect(readNumber(text)).toMatchObject({ ok: false, kind, expected: 'a number without a unit' });
  });

  it('can ask for a whole number', () => {
    expect(readNumber('14', { whole: true })).toEqual({ ok: true, value: 14 });
    expect(readNumber('14.5', { whole: true })).toMatchObject({ kind: 'not-whole', expected: 'a whole number without a unit' });
  });

  it('says how to write the number', () => {
    expect(readNumber('1,5')).toMatchObject({ hint: 'decimals follow a point: write 1.5' });
    expect(readNumber('14 poles')).toMatchObject({ hint: 'write 14' });
  });
});
