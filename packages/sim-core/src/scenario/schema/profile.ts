/** The schema of a profile and its steps. @module */

import { z } from 'zod';
import { NOT_NEGATIVE, POSITIVE, SHARE } from './bounds.js';
import { count, quantity, range, words } from './fields.js';

/** More steps than any run needs, repeats unrolled. */
export const MOST_STEPS = 100_000;

/** A step, or a repeat of steps; `scenario/profile.ts` says which keys go together, so that messages stay plain. */
export const profileEntry = z
  .strictObject({
    for: quantity('time', 'how long', '45 s', POSITIVE),
    label: words('a name for the step', 'sprint turn'),
    throttle: range(
      'fraction',
      'throttle to hold, the duty of the controller; 0 % is off. The pulse that a receiver sends is no duty',
      '60 to 100 %',
      SHARE,
    ),
    vehicle_speed: range('speed', 'speed to hold; beside another hold, the speed that is imposed', '4 to 14 m/s', NOT_NEGATIVE),
    shaft_speed: range(
      'angularSpeed',
      'speed of the motor’s shaft to hold; 0 is a rotor held fast at full throttle',
      '6000 rpm',
      NOT_NEGATIVE,
    ),
    battery_power: range('power', 'power from the pack to hold', '150 W', NOT_NEGATIVE),
    battery_current: range('current', 'current from the pack to hold', '15 A', NOT_NEGATIVE),
    motor_current: range(
      'current',
      'current to the motor to hold: the flat top of a block drive’s, √3/2 of the peak of a phase of a sinusoidal one’s',
      '20 A',
      NOT_NEGATIVE,
    ),
    thrust: range('force', 'thrust to hold', '12 N', NOT_NEGATIVE),
    climb: range('speed', 'vertical speed, with a held vehicle speed', '3.2 m/s'),
    grade: range(
      'fraction',
      'slope of the ground, rise over distance along it; who cannot climb it stands, for nothing rolls backwards',
      '5 %',
      { above: -1, below: 1 },
    ),
    repeat: count('how often the steps below are done', '8', { from: 1, to: MOST_STEPS }),
    get steps() {
      return z.array(profileEntry).meta({ description: 'the steps that are repeated' });
    },
  })
  .partial()
  .meta({ description: 'a step that holds one thing, or a repeat of steps' });

export type ProfileEntry = z.output<typeof profileEntry>;

export const profile = z.array(profileEntry).meta({ description: 'what is driven, step by step' });
