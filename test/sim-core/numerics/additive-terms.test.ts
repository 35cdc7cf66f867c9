/** Which terms an additive fit takes, and what they are, on samples whose sums are known: effects exactly, thresholds from either side. */
import { additiveFit, bentDegree, fitInputs } from '@shaftwork/sim-core/numerics/additive-fit';
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { expect, it } from 'vitest';

const n = 64;
const even = Float64Array.from({ length: n }, (_, i) => (i + 0.5) / n);
const scores = even.map(inverseNormal);
const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => Array.from(a).reduce((sum, each, i) => sum + each * b[i], 0);
/** Alternating, and nothing of the straight term in it: no smooth function of the input. */
const jagged = (() => {
  const signs = even.map((_, i) => (i % 2 === 0 ? 1 : -1));
  const share = dot(signs, scores) / dot(scores, scores);
  return signs.map((each, i) => each - share * scores[i]);
})();
/** Legendre's polynomials in 2u − 1, written out, of mean square 1. */
const LEGENDRE = [
  (x: number) => Math.sqrt(3) * x,
  (x: number) => (Math.sqrt(5) * (3 * x * x - 1)) / 2,
  (x: number) => (Math.sqrt(7) * (5 * x ** 3 - 3 * x)) / 2,
  (x: number) => (3 * (35 * x ** 4 - 30 * x * x + 3)) / 8,
];
const random = (count: number, seed: number): Float64Array[] => {
  const { fraction } = seededRandom(seed, 3);
  return Array.from({ length: count }, () => Float64Array.from({ length: n }, fraction));
};

it('straight terms of inputs whose samples are not orthogonal have their own coefficients', () => {
  const u = random(5, 1);
  const z = u.map((column) => column.map(inverseNormal));
  const mean = (values: Float64Array): number => values.reduce((sum, each) => sum + each, 0) / n;
  const y = even.map((_, i) => 2 + 3 * z[0][i] - 1.5 * z[3][i] + 0.7 * z[4][i]);
  const fit = additiveFit(fitInputs(u), y);
  expect([...fit.effects.keys()].sort()).toEqual([0, 3, 4]);
  expect([...fit.terms.values()]).toEqual([1, 1, 1]);
  for (const [j, coefficient] of [
    [0, 3],
    [3, -1.5],
    [4, 0.7],
  ])
    fit.effects.get(j)?.forEach((each, i) => {
      expect(each).toBeCloseTo(coefficient * (z[j][i] - mean(z[j])), 9);
    });
  expect(fit.mean).toBeCloseTo(mean(y), 12);
  expect(fit.variance).toBeCloseTo(dot(y, y) / n - mean(y) ** 2, 9);
  expect(fit.noise).toBeLessThan(1e-18);
});

it('an input given twice counts once, and those among which it looks keep their names', () => {
  const [a, b] = random(2, 2);
  const y = a.map((each, i) => 2 * inverseNormal(each) + inverseNormal(b[i]));
  const ready = fitInputs([a, a, b]);
  expect(additiveFit(ready, y).effects.size).toBe(2);
  const among = additiveFit(ready, y, [2, 1]);
  expect([...among.effects.keys()].sort()).toEqual([1, 2]);
  expect(additiveFit(ready, y, [2]).effects.has(1)).toBe(false);
});

it('no more straight terms are taken than a third of the samples', () => {
  const few = 18;
  const { fraction } = seededRandom(4, 3);
  const u = Array.from({ length: 9 }, () => Float64Array.from({ length: few }, fraction));
  // each a quarter of the one before, so that each stands out of all that is left
  const y = Float64Array.from({ length: few }, (_, i) => u.reduce((sum, column, j) => sum + inverseNormal(column[i]) / 4 ** j, 0));
  const { terms } = additiveFit(fitInputs(u), y);
  const straight = [...terms].filter(([, count]) => count === 1 || count === 1 + bentDegree(few));
  expect(straight.map(([j]) => j).sort()).toEqual([0, 1, 2, 3, 4, 5]);
});

it('a straight term is taken from 2·ln d + 2 times its noise on', () => {
  // F = gain/(rest/(n − 2)) of one input, for which d counts as two
  const threshold = 2 * Math.log(2) + 2;
  const fitOf = (times: number) => {
    const size = Math.sqrt((times * threshold * dot(jagged, jagged)) / (n - 2) / dot(scores, scores));
    return additiveFit(
      fitInputs([even]),
      jagged.map((each, i) => each + size * scores[i]),
    );
  };
  expect(fitOf(0.98).terms.size).toBe(0);
  const taken = fitOf(1.02);
  expect([...taken.terms]).toEqual([[0, 1]]);
  // what is left over the numbers that are left
  expect(taken.noise).toBeCloseTo(dot(jagged, jagged) / (n - 2), 9);
  // among eight the best useless one gains more
  expect(
    additiveFit(
      fitInputs([even, ...random(7, 5)]),
      jagged.map((each, i) => each + 0.2 * scores[i]),
    ).terms.has(0),
  ).toBe(false);
});

