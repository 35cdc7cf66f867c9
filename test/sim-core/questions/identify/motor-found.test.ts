/** What the fit of a motor's bench tells: numbers with intervals, what cannot be parted, the run that would, how well each reading is met. The fit is made up. */
import type { Fit } from '@shaftwork/sim-core/numerics/least-squares';
import { profileInterval } from '@shaftwork/sim-core/numerics/profile-interval';
import type { BenchRows, Kept } from '@shaftwork/sim-core/questions/identify/bench-rows';
import { type FittedBench, identifyMotor, motorFound } from '@shaftwork/sim-core/questions/identify/identify-motor';
import { motorModel } from '@shaftwork/sim-core/questions/identify/motor-model';
import { derivedNumbers, namedValues } from '@shaftwork/sim-core/questions/identify/motor-numbers';
import { worthOfRuns } from '@shaftwork/sim-core/questions/identify/motor-runs';
import { motorParts } from '@shaftwork/sim-core/questions/identify/part-text';
import { patternAlong } from '@shaftwork/sim-core/questions/identify/pattern';
import { describe, expect, it } from 'vitest';
import { MADE, SETUP } from '../../../identify/coverage.js';
import { bench, covarianceOf, fitWith, LEFT, PATH, ROWS, STARTS } from './motor-bench.js';

const ask = { rows: ROWS, setup: SETUP, sources: ['b.csv'], taken: ['said before'], path: PATH };
const of = (more: Partial<Fit> = {}, kept: Partial<Kept> = {}, rows: BenchRows = ROWS) => motorFound({ ...ask, rows }, bench(more, kept));
/** Slope of the logarithm of a number. */
function slopes({ model, fit }: FittedBench, value: (x: ReadonlyMap<string, number>) => number): number[] {
  const at = (z: readonly number[]): number => Math.log(value(namedValues(model, z)));
  return fit.deviates.map((_, j) => (at(fit.deviates.map((z, k) => (k === j ? z + 1e-4 : z))) - at(fit.deviates)) / 1e-4);
}
const spread = (covariance: Fit['covariance'], g: readonly number[]): number =>
  Math.sqrt(g.reduce((sum, a, i) => sum + g.reduce((inner, b, j) => inner + a * b * covariance[i][j], 0), 0));

describe('numbers', () => {
  it('have the intervals of the fit, and those that the log tells no better than a sheet say why', () => {
    const made = bench();
    const { model, fit, derived, rows, starts } = made;
    const worth = worthOfRuns(rows, SETUP, model, fit, starts);
    const { numbers } = of();
    expect(numbers.map(({ key }) => key)).toEqual(derived.map(({ key }) => key));
    let [told, wide, named, run] = [0, 0, 0, 0];
    derived.forEach((each, k) => {
      const { key, words, dimension, of: whose, at, beside = 0, usual, profile } = each;
      const value = each.value(namedValues(model, fit.deviates));
      const g = slopes(made, each.value);
      const half = (covariance: Fit['covariance']): number => fit.quantile * Math.hypot(spread(covariance, g), beside);
      const straight = half(fit.covariance);
      const j = model.list.findIndex((one) => one.key === profile);
      let ends = [value / Math.exp(straight), value * Math.exp(straight)];
      if (j >= 0 && Math.exp(straight) > 1.2 && Math.exp(straight) < 6) {
        wide++;
        ends = profileInterval(model, fit, j)
          .map((z) =>
            each.value(
              namedValues(
                model,
                fit.deviates.map((one, i) => (i === j ? z : one)),
              ),
            ),
          )
          .sort((a, b) => a - b);
      }
      const found = numbers[k];
      expect(found).toMatchObject({
        key,
        words,
        dimension,
        ...(whose === undefined ? {} : { of: whose }),
        ...(at === undefined ? {} : { at }),
      });
      expect(['of' in found, 'at' in found]).toEqual([whose !== undefined, at !== undefined]);
      expect(found.value / value).toBeCloseTo(1, 9);
      expect([found.low / ends[0], found.high / ends[1]]).toEqual([expect.closeTo(1, 3), expect.closeTo(1, 3)]);
      expect(found.told).toBe(Math.max(found.high / value, value / found.low) - 1 <= usual);
      if (found.told) {
        told++;
        expect(found.instead).toBeUndefined();
        return;
      }
      const own = spread(fit.covariance, g);
      const parts = g.map((one, i) => Math.abs(one) * Math.sqrt(fit.covariance[i][i]));
      const main = parts.indexOf(Math.max(...parts));
      const alike = model.list
        .map(({ words: other }, i) => ({
          i,
          words: other,
          correlation: g.reduce((sum, one, a) => sum + one * fit.covariance[a][i], 0) / (own * Math.sqrt(fit.covariance[i][i])),
        }))
        .filter(({ i, correlation }) => i !== main && Math.abs(correlation) > 0.6)
        .sort((a, b) => Math.abs(b.correlation) - Math.abs(a.correlation))[0];
      const best = worth.map((one) => ({ words: one.words, left: Math.expm1(half(one.covariance)) })).sort((a, b) => a.left - b.left)[0];
      const worthIt = best.left < 0.7 * Math.expm1(straight);
      if (alike !== undefined) named++;
      if (worthIt) run++;
      expect(found.instead, key).toEqual({
        usual,
        ...(alike === undefined ? {} : { from: { words: alike.words, correlation: expect.closeTo(alike.correlation, 3) } }),
        ...(worthIt ? { run: { words: best.words, left: expect.closeTo(best.left, 3) } } : {}),
      });
    });
    // each branch was met
    for (const each of [told, wide, named, run]) expect(each).toBeGreaterThan(0);
  });

  it('that hang together are said to, but for the same thing twice', () => {
    const { together } = of();
    expect(together).toEqual([{ a: 'torque of P1', b: 'thrust of P1', correlation: expect.closeTo(0.9, 6) }]);
    // where all is told, both resistances are one thing, and so are the currents without load on two voltages
    const all = of({
      covariance: covarianceOf(
        LEFT.map(() => 0.01),
        [],
      ),
    });
    expect(all.numbers.filter(({ key, told }) => ['whole', 'resistance', 'noLoad'].includes(key) && told)).toHaveLength(4);
    const parts = [...new Set(all.numbers.map(({ words, of: whose }) => (whose === undefined ? words : `${words} of ${whose}`)))];
    for (const { a, b, correlation } of all.together) {
      expect(a).not.toBe(b);
      expect([a, b].filter((each) => each.includes('resistance')).length).toBeLessThan(2);
      expect(parts).toEqual(expect.arrayContaining([a, b]));
      expect(Math.abs(correlation)).toBeGreaterThan(0.8);
    }
  });
});

