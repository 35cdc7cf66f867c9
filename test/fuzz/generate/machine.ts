/** Generated motors, gears and what cools them. */
import type { Dice, Section } from './dice.js';
import { cold } from './instruments.js';

export function motor(d: Dice): Section {
  const { size, given, volts } = d;
  const mass = Math.exp(Math.log(60 * size) + d.r() * Math.log(6));
  const kv = (9000 + 20000 * d.r()) / volts / Math.max(0.3, size ** 0.3);
  // some 25 mN·m/√W at 200 g, rising a little less than the mass
  const constant = 0.03 * (mass / 200) ** 0.9 * (0.5 + d.r());
  const resistance = Math.min(100, (60 / (2 * Math.PI * kv) / constant) ** 2);
  const m: Section = { layout: d.pick(['inrunner', 'outrunner']) };
  const bySpeed = d.chance(0.08);
  if (!bySpeed) m['kv'] = d.q(kv * 0.7, kv * 1.4, 'rpm/V');
  d.opt(m, 'label_kv', () => d.q(kv * 0.8, kv * 1.3, 'rpm/V'), given * 0.2);
  d.opt(m, 'kv_measured', () => d.pick(['no-load', 'back-emf']));
  m['resistance'] = d.q(resistance * 700, resistance * 1500, 'mohm', { max: 100000, above: 0 });
  d.opt(m, 'resistance_between', () => d.pick(['lines', 'phase-and-star']), given * 0.3);
  d.opt(m, 'resistance_at', () => d.q(-10, 120, '°C', { min: -40, max: 200 }), given * 0.3);
  d.opt(m, 'label_resistance', () => d.q(resistance * 700, resistance * 1500, 'mohm', { max: 100000, above: 0 }), given * 0.2);
  // some 0.2 ms
  d.opt(m, 'inductance', () => d.q(resistance * 30, resistance * 500, 'uH', { above: 0 }), given * 0.6);
  // a sheet's resistance takes a few per cent of its no-load voltage; where it takes more, the scenario is refused
  const current = Math.min((0.03 * volts * (0.3 + d.r())) / Math.max(1e-4, resistance) ** 0.5, (0.03 * volts) / resistance);
  const [i, v] = [d.q(current * 0.5, current * 1.5, 'A'), d.q(volts * 0.5, volts, 'V')];
  const second = {
    current: `${(Number.parseFloat(i) * (1.02 + 0.3 * d.r())).toPrecision(5)} A`,
    voltage: `${(Number.parseFloat(v) * (1.3 + d.r())).toPrecision(5)} V`,
  };
  const first: Section = { current: i, voltage: v };
  if (bySpeed) first['speed'] = `${(Number.parseFloat(v) * kv * (0.8 + 0.2 * d.r())).toPrecision(5)} rpm`;
  m['no_load'] = d.chance(0.6) ? first : [first, ...(d.chance(0.4) ? [second] : [])];
  d.opt(m, 'poles', () => String(2 * d.whole(1, d.chance(d.wild) ? 50 : 14)));
  m['mass'] = d.q(mass * 0.9, mass * 1.1, 'g');
  const wide = 38 * (mass / 200) ** (1 / 3);
  m['can'] = { diameter: d.q(wide * 0.7, wide * 1.5, 'mm'), length: d.q(wide * 0.6, wide * 2, 'mm') };
  d.opt(m, 'stack_length', () => d.q(wide * 0.2, wide, 'mm'), given * 0.6);
  d.opt(m, 'stator_diameter', () => d.q(wide * 0.5, wide, 'mm'), given * 0.4);
  d.opt(m, 'rotor_inertia', () => d.q(mass * 1e-9, mass * 1e-7, 'kg*m2', { min: 0 }), given * 0.5);
  d.opt(m, 'magnet_thickness', () => d.q(1, 4, 'mm'), given * 0.6);
  d.opt(m, 'air_gap', () => d.q(0.2, 1.5, 'mm'), given * 0.4);
  d.opt(m, 'magnet_grade', () => d.pick(['N', 'M', 'H', 'SH', 'UH', 'EH', 'AH']));
  d.opt(m, 'insulation_class', () => d.pick(['A', 'E', 'B', 'F', 'H', 'N']));
  if (d.chance(given * 0.6)) {
    const t: Section = {};
    const g = mass / 200;
    if (d.chance(0.25)) {
      d.opt(t, 'winding_to_housing', () => d.q(0.5 / g, 4 / g, 'K/W'), 0.8);
      d.opt(t, 'housing_to_ambient', () => d.q(2 / g, 15 / g, 'K/W'), 0.8);
    } else {
      d.opt(t, 'winding_to_stator', () => d.q(0.4 * g, 2 * g, 'W/K'), 0.6);
      d.opt(t, 'stator_to_can', () => d.q(g, 5 * g, 'W/K'));
      d.opt(t, 'can_to_air', () => d.q(0.1 * g, g, 'W/K'), given * 0.3);
      const through = (): Section => ({
        conductance: d.q(0.1 * g, 2 * g, 'W/K'),
        at_speed: d.chance(0.7) ? d.q(2000, 30000, 'rpm') : undefined,
      });
      d.opt(t, 'stator_to_air', through, given * 0.3);
    }
    d.opt(t, 'winding_capacity', () => d.q(mass * 0.04, mass * 0.12, 'J/K'));
    d.opt(t, 'stator_capacity', () => d.q(mass * 0.08, mass * 0.2, 'J/K'));
    d.opt(t, 'can_capacity', () => d.q(mass * 0.1, mass * 0.25, 'J/K'));
    m['thermal'] = t;
  }
  if (d.chance(given)) {
    const l: Section = {};
    d.opt(l, 'current', () => d.q(10 * size, 80 * size, 'A'), 0.7);
    d.opt(l, 'voltage', () => d.q(volts * 0.8, volts * 1.5, 'V'));
    d.opt(l, 'input_power', () => d.q(100 * size, 1500 * size, 'W'));
    d.opt(l, 'shaft_speed', () => d.q(10000, 60000, 'rpm'));
    m['maker_limits'] = l;
  }
  if (d.chance(0.004)) m['readings'] = [cold(d, resistance)];
  return m;
}

