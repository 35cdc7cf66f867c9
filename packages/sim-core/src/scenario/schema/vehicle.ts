/** The schema of wheel, vehicle, cooling and limits. @module */

import { z } from 'zod';
import { JOINTS, STRAPS } from '../../provenance/given.js';
import { fromUnit } from '../../quantities/index.js';
import { NOT_NEGATIVE, POSITIVE, SHARE, SHARE_BUT_NONE } from './bounds.js';
import { choice, count, entry, group, quantity, rising, section } from './fields.js';

/** What a temperature may be that a part can have. */
const LIMIT = { from: fromUnit<'temperature'>(0, '°C'), to: fromUnit<'temperature'>(400, '°C') };

export const wheel = section(
  {
    radius: quantity('length', 'rolling radius', '43 mm', POSITIVE),
    rolling_resistance: quantity('ratio', 'rolling resistance over weight', '0.085', NOT_NEGATIVE),
    drag_area: quantity('area', 'drag coefficient times frontal area', '0.042 m2', NOT_NEGATIVE),
    grip: quantity('ratio', 'friction between tyre and ground', '0.9', POSITIVE),
    driven_share: quantity(
      'fraction',
      'share of the weight that the driven wheels carry; all of it where all are driven',
      '55 %',
      SHARE_BUT_NONE,
    ),
    inertia: quantity('inertia', 'inertia of all wheels together', '2.4e-4 kg*m2', NOT_NEGATIVE),
  },
  'the driven wheels',
);

export const vehicle = section(
  {
    mass: quantity('mass', 'mass without motor, gearbox and pack', '10.2 kg', POSITIVE),
    added_mass: quantity('fraction', 'share of the mass that moving water adds', '8 %', { from: 0, to: 2 }),
    drag: rising(
      z.strictObject({
        speed: entry('speed', 'speed', '3 m/s', NOT_NEGATIVE),
        force: entry('force', 'drag at this speed', '20 N', NOT_NEGATIVE),
      }),
      'speed',
      1,
      'drag at some speeds, measured by towing or coasting',
    ),
    drag_factor: quantity('ratio', 'factor on all drag; carries its tolerance', '1 ± 10 %', POSITIVE),
    drag_area: quantity('area', 'drag coefficient times frontal area', '0.02 m2', NOT_NEGATIVE),
    wing: group(
      {
        area: quantity('area', 'area of the wing', '0.60 m2', POSITIVE),
        aspect_ratio: quantity('ratio', 'span squared over area', '17', POSITIVE),
        span_efficiency: quantity('ratio', 'how close the lift is to elliptic', '0.85', { above: 0, to: 1.2 }),
        zero_lift_drag: quantity('ratio', 'drag coefficient of the whole aircraft without lift', '0.019', POSITIVE),
        most_lift: quantity('ratio', 'largest lift coefficient', '1.2', POSITIVE),
      },
      'a wing that carries it',
    ),
  },
  'hull, airframe or car',
);

