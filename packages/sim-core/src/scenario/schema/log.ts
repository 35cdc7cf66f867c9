/** The schema of a profile that comes from a log. @module */

import { z } from 'zod';
import { THERMOMETER_PLACES } from '../../heat/thermometer.js';
import { MEASURABLE_IDS, MEASURABLES, type MeasurableId, measurableOf } from '../../provenance/measurables.js';
import { POSITIVE, SHARE_BUT_NONE } from './bounds.js';
import { choice, count, entry, flag, group, quantity, rising, words } from './fields.js';

/** What a log's column may hold; the keys of a profile's step. */
export const LOG_HOLDS = [
  'throttle',
  'vehicle_speed',
  'shaft_speed',
  'battery_power',
  'battery_current',
  'motor_current',
  'thrust',
] as const;
export type LogHold = (typeof LOG_HOLDS)[number];

/** Where the word of the list is not enough for a head. */
const COLUMN_WORDS: Partial<Record<MeasurableId, string>> = {
  voltage: 'voltage at the controller',
  cell_voltage: 'voltage of a loaded cell',
  charge_used: 'charge drawn from the pack since the start',
  motor_current: 'motor current (of a sinusoidal drive √3/2 of the peak of a phase)',
  shaft_speed: 'speed of the motor’s shaft',
  vehicle_speed: 'vehicle speed',
  climb: 'vertical speed',
};
function columnWords(id: MeasurableId): string {
  const { words, place } = measurableOf(id);
  return COLUMN_WORDS[id] ?? (place === undefined ? words : `reading of a thermometer ${THERMOMETER_PLACES[place].words}`);
}
const head = (what: string, example: string) => words(`head of the column with the ${what}, where it is another`, example);

/** Heads of the columns that a log may have; the keys are the heads that are looked for unless another is written. */
const columns = group(
  {
    time: head('time', 't [ms]'),
    ...(Object.fromEntries(MEASURABLE_IDS.map((id) => [id, head(columnWords(id), MEASURABLES[id].example)])) as {
      readonly [K in MeasurableId]: ReturnType<typeof head>;
    }),
    grade: head('slope of the ground', 'slope [%]'),
  },
  'heads of columns that are named otherwise; a unit in brackets where the file has none',
);

/** How a log file is to be read. */
const logFile = {
  columns: columns.optional(),
  pulse: rising(
    z.strictObject({
      at: entry('time', 'length of the pulse', '1100 us', POSITIVE),
      duty: entry('fraction', 'duty that the controller makes of it; below zero for a brake', '0 %', { from: -1, to: 1 }),
    }),
    'at',
    2,
    'what the pulses of a throttle column in µs stand for, straight between rows; else 1000 µs is off, with wheels 1500 µs and below it a brake, and 2000 µs full',
  ).optional(),
  pole_pairs: count('pairs of magnet poles, where the shaft speed of the file is the electrical one', '7', {
    from: 1,
    to: 100,
  }).optional(),
  part: count('which part of a file whose clock began again, counted from 1', '2', { from: 1, to: 1000 }).optional(),
  charge_put_back: quantity(
    'charge',
    'charge that the charger put back after the run; the battery current of the file is scaled by it',
    '1900 mA·h',
    POSITIVE,
  ).optional(),
};
const window = (what: string) => ({
  from: quantity('time', `time in the file at which ${what} begins`, '30 s').optional(),
  to: quantity('time', 'time in the file at which it ends', '8 min').optional(),
});

/** A profile from a file that was logged on a run. */
export const logProfile = z
  .strictObject({
    log: words(
      'a CSV file with one row a moment and heads such as time [s] and throttle [%], its path counted from this file',
      'field-run.csv',
    ),
    hold: choice(LOG_HOLDS, 'which column is held, where the file has more than one').optional(),
    impose_speed: flag('whether the vehicle speed of the file is imposed beside what is held').optional(),
    ...logFile,
    ...window('the profile'),
    longest_gap: quantity(
      'time',
      'longest time without a row or value that a straight line may bridge; else 5 s',
      '5 s',
      POSITIVE,
    ).optional(),
    accuracy: quantity(
      'fraction',
      'how far the straight pieces that stand for the rows may be from them, of the largest value; else 0.5 %',
      '0.5 %',
      SHARE_BUT_NONE,
    ).optional(),
    label: words('a name for the run', 'field run').optional(),
  })
  .meta({ description: 'a profile from a log file' });

export type LogEntry = z.output<typeof logProfile>;

/** Columns that can tell when the run began. */
const ALIGNING = [
  'throttle',
  'battery_current',
  'motor_current',
  'battery_power',
  'shaft_speed',
  'voltage',
  'thrust',
  'vehicle_speed',
] as const satisfies readonly MeasurableId[];

/** A log that the run is compared with. */
export const measured = z
  .strictObject({
    log: words(
      'a CSV file that was logged on the run, its path counted from this file; else the log that is driven',
      'field-run.csv',
    ).optional(),
    candidate: words('name of the candidate that was measured; else the leader', 'Wide').optional(),
    ...logFile,
    ...window('what is compared'),
    begins: quantity('time', 'time in the file at which the run begins; else its first row', '12 s').optional(),
    align: choice(ALIGNING, 'find when the run begins from this column').optional(),
  })
  .meta({ description: 'a log of the run, for comparison with what is predicted' });

/** What a run is compared with. */
export type MeasuredEntry = z.output<typeof measured>;
/** A log as a scenario names it. */
export type LogFile = Pick<MeasuredEntry, keyof typeof logFile | keyof ReturnType<typeof window>>;
