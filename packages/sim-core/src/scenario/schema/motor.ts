/** The schema of a motor. @module */

import { z } from 'zod';
import { FROM_READING, INSULATION_CLASSES, MAGNET_GRADES } from '../../provenance/given.js';
import { fromUnit } from '../../quantities/index.js';
import { MOTOR_MASS, NOT_NEGATIVE, POSITIVE, SHARE_BUT_NONE, WINDING } from './bounds.js';
import { choice, count, group, quantity, quantityOr, section } from './fields.js';
import { motorReadings } from './readings.js';

/** A winding that is measured, cold or warm. */
const STATED = { from: fromUnit<'temperature'>(-40, '°C'), to: fromUnit<'temperature'>(200, '°C') };

/** One row of no-load data; people often have just one and write it without a list. */
export const noLoadRow = z
  .strictObject({
    current: quantity('current', 'current without load', '0.70 A ± 20 %', POSITIVE),
    voltage: quantity('voltage', 'voltage at which it was measured', '12 V', POSITIVE),
    speed: quantity('angularSpeed', 'speed without load there, where no kv is given', '7200 rpm', POSITIVE),
  })
  .partial()
  .meta({ description: 'current without load and the voltage it was measured at' });

const conductance = (between: string, example: string) => quantity('conductance', `conductance ${between}`, example, POSITIVE);
const capacity = (of: string, example: string) => quantity('heatCapacity', `heat capacity of ${of}`, example, POSITIVE);

export const motor = section(
  {
    layout: choice(['inrunner', 'outrunner'], 'whether the rotor turns inside or outside the winding'),
    kv: quantity('speedConstant', 'speed constant, from the data sheet', '610 rpm/V ± 4 %', POSITIVE),
    kv_measured: choice(['no-load', 'back-emf'], 'how it was found: from the no-load speed, or from the peak of the generated voltage'),
    resistance: quantityOr(
      FROM_READING,
      'resistance',
      'resistance between two leads at 20 °C; from-reading: the one that a bench reading asks for, a point of the propeller with voltage, battery_current and shaft_speed, measured_with this motor',
      '65 mohm ± 15 %',
      WINDING,
    ),
    resistance_at: quantity('temperature', 'winding temperature that the resistance is stated at, where it is not 20 °C', '25 °C', STATED),
    resistance_between: choice(['lines', 'phase-and-star'], 'whether resistance and inductance are between two leads or of one phase'),
    inductance: quantity('inductance', 'inductance between the same two points as the resistance', '24 uH', POSITIVE),
    no_load: z.array(noLoadRow).meta({ description: 'no-load current at one or more voltages' }),
    poles: count('magnet poles, an even number', '14', { from: 2, to: 100 }),
    mass: quantity('mass', 'mass of the motor', '236 g', MOTOR_MASS),
    can: group(
      {
        diameter: quantity('length', 'outer diameter', '39 mm', POSITIVE),
        length: quantity('length', 'length of the can without the shaft', '47 mm', POSITIVE),
      },
      'outer size',
    ),
    stack_length: quantity('length', 'length of the iron', '16 mm', POSITIVE),
    stator_diameter: quantity('length', 'outer diameter of the stator', '42 mm', POSITIVE),
    rotor_inertia: quantity('inertia', 'inertia of the rotor', '6e-6 kg*m2', NOT_NEGATIVE),
    magnet_thickness: quantity('length', 'thickness of the magnets, for the current that would weaken them', '2.5 mm', POSITIVE),
    air_gap: quantity('length', 'gap between magnets and stator', '0.5 mm', POSITIVE),
    magnet_grade: choice(MAGNET_GRADES, 'heat grade of the magnets, the letters after the number: N48SH is SH'),
    insulation_class: choice(INSULATION_CLASSES, 'thermal class of the winding insulation, IEC 60085'),
    thermal: group(
      {
        winding_to_stator: conductance('from winding to stator', '0.78 W/K ± 40 %'),
        stator_to_can: conductance('from stator to can', '2.0 W/K ± 40 %'),
        can_to_air: conductance('from can to air, the whole way', '0.3 W/K ± 40 %'),
        stator_to_air: group(
          {
            conductance: conductance('from stator to the air that passes through the motor', '0.8 W/K ± 40 %'),
            at_speed: quantity(
              'angularSpeed',
              'speed of the shaft at which it holds; without it, it holds at every speed',
              '9000 rpm',
              POSITIVE,
            ),
          },
          'air through the motor, where it was measured',
        ),
        winding_to_housing: conductance('from winding to housing, as catalogues print it', '2.9 K/W ± 20 %'),
        housing_to_ambient: conductance('from housing to ambient, the whole way, as catalogues print it', '12 K/W ± 20 %'),
        winding_capacity: capacity('the winding', '15 J/K'),
        stator_capacity: capacity('the stator', '40 J/K'),
        can_capacity: capacity('can and ends; of an outrunner the bell with its magnets', '50 J/K'),
      },
      'heat data, where known; given data win over estimates',
    ),
    label_kv: quantity('speedConstant', 'Kv on the label, where kv is measured: it shows how far labels are off', '610 rpm/V', POSITIVE),
    label_resistance: quantity(
      'resistance',
      'resistance on the sheet, between two leads, where resistance is measured',
      '65 mohm',
      WINDING,
    ),
    readings: motorReadings,
    maker_limits: group(
      {
        current: quantity('current', 'largest current', '40 A', POSITIVE),
        voltage: quantity('voltage', 'largest voltage', '17 V', POSITIVE),
        input_power: quantity('power', 'largest input power', '620 W', POSITIVE),
        shaft_speed: quantity('angularSpeed', 'largest speed of the shaft', '40000 rpm', POSITIVE),
      },
      'what the maker permits',
    ),
  },
  'the motor',
);

export const gearbox = section(
  {
    ratio: quantity('ratio', 'turns of the motor to one turn of the output', '5.2', POSITIVE),
    efficiency: quantity('fraction', 'share of the power that gets through', '95 %', SHARE_BUT_NONE),
    mass: quantity('mass', 'mass of the gearbox', '34 g', POSITIVE),
  },
  'gears between motor and load',
);
