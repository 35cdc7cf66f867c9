/**
 * What can be measured with a model builder's means: how, how well, how much trouble, and whether the motor must be at hand.
 * Accuracies (95 %, share of the value) and efforts are common practice, no published source.
 */
import type { Effort } from '../results/doubt-result.js';

export interface Method {
  readonly how: string;
  readonly effort: Effort;
  readonly accuracy: number;
  readonly needsTheMotor: boolean;
}

const method = (effort: Effort, accuracy: number, needsTheMotor: boolean, how: string): Method => ({
  effort,
  accuracy,
  needsTheMotor,
  how,
});

/** By the subject of an unknown: a given datum's path of keys, or a rule. The first pattern that fits. */
const METHODS: readonly (readonly [RegExp, Method])[] = [
  [
    /^motor\.resistance$|line-from-phase|runner-resistance/,
    method('minutes', 0.03, true, 'pass a known current of 2 to 5 A through two motor leads, cold, and read the millivolts between them'),
  ],
  [
    /kv$/,
    method('minutes', 0.01, true, 'run the motor without load and divide its speed by the voltage, less the small drop of its current'),
  ],
  [/no_load|no-load/, method('minutes', 0.05, true, 'run the motor without load at two voltages and note voltage, current and speed')],
  [
    /loss-share|friction-share/,
    method('minutes', 0.1, true, 'run the motor without load at two voltages: the rise of the current splits its losses'),
  ],
  [
    /winding_to_stator|winding_to_housing|slot-contact/,
    method(
      'an hour',
      0.12,
      true,
      'heat the winding with a steady current, can in water, and read the winding’s warmth from its resistance, 0.39 % a kelvin',
    ),
  ],
  [
    /inrunner-stack|outrunner-stack|stator-diameter/,
    method('an hour', 0.02, true, 'open the motor and measure the stack, or ask the maker for its length and diameter'),
  ],
  [
    /water_jacket|jacket-rest/,
    method(
      'an hour',
      0.08,
      true,
      'feed the winding a known power with the pump or the tow speed at work: watts over the kelvin between can and water',
    ),
  ],
  [
    /convection|emissivity|can_to_air|stator_to_air|housing_to_ambient|flange|mount|bearing-tube|through-flow|openness|press-fit|stator_to_can/,
    method('an hour', 0.1, true, 'warm the motor where it will sit, let it cool, and take the conductance from how fast the can falls'),
  ],
  [
    /winding-capacity|winding_capacity/,
    method('an hour', 0.1, true, 'read the first seconds of warming under a steady current from the resistance'),
  ],
  [/stator-capacity|can-capacity|magnet-capacity/, method('an hour', 0.1, true, 'warm the motor with a known power for some minutes')],
  [/^battery\.capacity/, method('an hour', 0.02, false, 'discharge the pack once at a steady current and read the charge from the meter')],
  [
    /cell_resistance|cell-resistance|slow-resistance|cell-activation|activated-resistance|resistance-near-empty|polarisation/,
    method(
      'minutes',
      0.08,
      false,
      'load the pack with two currents for half a minute each and divide the change of voltage by that of current',
    ),
  ],
  [/open-circuit/, method('an hour', 0.3, false, 'rest the pack at a few charges and note its voltage')],
  [/drag/, method('an hour', 0.03, false, 'tow or push the vehicle at the speed that matters and read the force on a luggage scale')],
  [
    /power-error|thrust-error|coefficient-error|power_factor|thrust_factor/,
    method('an afternoon', 0.04, false, 'drive this propeller with any known motor, log current and speed at one throttle, and compare'),
  ],
  [/rolling|grip/, method('an hour', 0.05, false, 'pull the vehicle over its ground with a scale')],
  [/^ambient|standard-day|mild-water/, method('minutes', 0.01, false, 'read a thermometer where it will run')],
  [
    /path-resistance|path_resistance|wire|connector|wiring/,
    method('minutes', 0.08, false, 'read the millivolts across it at a known current'),
  ],
  [/controller-mass|all-up|mass$/, method('minutes', 0.01, false, 'weigh it')],
  [
    /switching-time|voltage-loss|pwm|idle|controller-to-air|controller-heat/,
    method(
      'an hour',
      0.15,
      false,
      'run the controller at half throttle on any motor and watch its temperature and the power on both sides',
    ),
  ],
];

/** How to measure a subject; undefined where there is no practical way. */
export const measurementOf = (subject: string): Method | undefined => METHODS.find(([pattern]) => pattern.test(subject))?.[1];

/** Lines that nearly every sheet has: where one is missing, a question to the seller may do, so that it stands in front of what must be measured. */
export const onUsualSheets = (subject: string): boolean => /runner-(resistance|no-load-current)$/.test(subject);

/** Trouble by rank: a measurement that needs a motor still to be bought counts one more. */
export const trouble = ({ effort, needsTheMotor }: { readonly effort: Effort; readonly needsTheMotor: boolean }): number =>
  ['minutes', 'an hour', 'an afternoon'].indexOf(effort) + (needsTheMotor ? 1 : 0);
