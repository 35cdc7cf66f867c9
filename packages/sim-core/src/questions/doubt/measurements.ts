/**
 * What can be measured with a model builder's means: how, how well, how much trouble, and whether the motor must be at hand.
 * Accuracies (95 %, share of the value) and efforts are common practice, no published source.
 *
 * @module
 */

import type { DoubtGroup } from '../../provenance/rules/doubt-groups.js';
import { isRule, RULES } from '../../provenance/rules/rules.js';
import { doubtGroupOf } from '../../provenance/unknowns.js';
import type { MeasurementAdvice } from '../../results/costly-result.js';
import type { Effort } from '../../results/doubt-result.js';

export type Method = Omit<MeasurementAdvice, 'key'>;

const method = (effort: Effort, accuracy: number, needsTheMotor: boolean, how: string): Method => ({
  effort,
  accuracy,
  needsTheMotor,
  how,
});

/** What serves several groups. */
const LOSS = method('minutes', 0.1, true, 'run the motor without load at two voltages: the rise of the current splits its losses');
const JACKET = method(
  'an hour',
  0.08,
  true,
  'feed the winding a known power with the pump or the tow speed at work: watts over the kelvin between can and water',
);
const WAY = method(
  'an hour',
  0.1,
  true,
  'warm the motor where it will sit, let it cool, and take the conductance from how fast the can falls',
);
const BODY = method('an hour', 0.1, true, 'warm the motor with a known power for some minutes');
const CELL = method(
  'minutes',
  0.08,
  false,
  'load the pack with two currents for half a minute each and divide the change of voltage by that of current',
);
const CONTROLLER = method(
  'an hour',
  0.15,
  false,
  'run the controller at half throttle on any motor and watch its temperature and the power on both sides',
);

/** What narrows a number of each group; undefined where a model builder has no means, or no key takes what is found. */
const METHODS: { readonly [G in DoubtGroup]: Method | undefined } = {
  resistance: method(
    'minutes',
    0.03,
    true,
    'pass a known current of 2 to 5 A through two motor leads, cold, and read the millivolts between them',
  ),
  kv: method('minutes', 0.01, true, 'run the motor without load and divide its speed by the voltage, less the small drop of its current'),
  inductance: method('minutes', 0.1, true, 'hold an inductance meter to two motor leads and take the mean over a slow turn of the shaft'),
  'no-load': method('minutes', 0.05, true, 'run the motor without load at two voltages and note voltage, current and speed'),
  'loss-share': LOSS,
  'friction-share': LOSS,
  'slot-contact': method(
    'an hour',
    0.12,
    true,
    'heat the winding with a steady current, can in water, and read the winding’s warmth from its resistance, 0.39 % a kelvin',
  ),
  'stator-size': method('an hour', 0.02, true, 'open the motor and measure the stack, or ask the maker for its length and diameter'),
  'water-jacket': JACKET,
  'jacket-at-rest': JACKET,
  'way-within': WAY,
  'way-to-air': WAY,
  'winding-capacity': method('an hour', 0.1, true, 'read the first seconds of warming under a steady current from the resistance'),
  'body-capacity': BODY,
  'magnet-capacity': BODY,
  'other-capacity': undefined,
  'pack-capacity': method('an hour', 0.02, false, 'discharge the pack once at a steady current and read the charge from the meter'),
  'cell-resistance': CELL,
  'cell-shape': CELL,
  'open-circuit': undefined,
  'blade-angle': undefined,
  reach: undefined,
  drag: method('an hour', 0.03, false, 'tow or push the vehicle at the speed that matters and read the force on a luggage scale'),
  propeller: method(
    'an afternoon',
    0.04,
    false,
    'drive this propeller with any known motor, log current and speed at one throttle, and compare',
  ),
  ground: method('an hour', 0.05, false, 'pull the vehicle over its ground with a scale'),
  weather: method('minutes', 0.01, false, 'read a thermometer where it will run'),
  wiring: method('minutes', 0.08, false, 'read the millivolts across it at a known current'),
  mass: method('minutes', 0.01, false, 'weigh it'),
  controller: CONTROLLER,
  'controller-capacity': CONTROLLER,
  ripple: method(
    'minutes',
    0.2,
    true,
    'run the motor without load at half throttle: battery power, less the controller’s idle draw and the no-load loss at that speed, is the ripple’s',
  ),
  other: undefined,
};

/**
 * Lines that nearly every sheet has: where one is missing, a question to the seller may do, so that it stands in front of what must be measured.
 * Of a rule alone: what is written was had from a sheet.
 */
export const onUsualSheets = (subject: string): boolean =>
  isRule(subject) && RULES[subject].key !== null && SHEETS.has(RULES[subject].group);
const SHEETS: ReadonlySet<DoubtGroup> = new Set(['resistance', 'no-load']);

/** How to measure a subject and where to write the result; undefined where there is no practical way, or no key. */
export function measurementOf(subject: string): MeasurementAdvice | undefined {
  const method = METHODS[doubtGroupOf(subject)];
  // a given datum stands at its own key
  const key = isRule(subject) ? RULES[subject].key : subject;
  return method === undefined || key === null ? undefined : { ...method, key };
}
