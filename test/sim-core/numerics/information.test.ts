/** Against mathjs and the closed forms of normal distributions: information adds, what is known is conditioned on. */
import { heldCovariance, informationOf, posterior, quadratic, spectrum, withInformation } from '@shaftwork/sim-core/numerics/information';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { add, diag, identity, inv, type Matrix, matrix, multiply, transpose } from 'mathjs';
import { expect, it } from 'vitest';

const random = seededRandom(5, 1);
const rowsOf = (count: number, size: number): number[][] =>
  Array.from({ length: count }, () => Array.from({ length: size }, () => 2 * random.fraction() - 1));
const jacobian = rowsOf(7, 3);
const weights = [1, 2, 0.5, 4, 0, 1, 3];
const theirs = (rows: number[][], w: number[]): Matrix =>
  multiply(multiply(transpose(matrix(rows)), diag(w) as unknown as Matrix), matrix(rows)) as Matrix;
const agree = (ours: readonly (readonly number[])[], other: number[][]): void => {
  expect(ours).toHaveLength(other.length);
  other.forEach((row, a) => {
    expect(ours[a]).toHaveLength(row.length);
    row.forEach((each, b) => {
      expect(ours[a][b]).toBeCloseTo(each, 10);
    });
  });
};

it('JᵀWJ, and the covariance with a prior of one', () => {
  const information = informationOf(jacobian, weights, 3);
  agree(information, theirs(jacobian, weights).toArray() as number[][]);
  agree(posterior(information), inv(add(theirs(jacobian, weights), identity(3)) as Matrix).toArray() as number[][]);
  agree(informationOf([], [], 2), [
    [0, 0],
    [0, 0],
  ]); // prettier-ignore
});

it('data one after another tell what they tell at once', () => {
  const [first, second] = [jacobian.slice(0, 4), jacobian.slice(4)];
  const before = posterior(informationOf(first, weights.slice(0, 4), 3));
  agree(withInformation(before, informationOf(second, weights.slice(4), 3), [0, 1, 2]), posterior(informationOf(jacobian, weights, 3)));
  // of two unknowns in another order, the third untouched
  const swapped = second.map(([x, , z]) => [z, x]);
  const placed = second.map(([x, , z]) => [x, 0, z]);
  const both = posterior(informationOf([...first, ...placed], weights, 3));
  agree(withInformation(before, informationOf(swapped, weights.slice(4), 2), [2, 0]), both);
});

it('what also speaks of an unknown that the fit did not have tells less of the others', () => {
  const before = posterior(informationOf(jacobian.slice(0, 4), weights.slice(0, 4), 3));
  const more = rowsOf(3, 2);
  const whole = posterior(
    informationOf([...jacobian.slice(0, 4).map((row) => [...row, 0]), ...more.map(([x, y]) => [0, x, 0, y])], [1, 2, 0.5, 4, 1, 1, 1], 4),
  );
  agree(
    withInformation(before, informationOf(more, [1, 1, 1], 2), [1, 3]),
    whole.slice(0, 3).map((row) => row.slice(0, 3)),
  );
});

it('what is held is known: the others keep C_oo − C_oh·C_hh⁻¹·C_ho (C. M. Bishop, 2006, eq. 2.82)', () => {
  const c = posterior(informationOf(jacobian, weights, 3));
  const held = heldCovariance(c, [1]);
  for (const a of [0, 2]) for (const b of [0, 2]) expect(held[a][b]).toBeCloseTo(c[a][b] - (c[a][1] * c[b][1]) / c[1][1], 12);
  expect([held[1], held.map((row) => row[1])]).toEqual([
    [0, 0, 0],
    [0, 0, 0],
  ]); // prettier-ignore
  agree(heldCovariance(c, []), c);
  const two = heldCovariance(c, [0, 2]);
  const inner = inv(
    matrix([
      [c[0][0], c[0][2]],
      [c[2][0], c[2][2]],
    ]),
  ).toArray() as number[][]; // prettier-ignore
  const across = [c[1][0], c[1][2]];
  const known = across.reduce((sum, x, i) => sum + across.reduce((s, y, j) => s + x * inner[i][j] * y, 0), 0);
  expect(two[1][1]).toBeCloseTo(c[1][1] - known, 12);
});

it('xᵀ·M·x', () => {
  expect(
    quadratic(
      [
        [2, 1],
        [3, 5],
      ],
      [7, -2],
    ),
  ).toBe(2 * 49 - 14 - 42 + 20); // prettier-ignore
});

it('eigenvalues, the greatest first, each with its direction', () => {
  const symmetric = [
    [4, 1, 0],
    [1, 3, 1],
    [0, 1, 9],
  ]; // prettier-ignore
  const { values, vectors } = spectrum(symmetric);
  expect(values[0]).toBeGreaterThan(values[1]);
  expect(values[1]).toBeGreaterThan(values[2]);
  expect(values[0] + values[1] + values[2]).toBeCloseTo(16, 10);
  vectors.forEach((vector, k) => {
    expect(Math.hypot(...vector)).toBeCloseTo(1, 10);
    symmetric.forEach((row, a) => {
      expect(row.reduce((sum, each, b) => sum + each * vector[b], 0)).toBeCloseTo(values[k] * vector[a], 9);
    });
  });
});

it('a row beyond all measure beside the others is refused with words', () => {
  const information = informationOf([[1, 1e300]], [1], 2);
  expect(() => posterior(information)).toThrow(RangeError);
  expect(() => posterior(information)).toThrow(/look for a number/);
});