export function gearbox(d: Dice): Section {
  const g: Section = { ratio: d.q(1, 9, '') };
  d.opt(g, 'efficiency', () => d.q(60, 99, '%', { above: 0, max: 100 }));
  d.opt(g, 'mass', () => d.q(5 * d.size, 80 * d.size, 'g'));
  return g;
}

export function cooling(d: Dice, layout: string): Section {
  const { size, given } = d;
  const c: Section = {};
  const covers = (): string => (layout === 'outrunner' ? 'mount' : d.pick(['can', 'mount']));
  if (d.wet && d.chance(given * 0.5))
    c['water_jacket'] = {
      conductance: d.q(0.5 * size, 3 * size, 'W/K'),
      at_speed: d.q(1, 8, 'm/s', { above: 0 }),
      rest_share: d.chance(0.5) ? d.q(1, 40, '%', { min: 0, max: 100 }) : undefined,
      thickness: d.chance(0.3) ? d.q(0.5, 6, 'mm') : undefined,
      covers: covers(),
    };
  else if (d.wet && d.chance(given * 0.4))
    c['water_coil'] = {
      bore: d.q(1, 6, 'mm'),
      length: d.q(10, 150, 'cm'),
      share_of_boat_speed: d.chance(0.5) ? d.q(5, 60, '%', { above: 0, max: 100 }) : undefined,
      pump: d.chance(0.4) ? d.q(0.1, 3, 'L/min') : undefined,
      contact: d.chance(0.5) ? d.q(0.5, 5, 'W/K') : undefined,
      covers: covers(),
    };
  else if (d.wet && d.chance(given * 0.3))
    c['strap'] = {
      material: d.chance(0.7) ? d.pick(['copper', 'aluminium', 'heat-pipe']) : undefined,
      cross_section: d.q(10, 100, 'mm2'),
      length: d.q(20, 200, 'mm'),
      contact: d.chance(0.5) ? d.q(0.1, 3, 'W/K') : undefined,
      covers: covers(),
    };
  if (d.chance(given * 0.4)) {
    const fins = d.whole(2, d.chance(d.wild) ? 200 : 16);
    const thickness = d.value(0.3, 2, { min: 1e-6 });
    const s: Section = {
      fins: String(fins),
      fin_height: d.q(3, 25, 'mm'),
      fin_thickness: `${Number(thickness.toPrecision(4))} mm`,
      length: d.q(15, 80, 'mm'),
      breadth: `${Number((fins * thickness * (1.05 + 4 * d.r())).toPrecision(5))} mm`,
      covers: d.pick(layout === 'outrunner' ? ['mount', 'controller'] : ['can', 'mount', 'controller']),
    };
    d.opt(s, 'material', () => d.pick(['aluminium', 'copper', 'steel']));
    if (d.chance(0.5)) d.opt(s, 'contact', () => d.q(1, 10, 'W/K'));
    else d.opt(s, 'joint', () => d.pick(['paste', 'tape', 'pad', 'dry']));
    d.opt(s, 'coverage', () => d.q(20, 90, '%', { min: 0, max: 100 }));
    c['heat_sink'] = s;
  }
  const mount = (): Section =>
    d.chance(0.7) ? { conductance: d.q(0.1 * size, size, 'W/K') } : { plate: d.q(20 * size, 300 * size, 'cm2') };
  d.opt(c, 'mount', mount, given * 0.5);
  if (d.chance(given * 0.3))
    c['fan'] = {
      diameter: d.q(20, 80, 'mm'),
      flow: d.q(30, 600, 'L/min'),
      power: d.q(0.2, 6, 'W'),
      mass: d.chance(0.5) ? d.q(5, 60, 'g') : undefined,
    };
  if (d.chance(given * 0.3)) {
    const bay: Section = {};
    d.opt(bay, 'speed', () => d.q(0.1, 6, 'm/s', { min: 0 }), 0.6);
    d.opt(bay, 'share_of_vehicle_speed', () => d.q(5, 80, '%', { min: 0, max: 200 }), 0.6);
    c['compartment'] = bay;
  }
  if (d.chance(given)) {
    const a: Section = {};
    if (d.moving && d.chance(given * 0.3)) a['cowl'] = { inlet: d.q(1, 30, 'cm2'), gap: d.q(1, 10, 'mm') };
    d.opt(a, 'from', () => d.pick(['outside', 'compartment']));
    d.opt(a, 'speed', () => d.q(0.5, 12, 'm/s', { min: 0 }), given * 0.6);
    d.opt(a, 'share_of_vehicle_speed', () => d.q(5, 80, '%', { min: 0, max: 200 }));
    d.opt(a, 'share_of_slipstream', () => d.q(5, 80, '%', { min: 0, max: 200 }));
    d.opt(a, 'openness', () => d.q(10, 100, '%', { min: 0, max: 100 }));
    c['air'] = a;
  }
  return c;
}
