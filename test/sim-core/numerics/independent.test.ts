import { inverseOfLower } from '@shaftwork/sim-core/numerics/independent';
import { expect, it } from 'vitest';

/** Square of the lower triangle told row by row. */
const squareOf = (flat: readonly number[], size: number): number[][] => {
  let at = 0;
  return Array.from({ length: size }, (_, a) => Array.from({ length: size }, (__, b) => (b <= a ? flat[at++] : 0)));
};

it('frees residuals of one another: L⁻¹·C·L⁻ᵀ = 1', () => {
  const c = [
    [4, 1.2, -0.6],
    [1.2, 2, 0.3],
    [-0.6, 0.3, 1],
  ]; // prettier-ignore
  const inverse = squareOf(inverseOfLower(c), 3);
  for (let a = 0; a < 3; a++)
    for (let b = 0; b < 3; b++) {
      let sum = 0;
      for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) sum += inverse[a][i] * c[i][j] * inverse[b][j];
      expect(sum).toBeCloseTo(a === b ? 1 : 0, 12);
    }
  expect(inverse[0]).toEqual([0.5, 0, 0]);
});

it('of two that tell the same, the second keeps a ten-thousandth of its variance as its own', () => {
  const inverse = squareOf(
    inverseOfLower([
      [4, 4],
      [4, 4],
    ]),
    2,
  ); // prettier-ignore
  expect(inverse[1][1]).toBeCloseTo(1 / Math.sqrt(4e-4), 9);
  expect(inverse[1][0]).toBeCloseTo(-inverse[1][1], 9);
});
