/** The schema of what is around the drive: air, start, solver. @module */

import { fromUnit } from '../../quantities/index.js';
import { POSITIVE, SHARE } from './bounds.js';
import { choice, quantity, section } from './fields.js';

/** Weather in which models are driven. */
const AIR = { from: fromUnit<'temperature'>(-60, '°C'), to: fromUnit<'temperature'>(80, '°C') };
/** Range of the laws for water. */
const WATER = { from: fromUnit<'temperature'>(0, '°C'), to: fromUnit<'temperature'>(60, '°C') };
const BODY = { from: fromUnit<'temperature'>(-60, '°C'), to: fromUnit<'temperature'>(150, '°C') };
/** Troposphere, with the lowest land. */
export const ALTITUDE = { from: -500, to: 11_000 };

export const ambient = section(
  {
    air: quantity('temperature', 'temperature of the air outside', '24 °C', AIR),
    altitude: quantity('length', 'height above sea level; sets the density of the air', '310 m', ALTITUDE),
    pressure: quantity('pressure', 'air pressure on the spot (not reduced to sea level), instead of the altitude', '977 hPa', {
      from: 10_000,
      to: 120_000,
    }),
    water: quantity('temperature', 'temperature of the water', '14 °C', WATER),
    water_kind: choice(['fresh', 'sea'], 'fresh or sea water'),
    compartment: quantity(
      'temperature',
      'temperature of the air round controller and pack, where it differs from outside; round the motor too with cooling: { air: { from: compartment } }',
      '36 °C',
      AIR,
    ),
  },
  'the surroundings',
);

export const start = section(
  {
    charge: quantity('fraction', 'charge of the pack at the start', '100 %', SHARE),
    temperature: quantity('temperature', 'temperature of all parts at the start', '24 °C', BODY),
    battery_temperature: quantity('temperature', 'temperature of the cells at the start, where it differs', '30 °C', BODY),
  },
  'the state at the start of the run',
);

export const space = section(
  {
    diameter: quantity('length', 'largest diameter a motor may have', '42 mm', POSITIVE),
    length: quantity('length', 'largest length a motor may have', '80 mm', POSITIVE),
    mass: quantity('mass', 'largest mass a motor may have', '320 g', POSITIVE),
  },
  'the room there is for a motor',
);
