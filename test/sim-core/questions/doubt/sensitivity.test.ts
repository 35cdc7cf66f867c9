/** Shares of a spread by group of unknowns, of sums whose shares are known: squares of their factors. */
import { fitInputs } from '@shaftwork/sim-core/numerics/additive-fit';
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import type { DoubtPlan } from '@shaftwork/sim-core/questions/doubt/plan';
import { inputColumns, sensitivityOf } from '@shaftwork/sim-core/questions/doubt/sensitivity';
import { expect, it } from 'vitest';
import { madeUnknown } from './made-unknown.js';

const N = 512;
const plan: DoubtPlan = {
  samples: N,
  seed: 7,
  names: ['A', 'B'],
  profile: [],
  objective: 'coolest',
  unknowns: [
    madeUnknown('air', ['A', 'B'], 'air'),
    madeUnknown('fit', ['A'], 'rule:fit'),
    madeUnknown('fit of B', ['B'], 'rule:fit'),
    madeUnknown('own', ['A'], 'rule:own@own'),
    madeUnknown('small', ['A', 'B'], 'small'),
    madeUnknown('other', ['B'], 'other'),
  ],
  quasiRandom: 0,
  sequence: undefined,
  times: [],
};
const columns = inputColumns(plan);
const inputs = fitInputs(columns);
/** A sum of the unknowns' deviates. */
const sum = (factors: readonly number[]) =>
  Float64Array.from({ length: N }, (_, i) => 300 + factors.reduce((all, factor, j) => all + factor * inverseNormal(columns[j][i]), 0));
const of = (values: Float64Array, candidates: readonly string[]) =>
  sensitivityOf(plan, inputs, 'a figure', 'temperatureDifference', values, candidates);

it('columns are the draws of each unknown, between none and all', () => {
  expect(columns.map((column) => column.length)).toEqual(new Array(6).fill(N));
  for (const column of columns) expect([Math.min(...column) > 0, Math.max(...column) < 1]).toEqual([true, true]);
  expect(Math.abs(columns[0].reduce((all, each) => all + each, 0) / N - 0.5)).toBeLessThan(0.06);
});

it('each group has the share of its squares, the greatest first, what is too small left out', () => {
  const { shares, standardDeviation, rest, words, dimension } = of(sum([3, 4, 0, 2, 0.05, 0]), ['A']);
  expect([words, dimension]).toEqual(['a figure', 'temperatureDifference']);
  expect(Math.abs(standardDeviation / Math.sqrt(29) - 1)).toBeLessThan(0.1);
  expect(shares.map(({ group, words: of_, candidates }) => [group, of_, candidates])).toEqual([
    ['rule:fit', 'the fit', ['A']],
    ['air', 'the air', []],
    ['rule:own@own', 'the own', ['A']],
  ]);
  [16, 9, 4].forEach((square, k) => {
    expect(Math.abs(shares[k].share - square / 29)).toBeLessThan(0.06);
    expect(shares[k].error).toBeGreaterThan(0);
    expect(shares[k].error).toBeLessThan(0.1);
  });
  expect(shares.reduce((all, { share }) => all + share, 0)).toBeLessThanOrEqual(1 + 1e-12);
  expect(rest).toBeGreaterThanOrEqual(0);
  expect(rest).toBeLessThan(0.05);
});

it('members of a group count together, and only unknowns of those that are asked about', () => {
  const values = sum([3, 4, 4, 0, 0, 2]);
  const both = of(values, ['A', 'B']);
  expect(both.shares.map(({ group, candidates }) => [group, candidates])).toEqual([
    ['rule:fit', []],
    ['air', []],
    ['other', ['B']],
  ]);
  expect(Math.abs(both.shares[0].share - 32 / 45)).toBeLessThan(0.06);
  const one = of(values, ['B']);
  expect(one.shares.map(({ group }) => group)).not.toContain('rule:own@own');
  expect(Math.abs(one.shares[0].share - 16 / 45)).toBeLessThan(0.12);
  // what only A has moves it too, and stays unexplained
  expect(one.rest).toBeGreaterThan(0.2);
});

it('what is not told is the rest, and each one’s own part is told of whom, even where it is of all', () => {
  const few = of(sum([0, 0, 0, 0, 0, 4]), ['A', 'B']);
  expect(few.shares.reduce((all, { share }) => all + share, few.rest)).toBeCloseTo(1, 12);
  const owned = { ...plan, unknowns: plan.unknowns.map((each) => (each.key === 'air' ? { ...each, group: 'rule:air@own' } : each)) };
  const { shares } = sensitivityOf(owned, inputs, 'a figure', 'temperatureDifference', sum([3, 0, 0, 0, 1, 0]), ['A']);
  expect(shares.map(({ group, candidates }) => [group, candidates])).toEqual([
    ['rule:air@own', ['A', 'B']],
    ['small', []],
  ]);
});

it('what does not scatter has no shares', () => {
  const nothing = { words: 'a figure', dimension: 'temperatureDifference', standardDeviation: 0, shares: [], rest: 0 };
  expect(of(new Float64Array(N).fill(300), ['A'])).toEqual(nothing);
  // rounding is no doubt
  expect(of(sum([1e-9, 0, 0, 0, 0, 0]), ['A'])).toEqual(nothing);
  expect(
    of(
      Float64Array.from(columns[0], (u) => 1e-16 * (u - 0.5)),
      ['A'],
    ),
  ).toEqual(nothing);
  expect(
    of(
      Float64Array.from(columns[0], (u) => 1e-13 * (u - 0.5)),
      ['A'],
    ).shares,
  ).toHaveLength(1);
  expect(of(sum([1e-5, 0, 0, 0, 0, 0]), ['A']).shares).toHaveLength(1);
});