export const cooling = section(
  {
    water_jacket: section(
      {
        conductance: quantity('conductance', 'conductance from what it covers to the water', '1.8 W/K ± 25 %', POSITIVE),
        at_speed: quantity('speed', 'speed of the boat at which it has this conductance', '3 m/s', POSITIVE),
        rest_share: quantity('fraction', 'share of it that remains at rest', '12 %', SHARE),
        thickness: quantity('length', 'what it adds all round the can', '3 mm', POSITIVE),
        covers: choice(['can', 'mount'], 'what the water cools'),
      },
      'a water jacket fed by a scoop',
    ),
    water_coil: section(
      {
        bore: quantity('length', 'inner diameter of the tube', '3 mm', POSITIVE),
        length: quantity('length', 'length of the tube against the motor', '60 cm', POSITIVE),
        share_of_boat_speed: quantity(
          'fraction',
          'speed of the water in the tube as a share of the boat speed; none beside a pump unless it is said',
          '25 %',
          SHARE_BUT_NONE,
        ),
        pump: quantity('volumeFlow', 'flow of a pump that feeds it', '0.8 L/min', POSITIVE),
        contact: quantity('conductance', 'conductance of the joint between tube and motor', '2 W/K', POSITIVE),
        covers: choice(['can', 'mount'], 'what the water cools'),
      },
      'a tube round the motor fed by a scoop or a pump, calculated from its flow',
    ),
    heat_sink: section(
      {
        fins: count('fins', '9', { from: 2, to: 200 }),
        fin_height: quantity('length', 'height of a fin above the base', '8 mm', POSITIVE),
        fin_thickness: quantity('length', 'thickness of a fin', '1 mm', POSITIVE),
        length: quantity('length', 'length of the base along the fins', '40 mm', POSITIVE),
        breadth: quantity('length', 'breadth of the base across the fins, round a can its circumference', '60 mm', POSITIVE),
        material: choice(['aluminium', 'copper', 'steel'], 'metal of the sink'),
        contact: quantity('conductance', 'conductance of the joint under the sink', '5 W/K', POSITIVE),
        joint: choice(JOINTS, 'what is between the sink and what it cools'),
        coverage: quantity('fraction', 'part of the side of the can under the sink', '60 %', SHARE),
        covers: choice(['can', 'mount', 'controller'], 'what the sink cools'),
      },
      'a finned heat sink',
    ),
    strap: section(
      {
        material: choice(STRAPS, 'what it is made of'),
        cross_section: quantity('area', 'cross-section of the metal, or of all heat pipes', '30 mm2', POSITIVE),
        length: quantity('length', 'length between motor and hull', '80 mm', POSITIVE),
        contact: quantity('conductance', 'conductance of both its joints together', '0.6 W/K', POSITIVE),
        covers: choice(['can', 'mount'], 'what it is clamped to'),
      },
      'a strap or heat pipe from the motor to the hull of a boat',
    ),
    fan: section(
      {
        diameter: quantity('length', 'diameter of the disc it sweeps', '40 mm', POSITIVE),
        flow: quantity('volumeFlow', 'flow in free air, from its sheet', '180 L/min', POSITIVE),
        power: quantity('power', 'power it takes from the pack', '1 W', POSITIVE),
        mass: quantity('mass', 'mass of the fan', '16 g', POSITIVE),
      },
      'a fan that blows at the motor',
    ),
    compartment: group(
      {
        speed: quantity('speed', 'speed of the air past controller and pack', '1 m/s', NOT_NEGATIVE),
        share_of_vehicle_speed: quantity('fraction', 'speed of that air as a share of the vehicle speed', '10 %', { from: 0, to: 2 }),
      },
      'air that passes controller and pack; it counts where their own conductance is not given',
    ),
    mount: group(
      {
        conductance: quantity(
          'conductance',
          'conductance from the motor by its mount to the air, the whole way',
          '0.30 W/K ± 30 %',
          NOT_NEGATIVE,
        ),
        plate: quantity('area', 'one face of the metal plate that the motor stands on; both give off heat', '120 cm2', POSITIVE),
      },
      'heat that leaves by the mount',
    ),
    air: group(
      {
        from: choice(['outside', 'compartment'], 'whose air the motor stands in; outside where it is not said'),
        speed: quantity('speed', 'speed of the air round the motor', '5 m/s', NOT_NEGATIVE),
        share_of_vehicle_speed: quantity('fraction', 'air speed round the motor as a share of the vehicle speed', '30 %', {
          from: 0,
          to: 2,
        }),
        share_of_slipstream: quantity(
          'fraction',
          'air speed round the motor as a share of the whole speed of the slipstream, flight speed included',
          '50 %',
          { from: 0, to: 2 },
        ),
        openness: quantity('fraction', 'how freely air gets to the motor', '70 %', SHARE),
        cowl: section(
          {
            inlet: quantity('area', 'area through which the stream enters', '5 cm2', POSITIVE),
            gap: quantity('length', 'gap between can and cowl', '4 mm', POSITIVE),
          },
          'a cowl that leads the stream round the motor, in place of the shares',
        ),
      },
      'air that cools the motor',
    ),
  },
  'what takes the heat away',
);

const temperature = (of: string, example: string) => quantity('temperature', `largest temperature of ${of}`, example, LIMIT);

export const limits = section(
  {
    winding: temperature('the winding', '130 °C'),
    magnets: temperature('the magnets', '100 °C'),
    controller: temperature('the controller', '95 °C'),
    cells: temperature('the cells', '60 °C'),
    reserve: quantity('fraction', 'charge that must be left at the end', '20 %', SHARE),
    battery_power: quantity('power', 'largest power from the pack', '500 W', POSITIVE),
    energy: quantity('energy', 'largest energy from the pack', '50 Wh', POSITIVE),
    run_time: quantity('time', 'time it must run at least', '10 min', POSITIVE),
  },
  'what must not be passed',
);
