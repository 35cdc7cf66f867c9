/** What a fit of a warming run tells: numbers with their intervals, what cannot be parted, the run that would, the part files. The fit is made up. */
import { informationOf, quadratic, withInformation } from '@shaftwork/sim-core/numerics/information';
import { type Fit, jacobianOf } from '@shaftwork/sim-core/numerics/least-squares';
import { heatModel } from '@shaftwork/sim-core/questions/identify/heat-model';
import { heatFound, identifyHeat } from '@shaftwork/sim-core/questions/identify/identify-heat';
import { written } from '@shaftwork/sim-core/questions/identify/part-text';
import { patternInTime } from '@shaftwork/sim-core/questions/identify/pattern';
import { expect, it } from 'vitest';
import { heatLog, INRUNNER, OUTRUNNER } from './heat-bench.js';

/** Standard deviations that are left of the twelve unknowns, and how they hang together. */
const LEFT = [0.2, 0.7, 0.8, 0.65, 0.6, 0.9, 0.61, 0.5, 0.9, 0.9, 0.4, 0.95];
const ALIKE: readonly (readonly [number, number, number])[] = [
  [0, 4, 0.9],
  [1, 9, -0.7],
  [2, 7, 0.6],
  [2, 3, 0.55],
  [6, 10, 0.5],
  [5, 8, -0.3],
];
const covarianceOf = (left: readonly number[]): number[][] =>
  left.map((a, i) =>
    left.map((b, j) => a * b * (i === j ? 1 : (ALIKE.find(([k, l]) => (k === i && l === j) || (k === j && l === i))?.[2] ?? 0))),
  );
const RESIDUALS = Float64Array.of(1, 2, 2, 1, -1, -2, -2, -1, 1, 2, 2, 1);
const fitOf = (left: readonly number[], more: Partial<Fit> = {}): Fit => ({
  deviates: left.map((_, k) => 0.1 * (k - 4)),
  covariance: covarianceOf(left),
  singular: [7, 0.5],
  directions: [],
  rank: 1,
  residuals: RESIDUALS,
  weights: Float64Array.of(1, 0.5, 0.49, 0.2, 1),
  scales: [1.6],
  alike: [4],
  quantile: 2.2,
  settled: true,
  ...more,
});
const ROWS = heatLog([0, 5, 10, 15, 20], { speed: [600, 800, 700, 0, 0], current: [20, 20, 20, 0, 0], probe: [300, 310, 320, 315, 310] });

it('of an outrunner tells its heat, and what the log does not tell', () => {
  const { name, given, data } = OUTRUNNER;
  const model = heatModel(name, given, data, ROWS);
  const fit = fitOf(LEFT);
  const found = heatFound({ name, given, data, rows: ROWS, sources: ['a.csv'], taken: ['x'] }, model, fit);
  // a thermometer on the fixed end has a share, a lag and a hold of the air of its own
  const there = heatModel(name, given, data, { ...ROWS, place: 'on-end' });
  const more = informationOf(jacobianOf(there, fit.deviates), new Float64Array(5).fill(1 / 4), 12);
  const after = withInformation(fit.covariance, more, [0, 1, 2, 3, 4, 5, 6, 7, 12, 13, 10, 14]);

  const expected = model.ways.map(({ way, start, deviation }, j) => {
    const half = (sd: number) => Math.exp(2.2 * deviation * sd) - 1;
    const value = start * Math.exp(deviation * 0.1 * (j - 4));
    const sd = Math.sqrt(after[j][j]);
    return {
      key: way.key,
      words: way.words,
      dimension: way.dimension,
      value: expect.closeTo(value, 9),
      low: expect.closeTo(value / (1 + half(LEFT[j])), 9),
      high: expect.closeTo(value * (1 + half(LEFT[j])), 9),
      told: LEFT[j] <= 0.6,
      ...(j === 2 ? { at: { dimension: 'angularSpeed', value: 700 } } : {}),
      ...(LEFT[j] <= 0.6
        ? {}
        : {
            instead: {
              usual: expect.closeTo(half(1), 9),
              ...(j === 1 ? { from: { words: 'lag of the thermometer', correlation: expect.closeTo(-0.7, 9) } } : {}),
              ...(j === 2 ? { from: { words: 'loss of the winding', correlation: expect.closeTo(0.6, 9) } } : {}),
              ...(j === 3 ? { from: { words: model.ways[2].way.words, correlation: expect.closeTo(0.55, 9) } } : {}),
              ...(sd < 0.8 * LEFT[j]
                ? { run: { words: 'the same run with a thermometer held to the fixed end', left: expect.closeTo(half(sd), 6) } }
                : {}),
            },
          }),
    };
  });
  expect(found.numbers.slice(0, 7)).toEqual(expected);
  // some of what is left a second thermometer would tell, some not
  expect(
    new Set(
      found.numbers
        .slice(1, 4)
        .concat(found.numbers.slice(5, 7))
        .map(({ instead }) => instead?.run !== undefined),
    ).size,
  ).toBe(2);

  const top = (z: readonly number[]) => Math.max(...model.bodies(z)[0]);
  const slope = fit.deviates.map((_, j) => {
    const at = (step: number) => top(fit.deviates.map((z, k) => (k === j ? z + step : z)));
    return (at(0.01) - at(-0.01)) / 0.02;
  });
  const { low, high, ...hottest } = found.numbers[7];
  expect(hottest).toEqual({
    key: 'hottest_winding',
    words: 'winding at its hottest in this run',
    dimension: 'temperature',
    value: top(fit.deviates),
    told: true,
  });
  expect((high - hottest.value) / (2.2 * Math.sqrt(quadratic(fit.covariance, slope)))).toBeCloseTo(1, 1);
  expect(high + low).toBeCloseTo(2 * hottest.value, 9);

  const law = model.predict(fit.deviates);
  const off = Array.from(law, (each, k) => (each - ROWS.probe[k]) ** 2);
  expect(found.fits).toEqual([
    {
      key: 'temperature',
      words: 'thermometer between the wires of a slot',
      dimension: 'temperature',
      count: 5,
      left: expect.closeTo(Math.sqrt(off.reduce((a, b) => a + b) / 5), 9),
      outliers: 2,
      pattern: patternInTime([...RESIDUALS]),
      alongWords: 'time',
      points: Array.from(law, (each, k) => ({ along: ROWS.time[k], read: ROWS.probe[k], law: each, group: '', weight: fit.weights[k] })),
    },
  ]);
  expect(found.fits[0].pattern).toBeGreaterThan(1);

  const { numbers, fits: _, ...rest } = found;
  const line = (k: number, unit: 'W/K' | 'J/K') => written(numbers[k], unit);
  const source = 'source: "identified from a.csv"';
  const rule = '  # by rule: the log does not tell it';
  expect(rest).toEqual({
    kind: 'heat',
    sources: ['a.csv'],
    taken: [
      'x',
      '0.250 A while nothing turns taken for the ammeter’s zero and the controller’s own current',
      'the surfaces of the can, and air that no propeller of the scenario moves, as the rules have them',
    ],
    rows: 5,
    along: { words: 'time', dimension: 'time' },
    together: [{ a: model.ways[0].way.words, b: model.ways[4].way.words, correlation: expect.closeTo(0.9, 9) }],
    unknowns: 12,
    singular: [7, 0.5],
    rank: 1,
    settled: true,
    parts: [
      {
        file: 'motor-heat.yaml',
        text: `part: motor\n${source}\nthermal:\n  winding_to_stator: ${line(0, 'W/K')}\n  stator_to_can: ${line(1, 'W/K')}${rule}\n  stator_to_air: { conductance: ${line(2, 'W/K')}, at_speed: 6685 rpm }${rule}\n  winding_capacity: ${line(4, 'J/K')}\n  stator_capacity: ${line(5, 'J/K')}${rule}\n  can_capacity: ${line(6, 'J/K')}${rule}\n`,
      },
      { file: 'cooling.yaml', text: `part: cooling\n${source}\nmount: { conductance: ${line(3, 'W/K')} }${rule}\n` },
    ],
  });
});

