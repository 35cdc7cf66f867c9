/** What is fitted to cool the motor, where little of it is told: each number against its source. */
import type { COOLING_RULES } from '@shaftwork/sim-core/provenance/rules/rules-cooling';
import { HULL, INRUNNER, SCREW, type Section } from '../drives.js';
import { type Held, holdRules, PRACTICE } from './hold-rules.js';

const boat = (more: Section): Section => ({ ambient: { water: '15 °C' }, motor: INRUNNER, propeller: SCREW, vehicle: HULL, ...more });
const SINK = { fins: 9, fin_height: '8 mm', fin_thickness: '1 mm', length: '30 mm', breadth: '60 mm' };
const sunk = (joint: string): Section => ({ motor: INRUNNER, cooling: { heat_sink: { ...SINK, joint } } });
const strap = (material: string): Section => boat({ cooling: { strap: { material, cross_section: '30 mm2', length: '80 mm' } } });
const DRIVES = {
  bare: {},
  paste: sunk('paste'),
  tape: sunk('tape'),
  pad: sunk('pad'),
  dry: sunk('dry'),
  copper: strap('copper'),
  aluminium: strap('aluminium'),
  pipe: strap('heat-pipe'),
  fan: { motor: INRUNNER, cooling: { fan: { diameter: '40 mm', flow: '180 L/min', power: '1 W' } } },
  cowl: { cooling: { air: { cowl: { inlet: '1 cm2', gap: '4 mm' } } } },
  jacket: boat({ cooling: { water_jacket: { conductance: '1.8 W/K', at_speed: '3 m/s' } } }),
  coil: boat({ cooling: { water_coil: { bore: '3 mm', length: '60 cm' } } }),
  pumped: boat({ cooling: { water_coil: { bore: '3 mm', length: '60 cm', pump: '0.8 L/min' } } }),
} as const satisfies Record<string, Section>;

/** The can. */
const [D, L] = [27e-3, 32e-3];
const MEMORY = 'from memory';
const HANDBOOK = 'handbook';

const ROWS: Record<keyof typeof COOLING_RULES, Held<keyof typeof DRIVES>> = {
  uncovered: { in: 'bare', is: 0, source: 'definition' },
  'sink-coverage': { in: 'paste', is: 0.6, off: 0.2, source: PRACTICE },
  'sink-joint': { in: 'paste', is: 3000 * 30e-3 * 60e-3, source: 'geometry' },
  'joint-paste': { in: 'paste', is: 3000, off: '100 %', source: PRACTICE },
  'joint-tape': { in: 'tape', is: 0.6 / 0.25e-3, off: '60 %', source: MEMORY },
  'joint-pad': { in: 'pad', is: 1500, off: '60 %', source: MEMORY },
  // still air at 27 °C conducts 0.0263 W/(m·K): Incropera et al., 6th ed., table A.4 (from memory)
  'joint-dry': { in: 'dry', is: 0.0263 / 0.1e-3, within: 0.02, off: '150 %', source: MEMORY },
  strap: { in: 'copper', is: 1 / (80e-3 / (390 * 30e-6) + 1 / 0.6), source: 'Fourier’s law' },
  'strap-conductivity': { in: 'aluminium', is: 200, off: '10 %', source: HANDBOOK },
  'pipe-conductivity': { in: 'pipe', is: 10_000, off: '200 %', source: MEMORY },
  'strap-joints': { in: 'copper', is: 0.6, off: '100 %', source: PRACTICE },
  'copper-strap-mass': { in: 'copper', is: 8900 * 30e-6 * 80e-3, off: '10 %', source: HANDBOOK },
  'aluminium-strap-mass': { in: 'aluminium', is: 2700 * 30e-6 * 80e-3, off: '10 %', source: HANDBOOK },
  // 3 l/s, of which 0.6 through a ring between 18 and 40 mm
  'fan-air': { in: 'fan', is: (0.6 * 3e-3) / ((Math.PI / 4) * (40e-3 ** 2 - 18e-3 ** 2)), off: '35 %', source: 'continuity' },
  'fan-beyond-can': { in: 'fan', is: 6.5e-3, source: 'geometry' },
  'fan-mass': { in: 'fan', is: 16e-3, off: '40 %', source: PRACTICE },
  // a ring between can and cowl
  'cowl-share': { in: 'cowl', is: 0.6e-4 / ((Math.PI / 4) * (35e-3 ** 2 - 27e-3 ** 2)), off: '35 %', source: 'sharp-edged inlet' },
  'no-pump': { in: 'coil', is: 0, source: 'definition' },
  'no-scoop': { in: 'pumped', is: 0, source: 'definition' },
  'pump-speed': { in: 'pumped', is: 0.8e-3 / 60 / ((Math.PI / 4) * 3e-3 ** 2), source: 'continuity' },
  'fin-conductivity': { in: 'paste', is: 200, off: '15 %', source: HANDBOOK },
  'coil-joint': { in: 'coil', is: 5 * 0.6, off: '100 %', source: PRACTICE },
  'coil-speed': { in: 'coil', is: 0.25, off: 0.2, source: PRACTICE },
  'fin-count': { in: 'paste', is: 9, source: 'definition' },
  'fins-round-can': { in: 'paste', is: 9.5e-3, source: PRACTICE },
  // nine fins of 8 × 1 mm and a base of 1.5 × 60 mm, 30 mm long
  'sink-mass': { in: 'paste', is: 2700 * 30e-3 * (9 * 8e-6 + 90e-6), off: '25 %', source: HANDBOOK },
  'tube-round-can': { in: 'coil', is: 4e-3, source: PRACTICE },
  // a ring of brass between 3 and 4 mm, and water within
  'tube-mass': {
    in: 'coil',
    is: 0.6 * (Math.PI / 4) * (8500 * (4e-3 ** 2 - 3e-3 ** 2) + 1000 * 3e-3 ** 2),
    off: '30 %',
    source: HANDBOOK,
  },
  'jacket-round-can': { in: 'jacket', is: 3e-3, off: '40 %', source: PRACTICE },
  'jacket-mass': { in: 'jacket', is: 5 * Math.PI * D * L, off: '50 %', source: PRACTICE },
  'nothing-round-can': { in: 'bare', is: 0, source: 'definition' },
  'nothing-added': { in: 'bare', is: 0, source: 'definition' },
  thickest: { in: 'jacket', is: 3e-3, source: 'definition' },
  sum: { in: 'fan', is: 16e-3, source: 'definition' },
  'jacket-rest': { in: 'jacket', is: 0.12, off: 0.06, source: PRACTICE },
};

holdRules('rules for cooling', DRIVES, ROWS);
