/** The schema of a profile that comes from a log. @module */

import { z } from 'zod';
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

const head = (what: string, example: string) => words(`head of the column with the ${what}, where it is another`, example);

/** A profile from a file that was logged on a run. */
export const logProfile = z
  .strictObject({
    log: words(
      'a CSV file with one row a moment and heads such as time [s] and throttle [%], its path counted from this file',
      'field-run.csv',
    ),
    hold: choice(LOG_HOLDS, 'which column is held, where the file has more than one').optional(),
    impose_speed: flag('whether the vehicle speed of the file is imposed beside what is held').optional(),
    columns: group(
      {
        time: head('time', 't [ms]'),
        throttle: head('throttle', 'thr [%]'),
        vehicle_speed: head('vehicle speed', 'GPS speed [km/h]'),
        shaft_speed: head('speed of the motor’s shaft', 'rpm [rpm]'),
        battery_power: head('power from the pack', 'P [W]'),
        battery_current: head('current from the pack', 'I [A]'),
        motor_current: head('motor current (of a sinusoidal drive √3/2 of the peak of a phase)', 'Im [A]'),
        thrust: head('thrust', 'thrust [N]'),
        climb: head('vertical speed', 'vario [m/s]'),
        grade: head('slope of the ground', 'slope [%]'),
      },
      'heads of columns that are named otherwise; a unit in brackets where the file has none',
    ).optional(),
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
    from: quantity('time', 'time in the file at which the profile begins', '30 s').optional(),
    to: quantity('time', 'time in the file at which it ends', '8 min').optional(),
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
