import { shapePreservingSlopes } from '@shaftwork/sim-core/parts/propeller/shape-preserving-slopes';
import { describe, expect, it } from 'vitest';

const slopes = (x: number[], y: number[]) => [...shapePreservingSlopes(Float64Array.from(x), Float64Array.from(y))];

describe('slopes that never overshoot', () => {
  it('returns the exact slopes of a straight line on an uneven grid', () => {
    for (const slope of slopes([0, 0.1, 0.5, 2], [1, 1.3, 2.5, 7])) expect(slope).toBeCloseTo(3, 12);
  });
  it('returns the exact inner and end slopes of a parabola that is monotone there', () => {
    const x = [1, 1.5, 2.5, 3];
    for (const [i, slope] of slopes(
      x,
      x.map((v) => v * v),
    ).entries())
      expect(slope).toBeCloseTo(2 * x[i]!, 12);
  });
  it('is flat at a peak and next to a plateau', () => {
    expect(slopes([0, 1, 2], [0, 1, 0])[1]).toBe(0);
    expect(slopes([0, 1, 2, 3], [0, 1, 1, 2]).slice(1, 3)).toEqual([0, 0]);
  });
  it('uses the only secant of two points and no slope for one', () => {
    expect(slopes([0, 2], [1, 5])).toEqual([2, 2]);
    expect(slopes([0], [1])).toEqual([0]);
  });
});
