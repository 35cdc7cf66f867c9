/** Generated readings of instruments, and a log that a run is compared with. */
import type { Dice, Node, Section } from './dice.js';

/** A winding resistance read cold, near the sheet's [Ω]. */
export const cold = (d: Dice, resistance: number): Section => ({
  resistance: d.q(resistance * 800, resistance * 1300, 'mohm', { max: 100000, above: 0 }),
  resistance_at: d.chance(0.5) ? d.q(5, 35, '°C', { min: -40, max: 200 }) : undefined,
});

const SHOWN = { can: 1, end: 1, controller: 1, cells: 0.5, beside_coils: 1.3, in_slot: 2 } as const;

/** What was read at one moment, some of it. */
export function reading(d: Dice): Section {
  const { size, volts } = d;
  const r: Section = {};
  const when = d.pick(['throttle', 'at', 'after', 'nothing'] as const);
  if (when === 'throttle') r['throttle'] = d.q(30, 100, '%', { above: 0, max: 100 });
  if (when === 'at') r['at'] = d.q(1, 120, 's');
  if (when === 'after') r['after'] = d.q(1, 300, 's', { min: 0 });
  if (when === 'throttle' && d.moving) d.opt(r, 'vehicle_speed', () => d.q(0.2, d.speed, 'm/s', { min: 0 }), 0.4);
  if (when !== 'after') {
    d.opt(r, 'voltage', () => d.q(volts * 0.7, volts, 'V'), 0.5);
    d.opt(r, 'battery_current', () => d.q(2 * size, 40 * size, 'A'), 0.4);
    d.opt(r, 'motor_current', () => d.q(2 * size, 60 * size, 'A'), 0.2);
    d.opt(r, 'shaft_speed', () => d.q(2000, 15000, 'rpm'), 0.4);
    d.opt(r, 'thrust', () => d.q(size, 12 * size, 'N'), 0.2);
  } else d.opt(r, 'resistance', () => d.q(20, 200, 'mohm', { max: 100000, above: 0 }), 0.2);
  if (when === 'at' || when === 'after')
    for (const [place, rise] of Object.entries(SHOWN)) d.opt(r, place, () => d.q(25, 25 + 40 * rise, '°C', { min: -40, max: 400 }), 0.2);
  if (when === 'nothing') Object.assign(r, cold(d, 0.06));
  d.opt(r, 'measured_with', () => 'A', 0.3);
  if (r['can'] !== undefined) d.opt(r, 'emissivity', () => d.q(20, 95, '%', { above: 0, max: 100 }), 0.3);
  return r;
}

/** Columns of a log by the heads that are looked for, with the most of each. */
const COLUMNS: Readonly<Record<string, readonly [string, (d: Dice) => number]>> = {
  'throttle [%]': ['throttle', () => 100],
  'voltage [V]': ['voltage', ({ volts }) => volts],
  'cell voltage [V]': ['cell_voltage', () => 4],
  'battery current [A]': ['battery_current', ({ size }) => 30 * size],
  'motor current [A]': ['motor_current', ({ size }) => 40 * size],
  'battery power [W]': ['battery_power', ({ size }) => 300 * size],
  'charge used [mAh]': ['charge_used', ({ size }) => 2000 * size],
  'shaft speed [rpm]': ['shaft_speed', () => 12000],
  'thrust [N]': ['thrust', ({ size }) => 10 * size],
  'vehicle speed [m/s]': ['vehicle_speed', ({ speed }) => speed],
  'climb [m/s]': ['climb', ({ speed }) => 0.3 * speed],
  'can temperature [°C]': ['can_temperature', () => 70],
  'end temperature [°C]': ['end_temperature', () => 70],
  'beside coils temperature [°C]': ['beside_coils_temperature', () => 80],
  'in slot temperature [°C]': ['in_slot_temperature', () => 120],
  'controller temperature [°C]': ['controller_temperature', () => 70],
  'cell temperature [°C]': ['cell_temperature', () => 45],
};

/** A log of the run, and how it is to be read. */
export function measured(d: Dice): { readonly measured: Node; readonly log: string } {
  const m: Section = { log: 'measured.csv' };
  const heads = Object.keys(COLUMNS).filter(() => d.chance(0.25));
  const columns: Section = {};
  const shown = ['time', ...heads].map((head) => {
    const key = head === 'time' ? 'time' : COLUMNS[head][0];
    if (!d.chance(0.3)) return head === 'time' ? 'time [s]' : head;
    const own = `own ${head === 'time' ? 'time [s]' : head}`;
    columns[key] = own;
    return own;
  });
  if (d.chance(0.05)) {
    columns['grade'] = 'slope [%]';
    shown.push('slope [%]');
  }
  if (Object.keys(columns).length > 0) m['columns'] = columns;
  d.opt(m, 'candidate', () => 'A', 0.2);
  d.opt(m, 'pole_pairs', () => String(d.whole(1, 14)), 0.2);
  if (heads.includes('throttle [%]')) d.opt(m, 'align', () => 'throttle', 0.2);
  else d.opt(m, 'begins', () => d.q(0.5, 20, 's', { tolerant: false }), 0.2);
  d.opt(m, 'from', () => d.q(0.5, 10, 's', { tolerant: false }), 0.15);
  d.opt(m, 'to', () => d.q(30, 200, 's', { tolerant: false }), 0.15);
  d.opt(m, 'part', () => '1', 0.1);
  if (heads.includes('battery current [A]')) d.opt(m, 'charge_put_back', () => d.q(100 * d.size, 3000 * d.size, 'mA·h'), 0.2);
  if (heads.includes('throttle [%]'))
    d.opt(
      m,
      'pulse',
      () => [
        { at: '1000 us', duty: '0 %' },
        { at: '2000 us', duty: '100 %' },
      ],
      0.1,
    );
  const rows = [shown.join()];
  let at = 0;
  for (let k = d.whole(2, 200); k > 0; k--) {
    const cells = shown.slice(1).map((_, column) => Number(((COLUMNS[heads[column]]?.[1](d) ?? 5) * (0.5 + 0.5 * d.r())).toPrecision(4)));
    rows.push([at, ...cells].join());
    at = Number((at + 0.1 + 3 * d.r()).toFixed(2));
  }
  return { measured: m, log: `${rows.join('\n')}\n` };
}

/** Sections that may say where their numbers are from. */
const SOURCED = ['ambient', 'battery', 'start', 'wiring', 'controller', 'gearbox', 'propeller', 'wheel', 'vehicle', 'limits', 'space'];

/** Words in a few of the places that take them. */
export function words(d: Dice, scenario: Section): void {
  d.opt(scenario, 'notes', () => 'Drawn by lot. ± 5 %: {not} a number.', 0.1);
  for (const key of SOURCED) {
    const section = scenario[key];
    if (typeof section === 'object' && d.chance(0.05)) scenario[key] = { ...(section as Section), source: `sheet of the ${key}` };
  }
}