it('each reading is told against the laws, in groups by what turns', () => {
  const made = bench();
  const { model, fit, rows } = made;
  const compared = model.compared(fit.deviates);
  const { fits } = of();
  expect(fits.map(({ key, words, dimension, count }) => [key, words, dimension, count])).toEqual([
    ['voltage', 'duty times supply voltage', 'voltage', 5],
    ['current', 'current from the supply', 'current', 5],
    ['thrust', 'thrust', 'force', 3],
  ]);
  for (const { key, left, outliers, pattern, alongWords, points } of fits) {
    const own = compared.map((each, i) => ({ ...each, i })).filter(({ reading }) => reading === key);
    const group = (row: number): string => ['bare shaft', 'P1', 'P2'][rows.propeller[row] + 1];
    const speed = rows.read.speed ?? [];
    expect(points).toEqual(
      own.map(({ row, read, law, i }) => ({ along: speed[row], read, law, group: group(row), weight: fit.weights[i] })),
    );
    expect(left).toBeCloseTo(Math.sqrt(own.reduce((sum, { read, law }) => sum + (read - law) ** 2, 0) / own.length), 12);
    expect(outliers).toBe(own.filter(({ i }) => fit.weights[i] < 0.5).length);
    const channel = { voltage: 0, current: 1, thrust: 4 }[key] ?? Number.NaN;
    const along = own.map(({ row, i }) => ({ along: speed[row], group: group(row), left: fit.residuals[i] * fit.weights[i] }));
    expect(pattern).toBe(patternAlong(along, fit.scales[channel]));
    expect(alongWords).toBe('the speed');
  }
  expect(fits.map(({ outliers }) => outliers)).toEqual([1, 0, 1]);
});

it('what was taken and left out is said', () => {
  const plain = of().taken;
  const winding = 'the winding’s temperature is not in the log: one temperature is taken for all rows';
  expect(plain).toEqual(['said before', winding]);
  const half = { ...ROWS, duty: Float64Array.of(1, Number.NaN, 1, Number.NaN, 1), winding: new Float64Array(5).fill(300) };
  const kept = { rows: half, idle: 3, moving: 2, together: 4 };
  const all = motorFound(
    { ...ask, setup: { ...SETUP, sinusoidal: true }, rows: { ...ROWS, time: new Float64Array(40) } },
    bench({}, kept),
  ).taken;
  expect(all).toEqual([
    'said before',
    '3 of 40 rows left out: nothing turns there, or volts, amps or speed are missing',
    '2 of 40 rows left out: speed or throttle move there',
    '4 neighbouring rows put together into one',
    'the duty is not known in 2 of 5 rows: they tell power, not voltage',
    'a sinusoidal drive, as said',
  ]);
});

it('the rest is the fit’s own', () => {
  const { numbers, fits: _, together: __, taken: ___, ...rest } = of();
  expect(rest).toEqual({
    kind: 'motor',
    sources: ['b.csv'],
    rows: 5,
    along: { words: 'speed of the motor’s shaft', dimension: 'angularSpeed' },
    unknowns: 15,
    singular: [3],
    rank: 1,
    settled: true,
    parts: motorParts({ numbers, rows: ROWS, setup: SETUP, sources: ['b.csv'] }),
  });
});

it('two rows are too few', () => {
  const cut = (values: Float64Array) => values.slice(0, 2);
  const { time, duty, winding, propeller, read } = ROWS;
  const two: BenchRows = {
    ...ROWS,
    time: cut(time),
    duty: cut(duty),
    winding: cut(winding),
    propeller: propeller.slice(0, 2),
    read: Object.fromEntries(Object.entries(read).map(([id, values]) => [id, cut(values)])),
  };
  expect(() => identifyMotor({ ...ask, rows: two })).toThrow(
    new RangeError('Only 2 rows stand still with volts, amps and speed; at least three are needed.'),
  );
  expect(motorModel(ROWS, SETUP, STARTS).unknowns).toBe(15);
  expect(derivedNumbers(ROWS, motorModel(ROWS, SETUP, STARTS), fitWith(), PATH)[0].value(new Map([['kt', MADE.kt]]))).toBeCloseTo(
    1 / MADE.kt,
    9,
  );
});
