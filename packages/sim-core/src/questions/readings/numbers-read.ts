/** The numbers of a reading, each with what it measures, its words, and the scale on which its error is normal. @module */

import type { ThermometerPlaceId } from '../../heat/thermometer.js';
import type { Datum } from '../../provenance/datum.js';
import type { GivenReadingRow } from '../../provenance/given.js';
import type { TakenReading } from '../../provenance/taken-readings.js';
import { deviationOf, formatClock, formatQuantity } from '../../quantities/index.js';
import type { ChannelId } from '../../results/channels.js';

/** Keys that are channels of the model, and their words. */
export const CHANNEL_READ = {
  batteryCurrent: { channel: 'batteryCurrent', words: 'battery current' },
  motorCurrent: { channel: 'motorCurrent', words: 'motor current' },
  shaftSpeed: { channel: 'shaftSpeed', words: 'motor speed' },
  thrust: { channel: 'thrust', words: 'thrust' },
  voltage: { channel: 'busVoltage', words: 'voltage at the controller' },
} as const satisfies Readonly<Record<string, { readonly channel: ChannelId; readonly words: string }>>;
export type ChannelKey = keyof typeof CHANNEL_READ;

export const THERMOMETER_READ = {
  can: 'on-can',
  end: 'on-end',
  controller: 'on-controller',
  cells: 'on-cells',
  besideCoils: 'beside-coils',
  inSlot: 'in-slot',
} as const satisfies Readonly<Record<string, ThermometerPlaceId>>;
export type ThermometerKey = keyof typeof THERMOMETER_READ;
const THERMOMETER_WORDS: Readonly<Record<ThermometerKey, string>> = {
  can: 'on the can',
  end: 'on the fixed end',
  controller: 'on the controller',
  cells: 'on the cells',
  besideCoils: 'beside the coils',
  inSlot: 'in a slot',
};

export type ReadKey = ChannelKey | ThermometerKey | 'resistance';

export interface NumberRead {
  readonly taken: TakenReading;
  readonly key: ReadKey;
  readonly datum: Datum;
}

const keysOf = <K extends string>(of: Readonly<Record<K, unknown>>): readonly K[] => Object.keys(of) as K[];

export const isThermometer = (key: ReadKey): key is ThermometerKey => key in THERMOMETER_READ;

/** What a row read, in a set order; a voltage beside a throttle is a condition. */
export function numbersRead(taken: TakenReading): readonly NumberRead[] {
  const { row } = taken;
  const read: readonly ReadKey[] = [...keysOf(CHANNEL_READ), ...keysOf(THERMOMETER_READ), 'resistance'];
  return read.flatMap((key) => {
    const datum = row[key];
    return datum === undefined || (key === 'voltage' && row.throttle !== undefined) ? [] : [{ taken, key, datum }];
  });
}

/** What was set or known beside it, and may be off. */
export const conditionsOf = ({ throttle, voltage, vehicleSpeed, at, after, resistanceAt, emissivity }: GivenReadingRow): readonly Datum[] =>
  [throttle, throttle === undefined ? undefined : voltage, vehicleSpeed, at, after, resistanceAt, emissivity].filter(
    (datum) => datum !== undefined && deviationOf(datum.unknown.spread) > 0,
  ) as readonly Datum[];

/** Log-normal errors are normal on the scale of the logarithm. */
export const onItsScale = ({ unknown }: Datum, value: number): number => (unknown.spread.shape === 'log-normal' ? Math.log(value) : value);
export const offItsScale = ({ unknown }: Datum, x: number): number => (unknown.spread.shape === 'log-normal' ? Math.exp(x) : x);

const shown = (datum: Datum): string => formatQuantity(datum.value, datum.dimension, { significant: 3 });

/** “31.0 A”, “58 °C on the can”. */
export function readingWords({ key, datum }: NumberRead): string {
  if (isThermometer(key)) return `${formatQuantity(datum.value, 'temperature', { unit: '°C', decimals: 0 })} ${THERMOMETER_WORDS[key]}`;
  return key === 'resistance' ? `${shown(datum)} of winding` : key === 'voltage' ? `${shown(datum)} at the controller` : shown(datum);
}

/** “battery current at 100 % throttle”. */
export function numberWords({ key, taken: { row } }: NumberRead): string {
  const what = isThermometer(key)
    ? `temperature ${THERMOMETER_WORDS[key]}`
    : key === 'resistance'
      ? 'winding resistance'
      : CHANNEL_READ[key].words;
  return `${what}${whenWords(row)}`;
}

function whenWords({ throttle, at, after, resistanceAt, voltage }: GivenReadingRow): string {
  if (throttle !== undefined)
    return ` at ${formatQuantity(throttle.value, 'fraction', { unit: '%', significant: 3 })} throttle${voltage === undefined ? '' : ` and ${shown(voltage)}`}`;
  if (at !== undefined) return ` at ${formatClock(at.value)}`;
  if (after !== undefined) return ` ${formatClock(after.value)} after the stop`;
  return resistanceAt === undefined ? ' at 20 °C' : ` at ${formatQuantity(resistanceAt.value, 'temperature', { unit: '°C', decimals: 0 })}`;
}