it.each([2, 8, 30])(
  'of %d inputs that say the same the threshold is that of so many; a second term has one number less to show itself in',
  (d) => {
    const threshold = 2 * Math.log(d) + 2;
    const copies = Array.from({ length: d - 1 }, () => even);
    // a second input, taken apart from the first; what is left is free of both
    const [other] = random(1, 6);
    const scored = other.map(inverseNormal);
    const middle = scored.reduce((sum, each) => sum + each, 0) / n;
    const against = (from: Float64Array, what: Float64Array): Float64Array => {
      const share = dot(from, what) / dot(what, what);
      return from.map((each, i) => each - share * what[i]);
    };
    const second = against(
      scored.map((each) => each - middle),
      scores,
    );
    const rest = against(jagged, second);
    const termsOf = (first: number, times: number): number => {
      const y = rest.map((each, i) => each + first * scores[i] + Math.sqrt((times * dot(rest, rest)) / dot(second, second)) * second[i]);
      return additiveFit(fitInputs([...copies, other]), y).terms.size;
    };
    const alone = (times: number): number => termsOf(Math.sqrt((times * dot(rest, rest)) / dot(scores, scores)), 0);
    expect(alone((0.99 * threshold) / (n - 2))).toBe(0);
    expect(alone((1.01 * threshold) / (n - 2))).toBe(1);
    // the first is beyond doubt
    expect(termsOf(9, (0.995 * threshold) / (n - 3))).toBe(1);
    expect(termsOf(9, (1.005 * threshold) / (n - 3))).toBe(2);
  },
);

it('the last bent term is what its columns tell of all that the others leave', () => {
  const [a, b] = random(2, 8);
  const y = a.map((each, i) => 3 * LEGENDRE[1](2 * each - 1) + 2 * LEGENDRE[2](2 * b[i] - 1));
  const fit = additiveFit(fitInputs([a, b]), y);
  const [first, last] = [...fit.effects.keys()];
  expect(first).toBe(0);
  const columnsOf = (j: number) => LEGENDRE.slice(0, bentDegree(n)).map((law) => [a, b][j].map((u) => law(2 * u - 1)));
  const toldOf = (j: number, left: ArrayLike<number>): number[] =>
    Array.from(a, (_, i) => columnsOf(j).reduce((sum, column) => sum + (dot(column, left) / dot(column, column)) * column[i], 0));
  // a straight term beside the bent one is no part of what the columns tell
  expect([...fit.terms.values()]).toEqual([bentDegree(n), bentDegree(n)]);
  const without = (j: number): Float64Array => y.map((each, i) => each - fit.mean - (fit.effects.get(j)?.[i] ?? 0));
  const told = toldOf(last, without(first));
  fit.effects.get(last)?.forEach((each, i) => {
    expect(each).toBeCloseTo(told[i], 9);
  });
  // and the first one, found before the last was known, has been looked at again
  const again = toldOf(first, without(last));
  const once = toldOf(
    first,
    y.map((each) => each - fit.mean),
  );
  const off = (values: ArrayLike<number>): number => Math.max(...again.map((each, i) => Math.abs(each - values[i])));
  expect(off(fit.effects.get(first) ?? [])).toBeLessThan(0.2 * off(once));
});

it.each([1, 2, 3])('a bent term of degree %d + 1 is found, all of it', (k) => {
  const y = even.map((u) => 5 + LEGENDRE[k](2 * u - 1));
  const fit = additiveFit(fitInputs([even]), y);
  const found = fit.effects.get(0) ?? new Float64Array();
  found.forEach((each, i) => {
    expect(Math.abs(each - (y[i] - fit.mean))).toBeLessThan(0.05);
  });
  expect(fit.terms.get(0)).toBeGreaterThanOrEqual(bentDegree(n));
  expect(fit.noise).toBeLessThan(1e-3);
});

it('bent terms are taken where they explain what noise alone does not: K + (2 + √(2·ln d))·√(2K) n-ths', () => {
  const degree = bentDegree(n);
  expect(degree).toBe(4);
  const threshold = (degree + (2 + Math.sqrt(2 * Math.log(2))) * Math.sqrt(2 * degree)) / n;
  const fitOf = (share: number) => {
    const size = Math.sqrt((share / (1 - share)) * (dot(jagged, jagged) / n));
    const y = even.map((u, i) => size * LEGENDRE[1](2 * u - 1) + jagged[i]);
    return additiveFit(fitInputs([even]), y);
  };
  expect(fitOf(0.97 * threshold).terms.size).toBe(0);
  expect([...fitOf(1.03 * threshold).terms]).toEqual([[0, 4]]);
  const { noise } = fitOf(0.5);
  expect(noise / (dot(jagged, jagged) / (n - 1 - 4))).toBeCloseTo(1, 1);
});

it('of two bent inputs both are found, the greater and the lesser', () => {
  const [a, b] = random(2, 8);
  const y = a.map((each, i) => 3 * LEGENDRE[1](2 * each - 1) + 2 * LEGENDRE[1](2 * b[i] - 1));
  const fit = additiveFit(fitInputs([b, a]), y);
  expect([...fit.terms.keys()].sort()).toEqual([0, 1]);
  expect(dot(fit.effects.get(1) ?? [], fit.effects.get(1) ?? [])).toBeGreaterThan(dot(fit.effects.get(0) ?? [], fit.effects.get(0) ?? []));
  expect(fit.noise).toBeLessThan(0.3 * fit.variance);
});

it('refuses in words: too few samples, unequal ones, outputs that are none', () => {
  expect(() => fitInputs([new Float64Array(15).fill(0.5)])).toThrow('Sensitivities need 16 samples or more, not 15.');
  expect(() => fitInputs([new Float64Array(16).fill(0.5)])).not.toThrow();
  expect(() => fitInputs([])).toThrow('not 0');
  expect(() => fitInputs([even, even.slice(1)])).toThrow('An input has 63 samples, another 64.');
  expect(() => additiveFit(fitInputs([even]), [1, 2])).toThrow('64 samples have 2 outputs.');
  const broken = scores.slice();
  broken[6] = Number.POSITIVE_INFINITY;
  expect(() => additiveFit(fitInputs([even]), broken)).toThrow('Output 7 is not a finite number.');
  expect(additiveFit(fitInputs([even]), new Float64Array(n).fill(3))).toMatchObject({ mean: 3, variance: 0, noise: 0 });
});
