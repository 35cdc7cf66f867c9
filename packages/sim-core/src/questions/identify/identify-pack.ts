/**
 * A pack's numbers from a discharge: voltage at rest over charge, ohmic and slow resistance, capacity.
 *
 * One current all along tells the sum of voltage at rest and ohmic drop, and neither; pauses or two currents part them. What the log
 * does not part is refused, with the run that would tell it. *Source* pack-model.ts, numerics/least-squares.ts.
 * @module
 */
import { informationOf, withInformation } from '../../numerics/information.js';
import { type Fit, fitRobustly, jacobianOf } from '../../numerics/least-squares.js';
import { usualShare } from '../../provenance/written.js';
import { formatQuantity, toUnit } from '../../quantities/index.js';
import type { FoundNumber, IdentifyResult, NotTold } from '../../results/identify-result.js';
import { type PackModel, type PackRows, type PackSetup, packModel } from './pack-model.js';
import { partText, written } from './part-text.js';
import { patternInTime } from './pattern.js';

export interface PackAsk {
  readonly rows: PackRows;
  readonly setup: PackSetup;
  readonly sources: readonly string[];
  readonly taken: readonly string[];
}

const LEAST_ROWS = 12;
const MOST_ROWS = 1500;
/** Volts of a cell that a curve is worth from its chemistry alone, 95 % [V], and what is left of it where the log tells [1]. */
const CURVE = 0.03;
const TOLD = 0.7;
/** Charges at which the curve is written [1]. */
const WRITTEN = [0, 0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1];

export interface FittedPack {
  readonly rows: PackRows;
  readonly model: PackModel;
  readonly fit: Fit;
}

/** The fit of a discharge. Throws RangeError where too few rows are there. */
export function fittedPack({ rows: all, setup }: Pick<PackAsk, 'rows' | 'setup'>): FittedPack {
  if (all.time.length < LEAST_ROWS)
    throw new RangeError(`Only ${all.time.length} rows have volts and amps of the pack; at least ${LEAST_ROWS} are needed.`);
  const rows = thinned(all);
  const model = packModel(rows, setup);
  return { rows, model, fit: fitRobustly(model) };
}

/** Throws RangeError where too few rows are there. */
export const identifyPack = (ask: PackAsk): IdentifyResult => packFound(ask, fittedPack(ask));

/** What a fit of the discharge tells. */
export function packFound({ rows: all, setup, sources, taken }: PackAsk, { rows, model, fit }: FittedPack): IdentifyResult {
  const volts = model.predict(fit.deviates);
  const numbers = [...PACK_NUMBERS.map((each) => foundNumber(each, model, fit, rows, setup)), ...curveNumbers(model, fit)];
  const current = Math.max(...rows.current);
  return {
    kind: 'pack',
    sources,
    taken: [
      ...taken,
      `${formatQuantity(setup.charge, 'fraction', { unit: '%', space: ' ' })} charge at the first row`,
      ...(Array.from(rows.temperature).some(Number.isNaN)
        ? [
            `cells at ${formatQuantity(setup.temperature, 'temperature', { unit: '°C', decimals: 0, space: ' ' })} where the log tells no temperature`,
          ]
        : []),
      ...(rows.time.length < all.time.length ? [`${all.time.length} rows put together to ${rows.time.length}`] : []),
    ],
    rows: rows.time.length,
    numbers,
    fits: [
      {
        key: 'voltage',
        words: 'voltage of the pack',
        dimension: 'voltage',
        count: rows.time.length,
        left: Math.sqrt(volts.reduce((sum, each, k) => sum + (each - rows.voltage[k]) ** 2, 0) / volts.length),
        outliers: Array.from(fit.weights).filter((weight) => weight < 0.5).length,
        pattern: patternInTime(Array.from(fit.residuals, (left, k) => left * fit.weights[k])),
        alongWords: 'time',
        points: Array.from(volts, (law, k) => ({
          along: rows.time[k],
          read: rows.voltage[k],
          law,
          group: rows.current[k] > 0.5 * current ? 'under load' : 'at rest or little',
          weight: fit.weights[k],
        })),
      },
    ],
    along: { words: 'time', dimension: 'time' },
    together: [],
    unknowns: model.unknowns,
    singular: fit.singular,
    rank: fit.rank,
    settled: fit.settled,
    parts: packParts(numbers, model, fit, sources),
  };
}

/** Every so many rows one, as it was read: a mean over a step of current would be neither before nor after it. */
function thinned(rows: PackRows): PackRows {
  const size = Math.ceil(rows.time.length / MOST_ROWS);
  if (size === 1) return rows;
  const kept = (values: Float64Array): Float64Array => values.filter((_, k) => k % size === 0);
  return { time: kept(rows.time), voltage: kept(rows.voltage), current: kept(rows.current), temperature: kept(rows.temperature) };
}

export const PACK_NUMBERS = [
  { key: 'capacity', words: 'capacity', dimension: 'charge', subject: 'battery.capacity' },
  {
    key: 'resistance',
    words: 'ohmic resistance of a cell at 25 °C and half charge',
    dimension: 'resistance',
    subject: 'battery.cell_resistance',
  },
  { key: 'slow', words: 'slow resistance of a cell', dimension: 'resistance', subject: 'battery.polarisation.resistance' },
  { key: 'time', words: 'time in which the slow part settles', dimension: 'time', subject: 'battery.polarisation.time' },
] as const;

