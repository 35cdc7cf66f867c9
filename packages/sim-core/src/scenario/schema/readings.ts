/** What was read off instruments while a drive ran, or after it: rows that narrow the numbers of the scenario. @module */

import { z } from 'zod';
import { fromUnit } from '../../quantities/index.js';
import { NOT_NEGATIVE, POSITIVE, SHARE_BUT_NONE, WINDING } from './bounds.js';
import { quantity, words } from './fields.js';

/** What an instrument on a motor may show: at 320 °C usual enamel is cut through (drive/damage), so that no run has more. */
const SHOWN = { from: fromUnit<'temperature'>(-40, '°C'), to: fromUnit<'temperature'>(320, '°C') };
const temperature = (where: string, example: string) => quantity('temperature', `what a thermometer showed ${where}`, example, SHOWN);

const cold = {
  resistance: quantity('resistance', 'winding resistance between two leads, cold or after the stop', '68 mohm ± 3 %', WINDING),
  resistance_at: quantity(
    'temperature',
    'temperature of the winding beside that resistance; 20 °C where nothing is said',
    '22 °C ± 1 K',
    SHOWN,
  ),
  source: words('what it was read with', 'watt meter'),
};

export const readingRow = z
  .strictObject({
    throttle: quantity(
      'fraction',
      'throttle that was held when it was read, parts as cold as at the start of the run',
      '100 %',
      SHARE_BUT_NONE,
    ),
    at: quantity('time', 'in place of throttle: time into the run at which it was read', '90 s', POSITIVE),
    after: quantity('time', 'in place of throttle: time after the stop of the run at which it was read', '60 s', NOT_NEGATIVE),
    vehicle_speed: quantity(
      'speed',
      'speed beside that throttle; at rest where it is not said, a car at the speed it settles at',
      '0 m/s',
      NOT_NEGATIVE,
    ),
    voltage: quantity(
      'voltage',
      'voltage at the controller: beside a throttle what fed it, in the run what came of it',
      '11.2 V ± 1 %',
      POSITIVE,
    ),
    battery_current: quantity('current', 'current from pack or supply', '31 A ± 3 %', POSITIVE),
    motor_current: quantity('current', 'current of the motor, as a controller logs it', '33 A ± 5 %', POSITIVE),
    shaft_speed: quantity('angularSpeed', 'speed of the motor’s shaft', '9300 rpm ± 0.5 %', POSITIVE),
    thrust: quantity('force', 'thrust', '12 N ± 3 %', POSITIVE),
    ...cold,
    can: temperature('on the can', '58 °C ± 2 K'),
    end: temperature('on the fixed end', '52 °C ± 2 K'),
    controller: temperature('on the controller', '61 °C ± 2 K'),
    cells: temperature('on the cells', '41 °C ± 2 K'),
    beside_coils: temperature('beside the coils', '47 °C ± 2 K'),
    in_slot: temperature('between the wires of a slot', '88 °C ± 2 K'),
    emissivity: quantity('fraction', 'of the surface, where an infrared thermometer set to 95 % was aimed at it', '90 %', SHARE_BUT_NONE),
    measured_with: words('name of the candidate whose drive it was read on, where several could be meant', 'First'),
  })
  .partial()
  .meta({ description: 'what was read at one moment' });

/** What can be read of a motor alone, whatever drives it: it stands with the motor, also in its part file. */
export const motorReadings = z
  .array(z.strictObject(cold).partial().meta({ description: 'a winding resistance read cold' }))
  .min(1)
  .meta({ description: 'what was read of the motor alone; what was read of its drive stands below a candidate' });

export const readings = z.array(readingRow).min(1).meta({
  description:
    'what was read off a watt meter, a tachometer, a thermometer, an ohmmeter: the numbers that it speaks of are narrowed by it, those of every candidate that shares them',
});
