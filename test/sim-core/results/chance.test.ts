/** Chances counted in draws: their interval against published ones, and no certainty told of a finite number of draws. */
import { chanceFigure, chanceOf, inDraws, percent } from '@shaftwork/sim-core/results/chance';
import { describe, expect, it } from 'vitest';

describe('a chance counted in draws', () => {
  it('has the interval of R.G. Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 3', () => {
    for (const [count, of, low, high] of [
      [81, 263, 0.2553, 0.3662],
      [15, 148, 0.0624, 0.1605],
      [1, 29, 0.0061, 0.1718],
    ] as const) {
      const chance = chanceOf(count, of);
      expect(chance.low).toBeCloseTo(low, 4);
      expect(chance.high).toBeCloseTo(high, 4);
    }
  });

  it('where all or none were so, is bounded by about three over their number (J.A. Hanley & A. Lippman-Hand, JAMA 249 (1983) 1743)', () => {
    for (const of of [64, 100, 512]) {
      expect(chanceOf(0, of).high).toBeCloseTo(3 / of, 2);
      expect(chanceOf(of, of).low).toBeCloseTo(1 - 3 / of, 2);
    }
  });

  it('is never told as certain', () => {
    const told = (count: number, of: number): string => inDraws(chanceOf(count, of)).replaceAll('\u202f', ' ');
    expect(told(64, 64)).toBe('in all 64 draws, so at least 95 %');
    expect(told(0, 64)).toBe('in none of the 64 draws, so at most 5 %');
    expect(told(58, 64)).toBe('in 58 of 64 draws, 91 % (81 to 96 %)');
    expect(told(511, 512)).toBe('in 511 of 512 draws, 99.8 % (99 to 99.97 %)');
    expect(told(1, 512)).toBe('in 1 of 512 draws, 0.2 % (0.03 to 1 %)');
    expect(chanceFigure(chanceOf(64, 64)).replaceAll('\u202f', ' ')).toBe('≥ 95 %');
    expect(chanceFigure(chanceOf(0, 64)).replaceAll('\u202f', ' ')).toBe('≤ 5 %');
    for (let of = 16; of <= 2048; of *= 2)
      for (const count of [0, 1, of - 1, of]) expect(chanceFigure(chanceOf(count, of))).not.toMatch(/^(100|0)\s/);
    expect(percent(0.9996).replace('\u202f', ' ')).toBe('99.96 %');
  });

  it('in percent has as many digits as tell it from all and from nothing, three at most', () => {
    const told = (share: number): string => percent(share).replace('\u202f', ' ');
    expect([0, 1, 0.5, 0.004, 0.996, 0.0004, 0.00001].map(told)).toEqual(['0 %', '100 %', '50 %', '0.4 %', '99.6 %', '0.04 %', '0.001 %']);
    expect(told(0.000001)).toBe('0.000 %');
    expect(told(0.9999999)).toBe('100.000 %');
  });
  it('in a cell is a bound where all or none were so', () => {
    expect(chanceFigure(chanceOf(58, 64)).replace('\u202f', ' ')).toBe('91 %');
    expect([chanceOf(0, 10).low, chanceOf(10, 10).high, chanceOf(10, 10).probability]).toEqual([0, 1, 1]);
  });
});
