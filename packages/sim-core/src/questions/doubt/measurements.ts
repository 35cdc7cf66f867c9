/**
 * What can be measured with a model builder's means: how, how well, how much trouble, and whether the motor must be at hand.
 * Accuracies (95 %, share of the value) and efforts are common practice, no published source.
 *
 * @module
 */

import { RULES, type RuleId } from '../../provenance/rules/rules.js';
import type { WRITTEN } from '../../provenance/written.js';
import type { MeasurementAdvice } from '../../results/costly-result.js';
import type { Effort } from '../../results/doubt-result.js';

export type Method = Omit<MeasurementAdvice, 'key'>;

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
  [
    // what is left of the angle after it, in radians
    /^blade-.*angle/,
    method(
      'an hour',
      0.03,
      false,
      'turn the propeller at rest with a known motor, read speed, thrust and power, and write them as points beside the blade',
    ),
  ],
  [/^carried-reach/, method('an afternoon', 0.1, false, 'read speed and power under way and add the point with its vehicle_speed')],
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

/** Where the measurement of what a rule estimates is written; a rule without a key is not proposed for measuring. */
const KEYS: Partial<Record<RuleId, keyof typeof WRITTEN>> = {
  'inrunner-slot-contact': 'motor.thermal.winding_to_stator',
  'outrunner-slot-contact': 'motor.thermal.winding_to_stator',
  'press-fit': 'motor.thermal.stator_to_can',
  'can-emissivity': 'motor.thermal.can_to_air',
  'convection-error': 'motor.thermal.can_to_air',
  'winding-capacity': 'motor.thermal.winding_capacity',
  'stator-capacity': 'motor.thermal.stator_capacity',
  'can-capacity': 'motor.thermal.can_capacity',
  'inrunner-stack': 'motor.stack_length',
  'outrunner-stack': 'motor.stack_length',
  'inrunner-stator-diameter': 'motor.stator_diameter',
  'outrunner-stator-diameter': 'motor.stator_diameter',
  'constant-loss-share': 'motor.no_load.current',
  'inrunner-resistance': 'motor.resistance',
  'outrunner-resistance': 'motor.resistance',
  'inrunner-no-load-current': 'motor.no_load.current',
  'outrunner-no-load-current': 'motor.no_load.current',
  'through-flow': 'motor.thermal.stator_to_air.conductance',
  flange: 'cooling.mount.conductance',
  'bearing-tube': 'cooling.mount.conductance',
  'jacket-rest': 'cooling.water_jacket.rest_share',
  'cell-resistance-lithium': 'battery.cell_resistance',
  'cell-resistance-nickel-metal-hydride': 'battery.cell_resistance',
  'slow-resistance-lithium': 'battery.polarisation.resistance',
  'slow-resistance-nickel': 'battery.polarisation.resistance',
  'pack-mass': 'battery.mass',
  'drag-error': 'vehicle.drag_factor',
  'tyre-grip': 'wheel.grip',
  'standard-day': 'ambient.air',
  'mild-water': 'ambient.water',
  'path-resistance': 'controller.path_resistance',
  'wiring-from-gauge': 'wiring.resistance',
  'connector-contact': 'wiring.resistance',
  'wire-area': 'wiring.resistance',
  'wire-length': 'wiring.resistance',
  'controller-mass': 'controller.mass',
  'controller-to-air': 'controller.thermal.to_air',
  'controller-heat-capacity': 'controller.thermal.capacity',
  'switching-time': 'controller.switching_time',
  'idle-current': 'controller.idle_current',
};

/** Lines that nearly every sheet has: where one is missing, a question to the seller may do, so that it stands in front of what must be measured. */
export const onUsualSheets = (subject: string): boolean => /runner-(resistance|no-load-current)$/.test(subject);

/** How to measure a subject and where to write the result; undefined where there is no practical way, or no key. */
export function measurementOf(subject: string): MeasurementAdvice | undefined {
  const method = METHODS.find(([pattern]) => pattern.test(subject))?.[1];
  // a given datum stands at its own key
  const key = subject in RULES ? KEYS[subject as RuleId] : subject;
  return method === undefined || key === undefined ? undefined : { ...method, key };
}