function foundNumber(
  { key, words, dimension, subject }: (typeof PACK_NUMBERS)[number],
  model: PackModel,
  fit: Fit,
  rows: PackRows,
  setup: PackSetup,
): FoundNumber {
  const j = model.list.findIndex((each) => each.key === key);
  const { deviation } = model.list[j];
  const sd = Math.sqrt(fit.covariance[j][j]);
  const half = (of: number): number => Math.expm1(fit.quantile * deviation * of);
  const value = model.values(fit.deviates).get(key) ?? Number.NaN;
  const usual = usualShare(subject);
  // the label says the capacity: the log must better it
  const told = half(sd) <= usual * (key === 'capacity' ? TOLD : 1);
  const number = { key, words, dimension, value, low: value / (1 + half(sd)), high: value * (1 + half(sd)), told };
  if (told) return number;
  let from: NotTold['from'];
  model.list.forEach(({ words: other }, k) => {
    const correlation = fit.covariance[j][k] / (sd * Math.sqrt(fit.covariance[k][k]));
    if (k !== j && Math.abs(correlation) > Math.abs(from?.correlation ?? 0.5)) from = { words: other, correlation };
  });
  const best = RUNS.map((run) => ({ words: run.words, sd: Math.sqrt(after(run, fit, rows, setup)[j][j]) })).sort((a, b) => a.sd - b.sd)[0];
  return {
    ...number,
    instead: {
      usual,
      ...(from === undefined ? {} : { from }),
      ...(best.sd < 0.8 * sd ? { run: { words: best.words, left: half(best.sd) } } : {}),
    },
  };
}

/** Discharges that could be made: from full to a tenth, at the log's greatest current. */
const RUNS = [
  { words: 'a discharge with a pause of a minute at every tenth of the charge', pause: 1, low: 0 },
  { words: 'a discharge that goes between that current and a third of it every half minute', pause: 0.5, low: 1 / 3 },
  { words: 'a whole discharge at that current', pause: 0, low: 1 },
] as const;

function after(run: (typeof RUNS)[number], fit: Fit, rows: PackRows, setup: PackSetup): number[][] {
  const current = Math.max(...rows.current);
  const whole = (0.9 * setup.battery.capacity) / current;
  const step = whole / 240;
  const pause = PAUSE * run.pause;
  const period = run.low === 0 ? whole / 9 : 2 * pause;
  const made: { t: number; i: number }[] = [];
  let drawn = 0;
  for (let t = 0; drawn < 0.9 * setup.battery.capacity && made.length < 2000; t += step) {
    const resting = run.pause > 0 && t % (period + pause) > period;
    const i = resting ? run.low * current : current;
    made.push({ t, i });
    drawn += i * step;
  }
  const column = (pick: (row: { t: number; i: number }) => number): Float64Array => Float64Array.from(made, pick);
  const tried: PackRows = {
    time: column(({ t }) => t),
    current: column(({ i }) => i),
    voltage: column(() => rows.voltage[0]),
    temperature: column(() => Number.NaN),
  };
  const there = packModel(tried, { ...setup, charge: 1 });
  const weights = new Float64Array(there.count).fill(1 / (fit.scales[0] ** 2 * fit.alike[0]));
  return withInformation(
    fit.covariance,
    informationOf(jacobianOf(there, fit.deviates), weights, there.unknowns),
    fit.deviates.map((_, k) => k),
  );
}
/** Of a run, before the factor [s]. */
const PAUSE = 60;

function curveNumbers(model: PackModel, fit: Fit): FoundNumber[] {
  const seen = model.chargeLeft(fit.deviates);
  return [0.1, 0.3, 0.5, 0.8, 1]
    .filter((charge) => charge >= seen)
    .map((charge): FoundNumber => {
      const slope = fit.deviates.map(
        (_, j) =>
          model.openCircuit(
            fit.deviates.map((z, k) => (k === j ? z + 1 : z)),
            charge,
          ) - model.openCircuit(fit.deviates, charge),
      );
      const sd = Math.sqrt(slope.reduce((sum, a, i) => sum + a * slope.reduce((inner, b, k) => inner + b * fit.covariance[i][k], 0), 0));
      const value = model.openCircuit(fit.deviates, charge);
      const told = fit.quantile * sd <= TOLD * CURVE;
      return {
        key: 'open_circuit',
        at: { dimension: 'fraction', value: charge },
        words: 'voltage of a cell at rest',
        dimension: 'voltage',
        value,
        low: value - fit.quantile * sd,
        high: value + fit.quantile * sd,
        told,
        ...(told ? {} : { instead: { usual: CURVE / value } }),
      };
    });
}

function packParts(numbers: readonly FoundNumber[], model: PackModel, fit: Fit, sources: readonly string[]): IdentifyResult['parts'] {
  const told = (key: string): FoundNumber | undefined => numbers.find((each) => each.key === key && each.told);
  const [capacity, resistance, slow, time] = ['capacity', 'resistance', 'slow', 'time'].map(told);
  const curve = numbers.filter(({ key }) => key === 'open_circuit');
  const lines = [
    ...(capacity === undefined ? [] : [`capacity: ${written(capacity, 'A·h')}`]),
    ...(resistance === undefined ? [] : [`cell_resistance: ${written(resistance, 'mohm')}`]),
    ...(slow === undefined || time === undefined
      ? []
      : [`polarisation: { resistance: ${written(slow, 'mohm')}, time: ${written(time, 's')} }`]),
    ...(curve.some(({ told: known }) => known)
      ? [
          'open_circuit:',
          ...WRITTEN.map(
            (charge) => `  - { charge: ${toUnit(charge, '%')} %, voltage: ${model.openCircuit(fit.deviates, charge).toFixed(4)} V }`,
          ),
        ]
      : []),
  ];
  return lines.length === 0 ? [] : [{ file: 'battery.yaml', text: partText('battery', sources, lines) }];
}
