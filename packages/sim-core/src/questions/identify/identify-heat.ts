/**
 * A motor's heat data from a run that warmed it and a stop that let it cool: conductances turning and standing apart, and capacities.
 *
 * All of them are written, told or not: they belong to one network. One that the log does not narrow keeps the rule's interval and is said to.
 * *Source* heat-model.ts, numerics/least-squares.ts.
 * @module
 */
import type { DriveSystem } from '../../drive/drive-system.js';
import { THERMOMETER_PLACES, type ThermometerPlaceId } from '../../heat/thermometer.js';
import { informationOf, withInformation } from '../../numerics/information.js';
import { type Fit, fitRobustly, jacobianOf } from '../../numerics/least-squares.js';
import type { Data } from '../../provenance/datum.js';
import type { GivenDrive } from '../../provenance/given.js';
import { formatQuantity, toUnit } from '../../quantities/index.js';
import type { FoundNumber, IdentifyResult, NotTold } from '../../results/identify-result.js';
import { type HeatModel, type HeatRows, heatModel } from './heat-model.js';
import { partText, written } from './part-text.js';
import { patternInTime } from './pattern.js';

export interface HeatAsk {
  readonly name: string;
  readonly given: GivenDrive;
  readonly data: DriveSystem<Data>;
  readonly rows: HeatRows;
  readonly sources: readonly string[];
  readonly taken: readonly string[];
}

/** An interval at most this much of what was known before is told by the log [1]. */
const TOLD = 0.6;
const STEP = 1e-2;
const PLACES: readonly ThermometerPlaceId[] = ['in-slot', 'on-end', 'on-can'];
const LEAST_ROWS = 12;

/** Throws RangeError where the log holds no warming run or too few rows. */
export function identifyHeat(ask: HeatAsk): IdentifyResult {
  const { name, given, data, rows } = ask;
  if (rows.time.length < LEAST_ROWS)
    throw new RangeError(`Only ${rows.time.length} rows have volts, amps, speed and a temperature; at least ${LEAST_ROWS} are needed.`);
  const model = heatModel(name, given, data, rows);
  return heatFound(ask, model, fitRobustly(model));
}

/** What a fit of the model tells. */
export function heatFound({ name, given, data, rows: all, sources, taken }: HeatAsk, model: HeatModel, fit: Fit): IdentifyResult {
  const others = PLACES.filter((place) => place !== model.rows.place && !(place === 'on-can' && data.motor.layout === 'outrunner')).map(
    (place) => {
      const there = heatModel(name, given, data, { ...all, place });
      const jacobian = jacobianOf(there, fit.deviates);
      // its share, lag and hold of the air are its own, apart from those of the thermometer that was there
      const places = fit.deviates.map((_, j) => (OWN_OF_PLACE.includes(j - model.ways.length) ? model.unknowns + j : j));
      const more = informationOf(jacobian, new Float64Array(there.count).fill(1 / fit.alike[0]), there.unknowns);
      return {
        words: `the same run with a thermometer ${THERMOMETER_PLACES[place].words}`,
        covariance: withInformation(fit.covariance, more, compacted(places)),
      };
    },
  );
  const numbers = model.ways.map((_, j) => wayNumber(model, fit, j, others));
  const reading = model.predict(fit.deviates);
  const { rows } = model;
  return {
    kind: 'heat',
    sources,
    taken: [
      ...taken,
      ...(rows.atRest === undefined
        ? []
        : [
            `${formatQuantity(rows.atRest, 'current', { unit: 'A', space: ' ' })} while nothing turns taken for the ammeter’s zero and the controller’s own current`,
          ]),
      ...(rows.time.length < all.time.length ? [`${all.time.length} rows put together to ${rows.time.length}`] : []),
      'the surfaces of the can, and air that no propeller of the scenario moves, as the rules have them',
    ],
    rows: rows.time.length,
    numbers: [...numbers, hottest(model, fit)],
    fits: [
      {
        key: 'temperature',
        words: `thermometer ${THERMOMETER_PLACES[rows.place].words}`,
        dimension: 'temperature',
        count: rows.time.length,
        left: Math.sqrt(reading.reduce((sum, each, k) => sum + (each - rows.probe[k]) ** 2, 0) / reading.length),
        outliers: Array.from(fit.weights).filter((weight) => weight < 0.5).length,
        // heat is slow: neighbours are alike whatever is fitted, and only what exceeds the stated error counts
        pattern: fit.scales[0] > OFF ? patternInTime([...fit.residuals]) : 0,
        alongWords: 'time',
        points: Array.from(reading, (law, k) => ({ along: rows.time[k], read: rows.probe[k], law, group: '', weight: fit.weights[k] })),
      },
    ],
    along: { words: 'time', dimension: 'time' },
    together: pairs(model, fit),
    unknowns: model.unknowns,
    singular: fit.singular,
    rank: fit.rank,
    settled: fit.settled,
    parts: heatParts(numbers, sources),
  };
}
/** Places among a model's own unknowns, after the ways: share, lag and hold of the air belong to the thermometer. */
const OWN_OF_PLACE = [1, 2, 4];
/** Above this many times the stated error a run is not fitted. */
const OFF = 1.5;

