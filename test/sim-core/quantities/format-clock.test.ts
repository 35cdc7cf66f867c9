import { formatClock } from '@shaftwork/sim-core/quantities/format-clock';
import { describe, expect, it } from 'vitest';

describe('formatClock', () => {
  it.each([
    [0, '0:00'],
    [-0.4, '0:00'],
    [7, '0:07'],
    [59.4, '0:59'],
    [59.7, '1:00'],
    [432, '7:12'],
    [3599.6, '1:00:00'],
    [3725, '1:02:05'],
    [-30, '\u22120:30'],
  ])('%d s is %s', (seconds, text) => {
    expect(formatClock(seconds)).toBe(text);
  });

  it('refuses what is no time', () => {
    expect(() => formatClock(Number.NaN)).toThrow(RangeError);
    expect(() => formatClock(Infinity)).toThrow(RangeError);
  });
});
