/**
 * Runs that could still be made of a motor on its bench, calculated from what is known of it: what each would tell beside the log.
 *
 * A run's rows are made at the constants found, read by the same instruments; what they add to the information gives the intervals that would be
 * left. *Source* D-optimal thinking, A. C. Atkinson & A. N. Donev, Optimum Experimental Designs, 1992, ch. 6 (from memory).
 * @module
 */
import { bridgeVoltage } from '../../drive/electrical-chain.js';
import { informationOf, withInformation } from '../../numerics/information.js';
import { type Fit, jacobianOf } from '../../numerics/least-squares.js';
import { formatQuantity, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { BenchRows } from './bench-rows.js';
import type { InstrumentId } from './instruments.js';
import { type BenchSetup, type MotorModel, motorModel } from './motor-model.js';
import type { Starts } from './motor-starts.js';

/** Rows that a run is counted with, each half a minute or so of holding still. */
const ROWS = 8;
/** A milliohm reading between two leads: a current sent through, the volts read at the leads; half-width as a share, leads and temperature too [1]. */
const LEADS = 0.03;

interface Run {
  readonly words: string;
  readonly points: readonly { readonly voltage: number; readonly torque: number | undefined; readonly half?: boolean }[];
}

/** Speed and currents at which the found constants balance. */
function balanced(x: ReadonlyMap<string, number>, setup: BenchSetup, { voltage, torque = 0, half = false }: Run['points'][number]) {
  const get = (key: string): number => x.get(key) ?? Number.NaN;
  const [k, r] = [get('kt'), get('resistance')];
  const reactive = (setup.sinusoidal ? 1 : 3 / (2 * Math.PI)) * setup.polePairs * get('inductanceTime') * r;
  const at = (w: number) => {
    const i = (torque * w * w + get('constantLoss') + get('speedLoss') * w) / k;
    return { i, v: r * i + k * w, u: bridgeVoltage(setup.sinusoidal, r * i + k * w, reactive * w * i) };
  };
  let [low, high] = [0, voltage / k];
  for (let n = 0; n < 60; n++) {
    const middle = 0.5 * (low + high);
    if (at(middle).u < (half ? 0.5 : 1) * voltage) low = middle;
    else high = middle;
  }
  const { i, v } = at(low);
  return { speed: low, current: (v * i) / voltage + get('idle'), motorCurrent: i, torque: torque * low * low };
}

/** What the bench could do next: a bare shaft, another propeller, another voltage, half throttle. */
function possibleRuns(rows: BenchRows, x: ReadonlyMap<string, number>): Run[] {
  const volts = Array.from(rows.read.voltage ?? []).sort((a, b) => a - b);
  const [low, high] = [volts[0], volts[volts.length - 1]];
  const less = high - low > 0.2 * high ? low : 0.67 * high;
  const say = (v: number): string => formatQuantity(v, 'voltage', { unit: 'V', decimals: 1, space: ' ' });
  const torques = rows.propellers.map((name) => x.get(`torque:${name}`) ?? 0).sort((a, b) => a - b);
  const [lightest = 0] = torques;
  const both = (torque: number | undefined): Run['points'] => [
    { voltage: high, torque },
    { voltage: less, torque },
  ];
  return [
    { words: `the bare shaft at full throttle on ${say(less)} and ${say(high)}`, points: both(undefined) },
    ...(lightest > 0
      ? [
          {
            words: `a propeller that asks for half the torque, at full throttle on ${say(high)}`,
            points: [{ voltage: high, torque: 0.5 * lightest }],
          },
          { words: `the same propeller at full throttle on ${say(less)} and ${say(high)}`, points: both(lightest) },
          { words: `the same propeller at half throttle on ${say(high)}`, points: [{ voltage: high, torque: lightest, half: true }] },
        ]
      : [
          {
            words: `a propeller at full throttle on ${say(high)}`,
            points: [{ voltage: high, torque: (0.2 * (x.get('kt') ?? 0) ** 3) / (high * (x.get('resistance') ?? 1)) }],
          },
        ]),
  ];
}

export interface RunWorth {
  readonly words: string;
  /** Covariance of the log's own unknowns that would be left, in z, in the order of the model. */
  readonly covariance: readonly (readonly number[])[];
}

/** Every possible run and what it would leave of the unknowns. */
export function worthOfRuns(rows: BenchRows, setup: BenchSetup, model: MotorModel, fit: Fit, starts: Starts): RunWorth[] {
  const values = model.values(fit.deviates);
  const x = new Map(model.list.map(({ key }, j) => [key, values[j]]));
  const size = model.unknowns;
  const own = model.list.findIndex(({ key }) => key === 'resistance');
  const worth = possibleRuns(rows, x).map(({ words, points }): RunWorth => {
    const repeated = Array.from({ length: Math.ceil(ROWS / points.length) }, () => points).flat();
    const names = rows.propellers.map((name) => x.get(`torque:${name}`));
    const found = repeated.map((point) => ({ ...point, ...balanced(x, setup, point) }));
    const another = found.some(({ torque }, k) => repeated[k].torque !== undefined && !names.includes(repeated[k].torque) && torque > 0);
    const propellers = another ? [...rows.propellers, 'another'] : rows.propellers;
    const ids = (Object.keys(rows.read) as InstrumentId[]).filter((id) => id !== 'thrust');
    const tried: BenchRows = {
      time: Float64Array.from(found, (_, k) => k),
      timed: false,
      read: Object.fromEntries(ids.map((id) => [id, Float64Array.from(found, (point) => point[id as 'voltage'])])),
      duty: Float64Array.from(found, ({ half }) => (half ? Number.NaN : 1)),
      winding: new Float64Array(found.length).fill(Number.NaN),
      propeller: Int32Array.from(repeated, ({ torque }) =>
        torque === undefined ? -1 : another ? propellers.length - 1 : names.indexOf(torque),
      ),
      propellers,
    };
    const added = another ? (repeated[0].torque ?? 0) : 0;
    const trial = motorModel(tried, setup, {
      ...starts,
      torque: another ? [...starts.torque, added] : starts.torque,
      thrust: propellers.map(() => Number.NaN),
    });
    const place = trial.list.map(({ key }) => model.list.findIndex((each) => each.key === key));
    const z = place.map((at) => (at < 0 ? 0 : fit.deviates[at]));
    trial.weigh(z);
    const more = informationOf(jacobianOf(trial, z), new Float64Array(trial.count).fill(1), trial.unknowns);
    return {
      words,
      covariance: withInformation(
        fit.covariance,
        more,
        place.map((at) => (at < 0 ? size : at)),
      ),
    };
  });
  const leads = (model.list[own].deviation * STANDARD_DEVIATIONS_95) / LEADS;
  return [
    ...worth,
    {
      words: 'the resistance between two leads, by a current sent through them and the volts at the leads',
      covariance: withInformation(fit.covariance, [[leads * leads]], [own]),
    },
  ];
}