/** The same order without holes. */
function compacted(places: readonly number[]): number[] {
  const sorted = [...places].sort((a, b) => a - b);
  const fitted = places.length;
  const extra = sorted.filter((place) => place >= fitted);
  return places.map((place) => (place < fitted ? place : fitted + extra.indexOf(place)));
}

function wayNumber(
  model: HeatModel,
  fit: Fit,
  j: number,
  others: readonly { readonly words: string; readonly covariance: readonly (readonly number[])[] }[],
): FoundNumber {
  const { way, start, deviation } = model.ways[j];
  const left = Math.sqrt(fit.covariance[j][j]);
  const value = start * Math.exp(deviation * fit.deviates[j]);
  const half = (sd: number): number => Math.expm1(fit.quantile * deviation * sd);
  const number = {
    key: way.key,
    words: way.words,
    dimension: way.dimension,
    value,
    low: value / (1 + half(left)),
    high: value * (1 + half(left)),
    told: left <= TOLD,
  };
  const placed =
    way.key === 'stator_to_air' ? { ...number, at: { dimension: 'angularSpeed' as const, value: meanSpeed(model.rows) } } : number;
  if (left <= TOLD) return placed;
  let from: NotTold['from'];
  model.words.forEach((words, k) => {
    const correlation = fit.covariance[j][k] / (left * Math.sqrt(fit.covariance[k][k]));
    if (k !== j && Math.abs(correlation) > Math.abs(from?.correlation ?? 0.5)) from = { words, correlation };
  });
  const best = others.map(({ words, covariance }) => ({ words, sd: Math.sqrt(covariance[j][j]) })).sort((a, b) => a.sd - b.sd)[0];
  return {
    ...placed,
    instead: {
      usual: half(1),
      ...(from === undefined ? {} : { from }),
      ...(best !== undefined && best.sd < 0.8 * left ? { run: { words: best.words, left: half(best.sd) } } : {}),
    },
  };
}

const meanSpeed = ({ speed }: HeatRows): number => {
  const turning = Array.from(speed).filter((w) => w > 0);
  return turning.reduce((sum, w) => sum + w, 0) / turning.length;
};

/** Winding at its hottest of the run, with what the fit leaves open. */
function hottest(model: HeatModel, fit: Fit): FoundNumber {
  const top = (z: readonly number[]): number => Math.max(...model.bodies(z)[0]);
  const value = top(fit.deviates);
  const slope = fit.deviates.map((_, j) => (top(fit.deviates.map((z, k) => (k === j ? z + STEP : z))) - value) / STEP);
  const sd = Math.sqrt(slope.reduce((sum, a, i) => sum + a * slope.reduce((inner, b, k) => inner + b * fit.covariance[i][k], 0), 0));
  return {
    key: 'hottest_winding',
    words: 'winding at its hottest in this run',
    dimension: 'temperature',
    value,
    low: value - fit.quantile * sd,
    high: value + fit.quantile * sd,
    told: true,
  };
}

function pairs({ words, ways }: HeatModel, { covariance }: Fit): IdentifyResult['together'] {
  return ways.flatMap((_, i) =>
    ways.slice(i + 1).flatMap((__, k) => {
      const j = i + 1 + k;
      const correlation = covariance[i][j] / Math.sqrt(covariance[i][i] * covariance[j][j]);
      return Math.abs(correlation) > 0.8 ? [{ a: words[i], b: words[j], correlation }] : [];
    }),
  );
}

function heatParts(numbers: readonly FoundNumber[], sources: readonly string[]): IdentifyResult['parts'] {
  const remark = ({ told }: FoundNumber): string => (told ? '' : '  # by rule: the log does not tell it');
  const line = (number: FoundNumber): string => {
    const text = written(number, number.dimension === 'heatCapacity' ? 'J/K' : 'W/K');
    if (number.key !== 'stator_to_air') return `  ${number.key}: ${text}${remark(number)}`;
    const rpm = Math.round(toUnit(number.at?.value ?? Number.NaN, 'rpm'));
    return `  stator_to_air: { conductance: ${text}, at_speed: ${rpm} rpm }${remark(number)}`;
  };
  const mount = numbers.find(({ key }) => key === 'mount');
  const thermal = numbers.filter(({ key }) => key !== 'mount');
  return [
    { file: 'motor-heat.yaml', text: partText('motor', sources, ['thermal:', ...thermal.map(line)]) },
    ...(mount === undefined
      ? []
      : [
          {
            file: 'cooling.yaml',
            text: partText('cooling', sources, [`mount: { conductance: ${written(mount, 'W/K')} }${remark(mount)}`]),
          },
        ]),
  ];
}
