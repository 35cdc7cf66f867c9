/** The schema of battery, wiring and controller. @module */

import { z } from 'zod';
import { DRIVES } from '../../parts/controller.js';
import { CHEMISTRIES } from '../../provenance/given.js';
import { fromUnit } from '../../quantities/index.js';
import { CONDUCTOR, NOT_NEGATIVE, POSITIVE, SHARE } from './bounds.js';
import { choice, count, entry, group, quantity, rising, section } from './fields.js';

const DERATING = { from: fromUnit<'temperature'>(0, '°C'), to: fromUnit<'temperature'>(250, '°C') };

const thermal = group(
  {
    to_air: quantity('conductance', 'conductance to the air around', '0.4 W/K ± 30 %', POSITIVE),
    capacity: quantity('heatCapacity', 'heat capacity', '590 J/K', POSITIVE),
  },
  'heat data, where known; given data win over estimates',
);

export const battery = section(
  {
    chemistry: choice(CHEMISTRIES, 'kind of the cells'),
    cells: z
      .strictObject({
        series: count('cells in series', '4', { from: 1, to: 200 }),
        parallel: count('strings in parallel', '1', { from: 1, to: 200 }).optional(),
      })
      .meta({ description: 'how many cells, and how they are connected' }),
    capacity: quantity('charge', 'capacity of the pack, from its label', '6.2 Ah ± 8 %', POSITIVE),
    cell_resistance: quantity('resistance', 'ohmic resistance of one cell, as many chargers show it', '2.6 mohm ± 30 %', {
      above: 0,
      to: CONDUCTOR.to,
    }),
    polarisation: group(
      {
        resistance: quantity('resistance', 'slow part of the resistance of one cell', '2.0 mohm', CONDUCTOR),
        time: quantity('time', 'time in which the slow part settles', '30 s', POSITIVE),
      },
      'the slow part of the voltage drop, a resistor and a capacitor side by side',
    ),
    open_circuit: rising(
      z.strictObject({
        charge: entry('fraction', 'charge of the cell', '50 %', SHARE),
        voltage: entry('voltage', 'voltage at rest of one cell', '3.8 V', POSITIVE),
      }),
      'charge',
      2,
      'open-circuit voltage of one cell over its charge, where measured',
    ),
    cell_cutoff: quantity('voltage', 'voltage of one cell at which the controller stops', '3.3 V', POSITIVE),
    discharge_rating: quantity('dischargeRate', 'continuous current as a multiple of the capacity, from the label', '45 C', POSITIVE),
    mass: quantity('mass', 'mass of the pack', '590 g', POSITIVE),
    thermal,
    supply: quantity('voltage', 'voltage of a bench supply, in place of a pack', '11.1 V', POSITIVE),
    current_limit: quantity(
      'current',
      'current at which the supply lets its voltage fall: a limit that must not be passed',
      '20 A',
      POSITIVE,
    ),
  },
  'the pack',
);

export const wiring = section(
  {
    gauge: quantity('wireGauge', 'gauge or cross-section of the wire', '12 AWG', POSITIVE),
    length: quantity('length', 'length of the pair of wires, there and back counted once', '30 cm', NOT_NEGATIVE),
    connectors: count('pairs of plugs', '2', { from: 0, to: 20 }),
    resistance: quantity('resistance', 'resistance of wires and plugs together, instead of the estimate', '3 mohm', CONDUCTOR),
  },
  'wires and plugs between pack and controller',
);

export const controller = section(
  {
    path_resistance: quantity('resistance', 'resistance of the switched path, two transistors in series', '3.0 mohm', CONDUCTOR),
    motor_current_limit: quantity('current', 'current to the motor at which the controller holds back', '60 A', POSITIVE),
    battery_current_limit: quantity('current', 'current from the pack at which the controller holds back', '60 A', POSITIVE),
    pwm_frequency: quantity('frequency', 'switching frequency', '16 kHz', POSITIVE),
    switching_time: quantity('time', 'rise and fall time of the switches together', '120 ns', NOT_NEGATIVE),
    voltage_loss: quantity(
      'power',
      'loss that chopping adds at half throttle and the nominal voltage of the pack, where measured',
      '0.5 W',
      NOT_NEGATIVE,
    ),
    dead_time: quantity('time', 'both dead times of a switching cycle together', '1 us', NOT_NEGATIVE),
    derating: group(
      {
        from: quantity('temperature', 'temperature at which the motor current limit begins to fall', '90 °C', DERATING),
        to: quantity('temperature', 'temperature at which nothing is left of it', '120 °C', DERATING),
      },
      'how the controller takes its motor current limit back when it is hot',
    ),
    idle_current: quantity('current', 'current the controller takes for itself', '70 mA', NOT_NEGATIVE),
    freewheeling: choice(['synchronous', 'diode'], 'what carries the current while the switch is off'),
    braking: choice(['none', 'regenerative'], 'whether the motor brakes into the pack'),
    drive: choice(
      DRIVES,
      'whether two phases conduct in turn, or all three with sinusoidal current. Motor current is then √3/2 (0.87) of the peak of a phase that such a controller shows',
    ),
    mass: quantity('mass', 'mass of the controller', '65 g', POSITIVE),
    thermal,
  },
  'the speed controller',
);
