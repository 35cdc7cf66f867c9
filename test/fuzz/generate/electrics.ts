/** Generated surroundings, pack, start, wiring and controller. */
import type { Dice, Node, Section } from './dice.js';

export function ambient(d: Dice): Section {
  const a: Section = {};
  d.opt(a, 'air', () => `${Number(d.air.toPrecision(4))} °C`, 0.8);
  if (d.chance(d.given * 0.6)) a['altitude'] = d.q(0.1, 3000, 'm', { max: 11000, tolerant: false });
  else if (d.chance(d.given * 0.4)) a['pressure'] = d.q(50000, 105000, 'Pa', { min: 10000, max: 120000, tolerant: false });
  if (d.wet) a['water'] = d.q(1, 35, '°C', { min: 0, max: 60 });
  else d.opt(a, 'water', () => d.q(1, 35, '°C', { min: 0, max: 60 }), d.given * 0.3);
  d.opt(a, 'water_kind', () => d.pick(['fresh', 'sea']));
  d.opt(a, 'compartment', () => d.q(-20, 50, '°C', { min: -60, max: 80 }), d.given * 0.5);
  return a;
}

const CELLS = {
  'lithium-polymer': [3.0, 4.2],
  'lithium-ion': [2.5, 4.2],
  'lithium-iron-phosphate': [2.3, 3.6],
  'nickel-metal-hydride': [0.8, 1.5],
} as const;

/** A bench supply in place of a pack. */
function supply(d: Dice): Section {
  d.volts = 4 + 40 * d.r();
  const b: Section = { supply: d.q(d.volts * 0.9, d.volts * 1.1, 'V') };
  d.opt(b, 'current_limit', () => d.q(5 * d.size, 60 * d.size, 'A'), 0.5);
  return b;
}

export function battery(d: Dice): Section {
  if (d.chance(0.006)) return supply(d);
  const chemistry = d.pick(Object.keys(CELLS) as (keyof typeof CELLS)[]);
  const [low, high] = CELLS[chemistry];
  const series = d.chance(d.wild) ? d.whole(1, 200) : d.whole(1, 14);
  d.volts = (series * (low + high)) / 2;
  // most are emptied within minutes: each is driven again and again until then, and what never empties for a day
  const size = d.size * d.pick([0.05, 0.05, 0.1, 0.1, 0.2, 0.2, d.chance(0.2) ? 1 : 0.1]);
  const parallel = d.chance(d.given) ? (d.chance(d.wild) ? d.whole(1, 200) : d.whole(1, 4)) : undefined;
  const b: Section = { chemistry, cells: { series, parallel } };
  b['capacity'] = d.q(0.5 * size, 6 * size, d.pick(['Ah', 'A·h']));
  d.opt(b, 'cell_resistance', () => d.q(1 / size, 12 / size, 'mohm', { max: 10000, above: 0 }));
  if (d.chance(d.given * 0.6)) {
    const slow: Section = {};
    d.opt(slow, 'resistance', () => d.q(1 / size, 10 / size, 'mohm', { min: 0, max: 10000 }), 0.8);
    d.opt(slow, 'time', () => d.q(5, 100, 's'), 0.8);
    b['polarisation'] = slow;
  }
  if (d.chance(d.given * 0.3)) {
    const charge = d.rising(d.whole(2, 7), d.chance(0.7) ? 0 : 0.05, 1);
    const shares = charge.length < 2 ? [0, 1] : charge;
    b['open_circuit'] = shares.map((c) => ({
      charge: String(c),
      voltage: `${Number((low + (high - low) * (d.chance(d.wild) ? d.r() : c)).toPrecision(4))} V`,
    }));
  }
  d.opt(b, 'cell_cutoff', () => d.q(low * 0.9, low * 1.08, 'V', { above: 0 }));
  d.opt(b, 'discharge_rating', () => d.q(2, 60, 'C'));
  d.opt(b, 'mass', () => d.q(100 * size, 600 * size, 'g'));
  d.opt(
    b,
    'thermal',
    () => ({ to_air: d.q(0.1 * size, size, 'W/K'), ...(d.chance(0.5) ? { capacity: d.q(100 * size, 900 * size, 'J/K') } : {}) }),
    d.given * 0.4,
  );
  return b;
}

export function start(d: Dice): Section {
  const s: Section = {};
  d.opt(s, 'charge', () => d.q(10, 100, '%', { min: 0, max: 100 }), 0.6);
  d.opt(s, 'temperature', () => d.q(-10, 40, '°C', { min: -60, max: d.chance(0.1) ? 150 : 50 }));
  d.opt(s, 'battery_temperature', () => d.q(-10, 40, '°C', { min: -60, max: 50 }), d.given * 0.5);
  return s;
}

export function wiring(d: Dice): Section {
  const w: Section = {};
  if (d.chance(0.3)) w['resistance'] = d.q(0.5, 20, 'mohm', { min: 0, max: 10000 });
  else {
    d.opt(w, 'gauge', () => (d.chance(0.5) ? `${d.whole(0, 30)} AWG` : d.q(0.3, 16, 'mm2')));
    d.opt(w, 'length', () => d.q(5, 100, 'cm', { min: 0 }));
    d.opt(w, 'connectors', () => String(d.whole(0, d.chance(d.wild) ? 20 : 4)));
  }
  return w;
}

export function controller(d: Dice): Section {
  const { size, given } = d;
  const c: Section = {};
  d.opt(c, 'path_resistance', () => d.q(0.5 / size, 10 / size, 'mohm', { min: 0, max: 10000 }));
  d.opt(c, 'motor_current_limit', () => d.q(10 * size, 120 * size, 'A'));
  d.opt(c, 'battery_current_limit', () => d.q(10 * size, 120 * size, 'A'), given * 0.6);
  d.opt(c, 'pwm_frequency', () => d.q(4, 64, 'kHz'));
  d.opt(c, 'switching_time', () => d.q(30, 600, 'ns', { min: 0 }));
  d.opt(c, 'voltage_loss', () => d.q(0.05, 5, 'W', { min: 0 }));
  d.opt(c, 'dead_time', () => d.q(0.1, 3, 'us', { min: 0 }));
  if (c['motor_current_limit'] !== undefined && d.chance(given * 0.5)) {
    const from = d.whole(20, 110);
    c['derating'] = { from: `${from} °C`, to: `${from + d.whole(1, 60)} °C` };
  }
  d.opt(c, 'idle_current', () => d.q(10, 300, 'mA', { min: 0 }));
  d.opt(c, 'freewheeling', () => d.pick(['synchronous', 'diode']));
  d.opt(c, 'braking', () => d.pick(['none', 'regenerative', 'regenerative']));
  d.opt(c, 'drive', () => d.pick(['block', 'sinusoidal', 'sinusoidal']), given * 0.6);
  d.opt(c, 'mass', () => d.q(5 * size, 150 * size, 'g'));
  const thermal = (): Node => ({
    to_air: d.q(0.05 * size, size, 'W/K'),
    ...(d.chance(0.5) ? { capacity: d.q(5 * size, 200 * size, 'J/K') } : {}),
  });
  d.opt(c, 'thermal', thermal, given * 0.4);
  return c;
}
