/** The schema of a propeller, one kind after another. @module */

import { z } from 'zod';
import { NOT_NEGATIVE, POSITIVE, SHARE_BUT_NONE } from './bounds.js';
import { choice, count, entry, flag, group, quantity, rising, words } from './fields.js';
import { ALTITUDE } from './surroundings.js';

const basics = {
  // nothing smaller or larger drives a model: the unit is wrong then
  diameter: quantity('length', 'diameter', '9 in', { from: 0.01, to: 2 }),
  blades: count('number of blades', '2', { from: 1, to: 12 }),
  wake_fraction: quantity('fraction', 'share by which the water at the screw is slower than the boat', '0.08', { from: -0.5, below: 1 }),
  thrust_deduction: quantity('fraction', 'share of the thrust lost to suction on the hull', '0.06', { from: -0.5, below: 1 }),
  shaft_efficiency: quantity('fraction', 'share of the power that passes stern tube and bearings', '92 %', SHARE_BUT_NONE),
  inertia: quantity('inertia', 'inertia about the shaft', '2e-5 kg*m2', NOT_NEGATIVE),
  folding: flag('whether the blades fold when it stops'),
  medium: choice(['air', 'water'], 'what it turns in'),
  source: words('where the numbers of this section are from', 'data sheet'),
};
const optional = z.strictObject(basics).partial();

const coefficients = optional
  .extend({
    kind: z.literal('coefficients'),
    table: rising(
      z.strictObject({
        advance_ratio: entry('ratio', 'speed over turns a second times diameter', '0.4', NOT_NEGATIVE),
        thrust: entry('ratio', 'thrust coefficient: thrust over density times n²·D⁴', '0.08'),
        power: entry('ratio', 'power coefficient: power over density times n³·D⁵', '0.045'),
      }),
      'advance_ratio',
      1,
      'measured coefficients over advance ratio, n in turns a second',
    ),
    thrust_factor: quantity('ratio', 'factor on all thrust of the table; carries its tolerance', '1 ± 5 %', POSITIVE).optional(),
    power_factor: quantity('ratio', 'factor on all power of the table; carries its tolerance', '1 ± 5 %', POSITIVE).optional(),
  })
  .meta({ description: 'a propeller known by its coefficients' });

const point = z.strictObject({
  shaft_speed: quantity('angularSpeed', 'speed of the propeller', '9000 rpm', POSITIVE),
  thrust: quantity('force', 'thrust', '12 N', POSITIVE).optional(),
  torque: quantity('torque', 'torque into the propeller', '150 mN·m', POSITIVE).optional(),
  shaft_power: quantity('power', 'power into the propeller', '140 W', POSITIVE).optional(),
  battery_current: quantity(
    'current',
    'current from the supply, motor cold, with the motor and gear of measured_with',
    '15 A',
    POSITIVE,
  ).optional(),
  voltage: quantity('voltage', 'voltage at the controller beside that current', '11.1 V', POSITIVE).optional(),
  throttle: quantity('fraction', 'throttle beside that current, a duty; full where it is not said', '100 %', SHARE_BUT_NONE).optional(),
  vehicle_speed: quantity('speed', 'speed through the air or water; at rest where it is not said', '0 m/s', NOT_NEGATIVE).optional(),
});

/** One text for both kinds: the reference and editors show the keys of all kinds together. */
const pitch = quantity(
  'length',
  'pitch: what is printed on an air propeller, beside stations a second reading of their angle; of a screw in place of pitch_ratio',
  '4.5 in',
  POSITIVE,
).optional();

const readings = {
  points: z.array(point).min(1).meta({ description: 'measurements, one row each; beside a calculated blade those at rest, which set it' }),
  measured_at: group(
    {
      air: quantity('temperature', 'temperature of the air', '20 °C'),
      altitude: quantity('length', 'height above sea level', '100 m', ALTITUDE),
    },
    'where it was measured, if not where it is driven',
  ).optional(),
  measured_with: words('name of the candidate whose motor and gear turned it; needed beside battery_current', 'First').optional(),
};

const measuredPoints = optional
  .extend({ kind: z.literal('measured-points'), ...readings })
  .meta({ description: 'a propeller known by measurements at some speeds' });

const bladeElement = optional
  .extend({
    kind: z.literal('blade-element'),
    family: choice(
      ['thin', 'broad', 'stout', 'folding'],
      'form of the blades: thin with fine tips, broad and strongly cambered (slow flight), stout (even and thick), folding',
    ).optional(),
    pitch,
    ...readings,
    points: readings.points.optional(),
    stations: rising(
      z.strictObject({
        radius: entry('ratio', 'radius over the tip radius', '0.75', { above: 0, to: 1 }),
        chord: entry('ratio', 'chord over the tip radius', '0.17', POSITIVE),
        twist: entry('angle', 'angle between chord and disc', '16°', { above: -Math.PI / 2, below: Math.PI / 2 }),
      }),
      'radius',
      3,
      'measured blade, from hub to tip',
    ).optional(),
  })
  .meta({ description: 'an air propeller calculated from its shape' });

const marineSeries = optional
  .extend({
    kind: z.literal('marine-series'),
    blades: count('number of blades', '3', { from: 2, to: 7 }).optional(),
    pitch_ratio: quantity('ratio', 'pitch over diameter', '1.15', { from: 0.5, to: 1.4 }).optional(),
    pitch,
    area_ratio: quantity('ratio', 'area of the blades over that of the disc', '0.60', { from: 0.3, to: 1.05 }).optional(),
    immersion: quantity('length', 'depth of the shaft below the surface', '40 mm', NOT_NEGATIVE).optional(),
  })
  .meta({ description: 'a screw of the Wageningen B series' });

export const PROPELLERS = [coefficients, measuredPoints, bladeElement, marineSeries] as const;
export const propeller = z.discriminatedUnion('kind', PROPELLERS).meta({ description: 'the propeller or screw' });
