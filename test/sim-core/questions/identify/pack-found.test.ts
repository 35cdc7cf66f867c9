/** What the fit of a discharge tells of a pack: numbers with intervals, the discharge that would tell more, the curve, the part file. The fit is made up. */
import { informationOf, withInformation } from '@shaftwork/sim-core/numerics/information';
import { type Fit, jacobianOf } from '@shaftwork/sim-core/numerics/least-squares';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { usualShare } from '@shaftwork/sim-core/provenance/written';
import { STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { packFound } from '@shaftwork/sim-core/questions/identify/identify-pack';
import { INSTRUMENTS } from '@shaftwork/sim-core/questions/identify/instruments';
import { type PackSetup, packModel } from '@shaftwork/sim-core/questions/identify/pack-model';
import { written } from '@shaftwork/sim-core/questions/identify/part-text';
import { patternInTime } from '@shaftwork/sim-core/questions/identify/pattern';
import { expect, it } from 'vitest';
import { dataOf } from '../../provenance/drives.js';

const { battery } = realise(dataOf({ battery: { chemistry: 'lithium-polymer', cells: { series: 3, parallel: 2 }, capacity: '2.2 Ah' } }));
const setup: PackSetup = { battery, charge: 0.9, temperature: 298.15, instruments: INSTRUMENTS };
const N = 14;
const ROWS = {
  time: Float64Array.from({ length: N }, (_, k) => 50 * k),
  voltage: Float64Array.from({ length: N }, (_, k) => 12 - 0.05 * k),
  current: Float64Array.from({ length: N }, (_, k) => [20, 5, 10, 0][k % 4]),
  temperature: new Float64Array(N).fill(Number.NaN),
};
const model = packModel(ROWS, setup);
/** What is left of capacity, resistances, time, rise, lag, seven places of the curve and two gains; how they hang together. */
const LEFT = [0.9, 0.1, 0.95, 0.8, 0.9, 0.9, 0.7, 0.9, 0.9, 0.3, 0.2, 0.2, 0.3, 1, 1];
const ALIKE: readonly (readonly [number, number, number])[] = [
  [0, 14, -0.6],
  [0, 4, 0.55],
  [2, 3, 0.5],
  [9, 10, 0.5],
];
const covariance = LEFT.map((a, i) =>
  LEFT.map((b, j) => a * b * (i === j ? 1 : (ALIKE.find(([k, l]) => (k === i && l === j) || (k === j && l === i))?.[2] ?? 0))),
);
const fit: Fit = {
  deviates: LEFT.map((_, k) => 0.2 * (k % 3)),
  covariance,
  singular: [5, 0.1],
  directions: [],
  rank: 1,
  residuals: Float64Array.from({ length: N }, (_, k) => Math.sin(k)),
  weights: Float64Array.from({ length: N }, (_, k) => (k === 3 ? 0.5 : k === 4 ? 0.49 : 1)),
  scales: [2],
  alike: [3],
  quantile: 2.1,
  settled: true,
};
const ask = { rows: ROWS, setup, sources: ['d.csv'], taken: ['said before'] };
const found = (more: Partial<Fit> = {}) => packFound(ask, { rows: ROWS, model, fit: { ...fit, ...more } });
const FACTORS = [1.06, 2.5, 3, 3];
const half = (j: number, sd: number): number => Math.expm1(((2.1 * Math.log(FACTORS[j])) / STANDARD_DEVIATIONS_95) * sd);

it('numbers are the fit’s, told where the log knows them better than a label or a rule', () => {
  const { numbers } = found();
  const values = model.values(fit.deviates);
  const keys = ['capacity', 'resistance', 'slow', 'time'];
  const usual = (
    ['battery.capacity', 'battery.cell_resistance', 'battery.polarisation.resistance', 'battery.polarisation.time'] as const
  ).map((each) => usualShare(each));
  keys.forEach((key, j) => {
    const value = values.get(key) ?? Number.NaN;
    const share = half(j, LEFT[j]);
    const told = share <= usual[j] * (j === 0 ? 0.7 : 1);
    expect(numbers[j]).toMatchObject({
      key,
      value,
      low: expect.closeTo(value / (1 + share), 9),
      high: expect.closeTo(value * (1 + share), 9),
      told,
    });
    expect(numbers[j].instead?.usual).toBe(told ? undefined : usual[j]);
  });
  expect(numbers.slice(0, 4).map(({ told }) => told)).toEqual([false, true, false, false]);
  expect(numbers.slice(0, 4).map(({ words, dimension }) => [words, dimension])).toEqual([
    ['capacity', 'charge'],
    ['ohmic resistance of a cell at 25 °C and half charge', 'resistance'],
    ['slow resistance of a cell', 'resistance'],
    ['time in which the slow part settles', 'time'],
  ]);
  // the most alike is named, where it is more than half alike
  expect(numbers.slice(0, 4).map(({ instead }) => instead?.from)).toEqual([
    { words: 'gain of the ammeter', correlation: expect.closeTo(-0.6, 9) },
    undefined,
    undefined,
    undefined,
  ]);
});

it('the discharge is named that would leave least, of three from full to a tenth at the greatest current', () => {
  const step = (0.9 * battery.capacity) / 20 / 240;
  const tenth = (0.9 * battery.capacity) / 20 / 9;
  const run = (currentAt: (t: number) => number): number[][] => {
    const [time, current]: [number[], number[]] = [[], []];
    for (let t = 0, drawn = 0; drawn < 0.9 * battery.capacity; t += step) {
      time.push(t);
      current.push(currentAt(t));
      drawn += currentAt(t) * step;
    }
    const nothing = new Float64Array(time.length);
    const tried = packModel(
      {
        time: Float64Array.from(time),
        current: Float64Array.from(current),
        voltage: nothing.map(() => 12),
        temperature: nothing.map(() => Number.NaN),
      },
      { ...setup, charge: 1 },
    );
    const more = informationOf(jacobianOf(tried, fit.deviates), new Float64Array(time.length).fill(1 / 12), 15);
    return withInformation(covariance, more, [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14]);
  };
  const runs = [
    ['a discharge with a pause of a minute at every tenth of the charge', run((t) => (t % (tenth + 60) > tenth ? 0 : 20))],
    ['a discharge that goes between that current and a third of it every half minute', run((t) => (t % 90 > 60 ? 20 / 3 : 20))],
    ['a whole discharge at that current', run(() => 20)],
  ] as const;
  const { numbers } = found();
  let named = 0;
  for (const j of [0, 2, 3]) {
    const [best] = runs.map(([words, after]) => ({ words, sd: Math.sqrt(after[j][j]) })).sort((a, b) => a.sd - b.sd);
    const worth = best.sd < 0.8 * LEFT[j];
    if (worth) named++;
    expect(numbers[j].instead?.run).toEqual(worth ? { words: best.words, left: expect.closeTo(half(j, best.sd), 6) } : undefined);
  }
  expect(named).toBeGreaterThan(0);
});

it('the voltage at rest is that of the curve, as sure as the places of it that lie about', () => {
  const { numbers, parts } = found();
  const curve = numbers.slice(4);
  const volt = 0.03 / STANDARD_DEVIATIONS_95;
  // at 30 % three quarters of the way from 15 % to 35 %, at 50 % three fifths from there to 60 %, at 80 % four fifths on to 85 %
  const [c15, c35, c60, c85, c100] = [8, 9, 10, 11, 12].map((k) => covariance[k][k]);
  const sds = [
    ['0.3', Math.sqrt(c15 / 16 + (9 * c35) / 16)],
    ['0.5', Math.sqrt(0.16 * c35 + 0.36 * c60 + 0.48 * covariance[9][10])],
    ['0.8', Math.sqrt(0.04 * c60 + 0.64 * c85)],
    ['1', Math.sqrt(c100)],
  ] as const;
  // more than that the log did not see
  expect(model.chargeLeft(fit.deviates)).toBeGreaterThan(0.1);
  expect(curve.map(({ at }) => String(at?.value))).toEqual(sds.map(([charge]) => charge));
  curve.forEach((each, k) => {
    const value = model.openCircuit(fit.deviates, Number(sds[k][0]));
    const reach = 2.1 * volt * sds[k][1];
    expect(each).toEqual({
      key: 'open_circuit',
      at: { dimension: 'fraction', value: Number(sds[k][0]) },
      words: 'voltage of a cell at rest',
      dimension: 'voltage',
      value,
      low: expect.closeTo(value - reach, 9),
      high: expect.closeTo(value + reach, 9),
      told: reach <= 0.021,
      ...(reach <= 0.021 ? {} : { instead: { usual: 0.03 / value } }),
    });
  });
  expect(curve.map(({ told }) => told)).toEqual([true, true, true, true]);
  const points = [0, 2, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100].map(
    (percent) => `  - { charge: ${percent} %, voltage: ${model.openCircuit(fit.deviates, percent / 100).toFixed(4)} V }\n`,
  );
  expect(parts).toEqual([
    {
      file: 'battery.yaml',
      text: `part: battery\nsource: "identified from d.csv"\ncell_resistance: ${written(numbers[1], 'mohm')}\nopen_circuit:\n${points.join('')}`,
    },
  ]);
});

it('what is told all of it stands in the part file, and nothing where nothing is told', () => {
  const scaled = (by: number) => ({ covariance: covariance.map((row) => row.map((each) => by * each)) });
  const { numbers, parts } = found(scaled(0.01));
  expect(parts[0].text).toContain(
    `capacity: ${written(numbers[0], 'A·h')}\ncell_resistance: ${written(numbers[1], 'mohm')}\npolarisation: { resistance: ${written(numbers[2], 'mohm')}, time: ${written(numbers[3], 's')} }\nopen_circuit:\n`,
  );
  expect(numbers.filter(({ told }) => !told)).toEqual([]);
  const nothing = found(scaled(25));
  expect([nothing.parts, nothing.numbers.filter(({ told }) => told)]).toEqual([[], []]);
  expect(nothing.numbers[4].instead?.usual).toBeCloseTo(0.03 / nothing.numbers[4].value, 12);
});

it('the fit is told row by row', () => {
  const { fits, numbers: _, parts: __, ...rest } = found();
  const volts = model.predict(fit.deviates);
  expect(fits).toEqual([
    {
      key: 'voltage',
      words: 'voltage of the pack',
      dimension: 'voltage',
      count: N,
      left: expect.closeTo(Math.sqrt(volts.reduce((sum, each, k) => sum + (each - ROWS.voltage[k]) ** 2, 0) / N), 9),
      outliers: 1,
      pattern: patternInTime(Array.from(fit.residuals, (each, k) => each * fit.weights[k])),
      alongWords: 'time',
      points: Array.from(volts, (law, k) => ({
        along: 50 * k,
        read: ROWS.voltage[k],
        law,
        group: k % 4 === 0 ? 'under load' : 'at rest or little',
        weight: fit.weights[k],
      })),
    },
  ]);
  expect(rest).toEqual({
    kind: 'pack',
    sources: ['d.csv'],
    taken: ['said before', '90.0 % charge at the first row', 'cells at 25 °C where the log tells no temperature'],
    rows: N,
    along: { words: 'time', dimension: 'time' },
    together: [],
    unknowns: 15,
    singular: [5, 0.1],
    rank: 1,
    settled: true,
  });
});
