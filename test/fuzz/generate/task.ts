/** Generated profiles, logs, limits and space. */
import type { Dice, Node, Section } from './dice.js';

export function limits(d: Dice): Section {
  const { size } = d;
  const l: Section = {};
  // above the start, or the scenario is refused
  const t = (low: number, high: number): string =>
    `${Math.max(Math.ceil(d.air) + 1, d.whole(d.chance(d.wild) ? 20 : low, d.chance(d.wild) ? 400 : high))} °C`;
  d.opt(l, 'winding', () => t(80, 180));
  d.opt(l, 'magnets', () => t(60, 150));
  d.opt(l, 'controller', () => t(60, 120));
  d.opt(l, 'cells', () => t(45, 70));
  d.opt(l, 'reserve', () => d.q(5, 40, '%', { min: 0, max: 100 }), d.given * 0.7);
  d.opt(l, 'battery_power', () => d.q(100 * size, 1500 * size, 'W'), d.given * 0.5);
  d.opt(l, 'energy', () => d.q(5 * size, 100 * size, 'Wh'), d.given * 0.4);
  d.opt(l, 'run_time', () => d.q(1, 30, 'min'), d.given * 0.4);
  return l;
}

export function space(d: Dice): Section {
  const s: Section = {};
  d.opt(s, 'diameter', () => d.q(30, 60, 'mm'), 0.7);
  d.opt(s, 'length', () => d.q(30, 90, 'mm'), 0.7);
  d.opt(s, 'mass', () => d.q(100 * d.size, 500 * d.size, 'g'));
  return s;
}

function step(d: Dice, seconds: number): Section {
  const { size, speed, moving, kind } = d;
  const show = (x: number): number => Number(x.toPrecision(4));
  const ramp = (a: number, b: number, unit: string): string => {
    const one = show(a + (b - a) * d.r());
    const two = d.chance(0.25) ? show(a + (b - a) * d.r()) : one;
    return two === one ? `${one} ${unit}` : `${one} to ${two} ${unit}`;
  };
  const s: Section = { for: `${show(Math.max(0.5, seconds))} s` };
  d.opt(s, 'label', () => d.pick(['climb', 'glide', 'sprint', 'a']), 0.2);
  const holds = ['throttle', 'throttle', 'throttle', 'shaft_speed', 'battery_power', 'battery_current', 'motor_current', 'thrust'] as const;
  const hold = d.pick(moving ? ([...holds, 'vehicle_speed', 'vehicle_speed'] as const) : holds);
  const x = d.chance(d.wild) ? 10 ** (3 * d.r()) : 1;
  const odd = d.chance(0.08);
  if (hold === 'throttle')
    s['throttle'] = d.chance(0.2)
      ? d.pick(['0 %', '100 %', '100 %', '0 to 100 %', '100 to 0 %', '1 %', '0.01 %', '99.99 %'])
      : ramp(10, 100, '%');
  else if (hold === 'vehicle_speed') s['vehicle_speed'] = odd ? '0 m/s' : ramp(0.2 * speed, speed * 1.2 * x, 'm/s');
  else if (hold === 'shaft_speed') s['shaft_speed'] = odd ? '0 rpm' : ramp(500, 15000 * x, 'rpm');
  else if (hold === 'battery_power') s['battery_power'] = odd ? '0 W' : ramp(2 * size, 300 * size * x, 'W');
  else if (hold === 'battery_current') s['battery_current'] = odd ? '0 A' : ramp(0.2, 30 * size * x, 'A');
  else if (hold === 'motor_current') s['motor_current'] = odd ? '0 A' : ramp(0.5, 40 * size * x, 'A');
  else s['thrust'] = odd ? '0 N' : ramp(0.1 * size, 12 * size * x, 'N');
  if (hold !== 'vehicle_speed' && d.chance(moving ? (kind === 'aircraft' ? 0.7 : 0.2) : 0.1))
    s['vehicle_speed'] = d.chance(0.05) ? '0 m/s' : ramp(0.3 * speed, speed * x, 'm/s');
  if (hold === 'vehicle_speed' && kind === 'aircraft' && d.chance(0.4)) {
    const slowest = Math.min(...(String(s['vehicle_speed']).match(/[\d.]+(?= to| m)/g) ?? ['0']).map(Number));
    if (slowest > 0) s['climb'] = ramp(-0.4 * slowest, slowest * (d.chance(d.wild) ? 1 : 0.4), 'm/s').replaceAll('-0 m', '0 m');
  } else if (kind === 'car' && d.chance(0.3)) s['grade'] = ramp(-15, d.chance(d.wild) ? 95 : 20, '%');
  return s;
}