it('of an inrunner has no mount; of two other places the one that leaves less is named', () => {
  const { name, given, data } = INRUNNER;
  const { atRest: _, ...rows } = heatLog([0, 10, 20, 30], { speed: [700, 700, 1e-9, 0], probe: [300, 310, 320, 315] });
  const model = heatModel(name, given, data, rows);
  const left = [0.9, ...new Array<number>(10).fill(0.95)];
  const fit = fitOf(left, { covariance: left.map((a, i) => left.map((__, j) => (i === j ? a * a : 0))), scales: [1.5], alike: [1] });
  const { numbers, taken, fits, parts, together } = heatFound({ name, given, data, rows, sources: ['a.csv'], taken: [] }, model, fit);
  expect(taken).toEqual(['the surfaces of the can, and air that no propeller of the scenario moves, as the rules have them']);
  expect([fits[0]?.pattern, fits[0]?.count, together]).toEqual([0, 4, []]);
  expect(parts.map(({ file }) => file)).toEqual(['motor-heat.yaml']);
  const after = (['on-end', 'on-can'] as const).map((place) => {
    const there = heatModel(name, given, data, { ...rows, place });
    const more = informationOf(jacobianOf(there, fit.deviates), new Float64Array(4).fill(1), 11);
    return withInformation(fit.covariance, more, [0, 1, 2, 3, 4, 5, 6, 11, 12, 9, 13]);
  });
  model.ways.forEach(({ deviation }, j) => {
    const sds = after.map((each) => Math.sqrt(each[j][j]));
    const best = Math.min(...sds);
    const run = numbers[j]?.instead?.run;
    if (best >= 0.8 * left[j]) expect(run).toBeUndefined();
    else {
      expect(run?.left).toBeCloseTo(Math.expm1(2.2 * deviation * best), 9);
      expect(run?.words).toBe(`the same run with a thermometer held to the ${sds[0] <= sds[1] ? 'fixed end' : 'can'}`);
    }
  });
  expect(numbers.filter(({ instead }) => instead?.run !== undefined).length).toBeGreaterThan(0);
});

it('says how many rows were put together', () => {
  const { name, given, data } = OUTRUNNER;
  const time = Array.from({ length: 122 }, (_, k) => 0.05 * k);
  const { atRest: _, ...rows } = heatLog(time, { speed: time.map((t) => (t < 3 ? 700 : 1e-9)) }, 'on-end');
  const model = heatModel(name, given, data, rows);
  const { taken } = heatFound({ name, given, data, rows, sources: ['a.csv'], taken: [] }, { ...model, ways: [] }, fitOf(LEFT));
  expect(taken[0]).toBe('122 rows put together to 61');
  expect(taken).toHaveLength(2);
});

it('needs twelve rows, some of them of a motor that turns', () => {
  const ask = (n: number) => ({
    ...OUTRUNNER,
    rows: heatLog(
      Array.from({ length: n }, (_, k) => k),
      { speed: 0 },
    ),
    sources: [],
    taken: [],
  });
  expect(() => identifyHeat(ask(11))).toThrow(
    new RangeError('Only 11 rows have volts, amps, speed and a temperature; at least 12 are needed.'),
  );
  expect(() => identifyHeat(ask(12))).toThrow('Nothing turns');
});
