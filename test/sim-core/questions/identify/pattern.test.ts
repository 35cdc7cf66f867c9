/** Patterns in residuals, by hand: the first serial correlation over time, and points against their own scatter. */
import { type Left, patternAlong, patternInTime } from '@shaftwork/sim-core/questions/identify/pattern';
import { describe, expect, it } from 'vitest';

const series = <T>(n: number, of: (k: number) => T): T[] => Array.from({ length: n }, (_, k) => of(k));

describe('in time', () => {
  it('is r₁·√n: a run of one sign is alike by all but one of its neighbours, a change of sign each time as much unlike', () => {
    expect(patternInTime(series(25, () => 3))).toBeCloseTo((24 / 25) * 5, 12);
    expect(patternInTime(series(25, (k) => (k % 2 === 0 ? 1 : -1)))).toBeCloseTo(-(24 / 25) * 5, 12);
    // 1, 0, 1, 0 … never meets itself
    expect(patternInTime(series(16, (k) => 1 - (k % 2)))).toBe(0);
  });
  it('is none of fewer than ten, or where nothing is left', () => {
    expect(patternInTime(series(9, () => 3))).toBe(0);
    expect(patternInTime(series(10, () => 3))).toBeCloseTo(0.9 * Math.sqrt(10), 12);
    expect(patternInTime(series(12, () => 0))).toBe(0);
  });
});

describe('along what was read', () => {
  const at = (along: number, left: number, group = 'a'): Left => ({ along, left, group });
  /** Four rows at each of 100, 200 and 300. */
  const points = (left: (point: number, row: number) => number, group?: string): Left[] =>
    [1, 2, 3].flatMap((point) => series(4, (row) => row).map((row) => at(100 * point, left(point, row), group)));

  it('is (χ² − B)/√(2·B) of the means of rows that lie together', () => {
    // four rows of 2 over a scatter of 2 are a mean of one standard deviation four times over: χ² 4 a point
    expect(
      patternAlong(
        points(() => 2),
        2,
      ),
    ).toBeCloseTo((12 - 3) / Math.sqrt(6), 12);
    // means of nothing are less than chance gives
    expect(
      patternAlong(
        points((_, row) => (row % 2 === 0 ? 1 : -1)),
        1,
      ),
    ).toBeCloseTo(-3 / Math.sqrt(6), 12);
  });

  it('does not look at the order of the rows, and parts groups', () => {
    const rows = points((point) => point - 2);
    const once = patternAlong(rows, 1);
    // χ²: 4·1 + 0 + 4·1
    expect(once).toBeCloseTo((8 - 3) / Math.sqrt(6), 12);
    expect(patternAlong([...rows.slice(5), ...rows.slice(0, 5)].reverse(), 1)).toBeCloseTo(once, 12);
    const two = [...points(() => 1), ...points(() => -1, 'b')];
    expect(patternAlong(two, 1)).toBeCloseTo((24 - 6) / Math.sqrt(12), 12);
  });

  it('takes rows within 0.8 % of the greatest as one point, as far as 5 % wide', () => {
    const chain = (gap: number, n: number) => series(n, (k) => at(1000 - gap * k, 1)).concat([at(10, 1), at(20, 1)]);
    // twelve rows 7 apart span 77: a point of 50 takes eight, the rest are another, and two stand alone
    expect(patternAlong(chain(7, 12), 1)).toBeCloseTo((14 - 4) / Math.sqrt(8), 9);
    // 9 apart each row is a point of its own
    expect(patternAlong(chain(9, 12), 1)).toBeCloseTo((14 - 14) / Math.sqrt(28), 9);
    // readings that are below nothing are as great
    expect(patternAlong(series(12, (k) => at(-1000 + 7 * k, 1)).concat([at(-10, 1), at(-20, 1)]), 1)).toBeCloseTo(10 / Math.sqrt(8), 9);
  });

  it('is none of fewer than ten rows, or of fewer than three points', () => {
    expect(patternAlong(points(() => 2).slice(0, 9), 1)).toBe(0);
    expect(patternAlong(points(() => 2).slice(0, 10), 1)).not.toBe(0);
    expect(
      patternAlong(
        series(20, (k) => at(k < 10 ? 100 : 200, 5)),
        1,
      ),
    ).toBe(0);
  });
});
