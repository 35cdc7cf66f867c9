/** Slopes by M. Steffen’s formulas (1990, eqs. 6–11, 24–26) on a table whose numbers come out round. */
import { shapePreservingSlopes } from '@shaftwork/sim-core/parts/propeller/shape-preserving-slopes';
import { expect, it } from 'vitest';

const slopes = (x: number[], y: number[]): number[] => [...shapePreservingSlopes(Float64Array.from(x), Float64Array.from(y))];

it('within: the parabola’s slope, at most twice the smaller secant', () => {
  // widths 1 and 3, secants 2 and 1: (2·3 + 1·1)/4 = 1.75
  expect(slopes([0, 1, 4], [0, 2, 5])[1]).toBeCloseTo(1.75, 12);
  // secants 8 and 1 on equal widths: 4.5 is more than 2·1
  expect(slopes([0, 1, 2], [0, 8, 9])[1]).toBeCloseTo(2, 12);
  expect(slopes([0, 1, 2], [0, -1, -9])[1]).toBeCloseTo(-2, 12);
});

it('at an end: the parabola’s end slope, 0 where it turns back, at most twice the secant', () => {
  // share ¼: 2·1.25 − 1·0.25 at the near end, ¾: 1·1.75 − 2·0.75 at the far one
  expect(slopes([0, 1, 4], [0, 2, 5])[0]).toBeCloseTo(2.25, 12);
  expect(slopes([0, 1, 4], [0, 2, 5])[2]).toBeCloseTo(0.25, 12);
  // 1.5·1 − 0.5·9 turns back; 1.5·1 + 0.5·5 is more than 2
  expect(slopes([0, 1, 2], [0, 1, 10])[0]).toBe(0);
  expect(slopes([0, 1, 2], [0, 1, -4])[0]).toBeCloseTo(2, 12);
  expect(slopes([0, 1, 2], [0, 1, 4])[0]).toBe(0);
});
