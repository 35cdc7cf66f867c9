/** Rows of what was set and read, made up, and the numbers in them. */
import { givenDatum } from '@shaftwork/sim-core/provenance/datum';
import type { GivenReadingRow } from '@shaftwork/sim-core/provenance/given';
import { type Dimension, NO_SPREAD, type Spread } from '@shaftwork/sim-core/quantities';
import { type NumberRead, numbersRead } from '@shaftwork/sim-core/questions/readings/numbers-read';

const DIMENSIONS = {
  throttle: 'fraction',
  at: 'time',
  after: 'time',
  vehicleSpeed: 'speed',
  voltage: 'voltage',
  batteryCurrent: 'current',
  motorCurrent: 'current',
  shaftSpeed: 'angularSpeed',
  thrust: 'force',
  resistance: 'resistance',
  resistanceAt: 'temperature',
  can: 'temperature',
  end: 'temperature',
  controller: 'temperature',
  cells: 'temperature',
  besideCoils: 'temperature',
  inSlot: 'temperature',
  emissivity: 'fraction',
} as const satisfies Record<string, Dimension>;
export type Key = keyof typeof DIMENSIONS;
let line = 0;
/** A row of what was set and read [SI], each as doubtful as `spread` says. */
export function row(values: Partial<Record<Key, number>>, spread: (key: Key) => Spread = () => NO_SPREAD): GivenReadingRow {
  line++;
  const place = (key: string) => ({ file: 'a.yaml', line, column: 1, path: `readings.${key}` });
  return {
    place: place(''),
    ...Object.fromEntries(
      (Object.entries(values) as [Key, number][]).map(([key, value]) => [
        key,
        givenDatum(`readings.${key}`, DIMENSIONS[key], value, spread(key), { ...place(key), column: key.length }),
      ]),
    ),
  };
}
export const read = (given: GivenReadingRow): readonly NumberRead[] => numbersRead({ row: given, candidate: 'A' });
