/**
 * What a log may have measured of a drive: one list, from which the columns of a log, the comparison with a prediction and its words come.
 *
 * *Source* of the errors: what hobby loggers, shunts, optical counters and thermometers are usually good for; common practice, no published source.
 * @module
 */
import type { ThermometerPlaceId } from '../heat/thermometer.js';
import type { Dimension, UnitOf } from '../quantities/index.js';

/** Words, unit and usual error of something measured. */
export interface Measurable<D extends Dimension = Dimension> {
  readonly words: string;
  readonly dimension: D;
  readonly shown: UnitOf<D>;
  /** Unit part of a JSON key. */
  readonly suffix: string;
  /** Number of digits after the point when shown [1]. */
  readonly decimals: number;
  /** Half-width of the instrument's 95 % interval: a share of the largest reading [1], or an amount [SI]. */
  readonly error: { readonly share: number } | { readonly amount: number };
  /** A drive that is driven never has 0 of it: a zero then means no sensor, or no value. */
  readonly neverZero?: true;
  /** Where the thermometer sits: what is measured is what it shows there. */
  readonly place?: ThermometerPlaceId;
  /** A head as a logger might write it. */
  readonly example: string;
}

const measurable = <D extends Dimension>(m: Measurable<D>): Measurable<D> => m;
/** Half-width of a thermometer's 95 % interval [K]. */
const THERMOMETER_ERROR = 2;
const temperature = (words: string, place: ThermometerPlaceId, example: string): Measurable<'temperature'> => ({
  words,
  dimension: 'temperature',
  shown: '°C',
  suffix: 'degC',
  decimals: 1,
  error: { amount: THERMOMETER_ERROR },
  neverZero: true,
  place,
  example,
});

/** What a log may hold that a run can be compared with. */
export const MEASURABLES = {
  throttle: measurable({
    words: 'throttle',
    dimension: 'fraction',
    shown: '%',
    suffix: 'percent',
    decimals: 1,
    error: { amount: 0.02 },
    example: 'thr [%]',
  }),
  voltage: measurable({
    words: 'voltage',
    dimension: 'voltage',
    shown: 'V',
    suffix: 'V',
    decimals: 2,
    error: { share: 0.01 },
    neverZero: true,
    example: 'U [V]',
  }),
  cell_voltage: measurable({
    words: 'cell voltage',
    dimension: 'voltage',
    shown: 'V',
    suffix: 'V',
    decimals: 2,
    error: { share: 0.01 },
    neverZero: true,
    example: 'cell 1 [V]',
  }),
  battery_current: measurable({
    words: 'battery current',
    dimension: 'current',
    shown: 'A',
    suffix: 'A',
    decimals: 1,
    error: { share: 0.05 },
    example: 'I [A]',
  }),
  motor_current: measurable({
    words: 'motor current',
    dimension: 'current',
    shown: 'A',
    suffix: 'A',
    decimals: 1,
    error: { share: 0.05 },
    example: 'Iq [0.866 A]',
  }),
  battery_power: measurable({
    words: 'battery power',
    dimension: 'power',
    shown: 'W',
    suffix: 'W',
    decimals: 0,
    error: { share: 0.05 },
    example: 'P [W]',
  }),
  charge_used: measurable({
    words: 'charge used',
    dimension: 'charge',
    shown: 'mA·h',
    suffix: 'mAh',
    decimals: 0,
    error: { share: 0.05 },
    example: 'used [mAh]',
  }),
  shaft_speed: measurable({
    words: 'motor speed',
    dimension: 'angularSpeed',
    shown: 'rpm',
    suffix: 'rpm',
    decimals: 0,
    error: { share: 0.01 },
    example: 'rpm [rpm]',
  }),
  thrust: measurable({
    words: 'thrust',
    dimension: 'force',
    shown: 'N',
    suffix: 'N',
    decimals: 2,
    error: { share: 0.03 },
    example: 'thrust [gf]',
  }),
  vehicle_speed: measurable({
    words: 'speed',
    dimension: 'speed',
    shown: 'm/s',
    suffix: 'm_per_s',
    decimals: 2,
    error: { share: 0.03 },
    example: 'GPS speed [km/h]',
  }),
  climb: measurable({
    words: 'climb rate',
    dimension: 'speed',
    shown: 'm/s',
    suffix: 'm_per_s',
    decimals: 1,
    error: { amount: 0.3 },
    example: 'vario [m/s]',
  }),
  can_temperature: temperature('can temperature', 'on-can', 'temp 1 [°C]'),
  end_temperature: temperature('end temperature', 'on-end', 'temp 2 [°C]'),
  beside_coils_temperature: temperature('temperature beside the coils', 'beside-coils', 'motor [0.01 °C]'),
  in_slot_temperature: temperature('temperature in a slot', 'in-slot', 'winding [°C]'),
  controller_temperature: temperature('controller temperature', 'on-controller', 'ESC [°F]'),
  cell_temperature: temperature('cell temperature', 'on-cells', 'pack [°C]'),
} as const;

/** One of `MEASURABLES`. */
export type MeasurableId = keyof typeof MEASURABLES;
/** Keys of `MEASURABLES`, in their order. */
export const MEASURABLE_IDS = Object.keys(MEASURABLES) as readonly MeasurableId[];

/** One of the list, without what only one of its kind has. */
export const measurableOf = (id: MeasurableId): Measurable => MEASURABLES[id];

/** Readings of the sensor of the battery current: its scale is theirs. */
export const CURRENT_SENSOR: readonly MeasurableId[] = ['battery_current', 'battery_power', 'charge_used'];

/** When the run began by the log's clock: at a time of it [s], or to be found from a column that both have. */
export type LogBeginning =
  | { readonly by: 'profile' | 'given' | 'first-row'; readonly at: number }
  | { readonly by: 'column'; readonly column: MeasurableId };

/** What a log has measured, rows thinned where there are very many. */
export interface MeasuredLog {
  readonly file: string;
  /** Rows of the file that count, and times of those that were kept [s], rising, by the log's own clock. */
  readonly rows: number;
  /** Times of the rows that were kept, rising, by the log’s own clock [s]. */
  readonly time: Float64Array;
  /** SI, one a kept row, NaN where the log is empty. */
  readonly columns: ReadonlyMap<MeasurableId, Float64Array>;
  readonly begins: LogBeginning;
  /** Whose run it was, where that was said. */
  readonly candidate?: string;
  /** The profile is this log: what it holds is not compared. */
  readonly driven?: true;
  /** What was taken for what, and what was left out and why, in words. */
  readonly taken: readonly string[];
}