const COLUMNS = {
  throttle: ['%', () => 100],
  vehicle_speed: ['m/s', (d: Dice) => d.speed],
  motor_current: ['A', (d: Dice) => 30 * d.size],
  shaft_speed: ['rpm', () => 12000],
  battery_power: ['W', (d: Dice) => 200 * d.size],
  battery_current: ['A', (d: Dice) => 30 * d.size],
  thrust: ['N', (d: Dice) => 10 * d.size],
} as const;

/** A log with the column that is held, now and then beside the vehicle's speed, and how it is to be read. */
function log(d: Dice): { readonly profile: Section; readonly log: string } {
  const p: Section = { log: 'run.csv' };
  const holds = (Object.keys(COLUMNS) as (keyof typeof COLUMNS)[]).filter((key) => d.moving || key !== 'vehicle_speed');
  const hold = d.pick(holds);
  const [unit, most] = COLUMNS[hold];
  const beside = d.moving && hold !== 'vehicle_speed' && d.chance(0.3);
  const own = d.chance(0.15);
  if (own) p['columns'] = { [hold]: `own [${unit}]` };
  if (beside || d.chance(0.2)) p['hold'] = hold;
  if (beside) d.opt(p, 'impose_speed', () => d.pick(['yes', 'no']), 0.6);
  if (hold === 'shaft_speed') d.opt(p, 'pole_pairs', () => String(d.whole(1, 14)), 0.3);
  d.opt(p, 'accuracy', () => d.pick(['0.5 %', '5 %', '100 %', '0.01 %']), 0.3);
  d.opt(p, 'label', () => 'field run', 0.3);
  d.opt(p, 'longest_gap', () => d.q(2, 20, 's', { tolerant: false }), 0.2);
  d.opt(p, 'part', () => '1', 0.1);
  const lines = [`time [s],${own ? 'own' : hold.replace('_', ' ')} [${unit}]${beside ? ',vehicle speed [m/s]' : ''}`];
  let at = d.whole(-5, 50);
  const first = at;
  for (let k = d.whole(2, d.chance(0.03) ? 600 : 20); k > 0; k--) {
    const second = beside ? `,${Number((d.speed * d.r()).toPrecision(4))}` : '';
    lines.push(`${at},${d.chance(0.15) ? 0 : Number((most(d) * d.r()).toPrecision(4))}${second}`);
    at = Number((at + 0.02 + 4.9 * d.r()).toFixed(3));
  }
  d.opt(p, 'from', () => `${first + 1} s`, 0.1);
  d.opt(p, 'to', () => `${at - 1} s`, 0.1);
  return { profile: p, log: `${lines.join(d.pick(['\n', '\r\n']))}\n` };
}

/** The profile, and the log's text where it is driven from one. */
export function profile(d: Dice): { readonly profile: Node; readonly log?: string } {
  if (d.chance(0.01)) return log(d);
  const total = d.chance(d.wild) ? 10 ** (d.chance(0.1) ? 4 * d.r() : 1.5 + 2.5 * d.r()) : 60 + 300 * d.r();
  const n = d.pick([1, 1, 1, 1, 1, 1, 2, 2, d.chance(d.wild) ? 3 : 2, d.chance(d.wild) ? 14 : 3]);
  const steps: Node[] = Array.from({ length: n }, () => step(d, (total / n) * (0.1 + 1.8 * d.r())));
  if (d.chance(0.06)) {
    const inner: Node[] = [step(d, 1 + 20 * d.r()), step(d, 1 + 20 * d.r())];
    const often = String(d.whole(1, d.chance(d.wild) ? 40 : 4));
    steps.push({ repeat: often, steps: d.chance(0.15) ? [{ repeat: '2', steps: inner }, step(d, 3)] : inner });
  }
  return { profile: steps };
}
