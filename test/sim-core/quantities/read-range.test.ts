import { readRange } from '@shaftwork/sim-core/quantities/read-range';
import { describe, expect, it } from 'vitest';

describe('readRange', () => {
  it.each([
    ['60 to 100 %', 'fraction', 0.6, 1, '%'],
    ['0 to 100 %', 'fraction', 0, 1, '%'],
    ['1 to 100 %', 'fraction', 0.01, 1, '%'],
    ['100 % to 0', 'fraction', 1, 0, '%'],
    ['0.6 to 1', 'fraction', 0.6, 1, '1'],
    ['4 to 14 m/s', 'speed', 4, 14, 'm/s'],
    ['4 m/s to 36 km/h', 'speed', 4, 10, 'km/h'],
    ['14 to 6 m/s', 'speed', 14, 6, 'm/s'],
    ['20 to 30 °C', 'temperature', 293.15, 303.15, '°C'],
    ['12 m/s', 'speed', 12, 12, 'm/s'],
    ['-2 to 2 m/s', 'speed', -2, 2, 'm/s'],
  ] as const)('%s (%s)', (text, dimension, from, to, shownUnit) => {
    expect(readRange(text, dimension)).toMatchObject({ ok: true, from: expect.closeTo(from, 12), to: expect.closeTo(to, 12), shownUnit });
  });

  it.each([
    ['', 'speed', 'empty'],
    ['4 to 14', 'speed', 'bare-number'],
    ['4 m/s to 14', 'speed', 'bare-number'],
    ['to 14 m/s', 'speed', 'not-a-number'],
    ['4 to m/s', 'speed', 'not-a-number'],
    ['4-14 m/s', 'speed', 'two-quantities'],
    ['4\u201314 m/s', 'speed', 'two-quantities'],
    ['4 .. 14 m/s', 'speed', 'two-quantities'],
    ['4 to 5 to 6 m/s', 'speed', 'two-quantities'],
    ['4 V to 14 m/s', 'speed', 'wrong-dimension'],
    ['4 to 14 V', 'speed', 'wrong-dimension'],
    ['60 to 100 % ± 5 %', 'fraction', 'bad-tolerance'],
    ['80 % ± 5 %', 'fraction', 'bad-tolerance'],
    ['0.5 to 80 %', 'fraction', 'ambiguous'],
    ['60 % to 0.5', 'fraction', 'ambiguous'],
    ['1,5 to 3 m/s', 'speed', 'decimal-comma'],
  ] as const)('%j (%s): %s', (text, dimension, kind) => {
    expect(readRange(text, dimension)).toMatchObject({ ok: false, kind, expected: expect.stringContaining('or a range') });
  });
});
