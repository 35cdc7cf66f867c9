/** The motor's heat paths where only its size is known: each number against its source. */
import type { HEAT_RULES } from '@shaftwork/sim-core/provenance/rules/rules-heat';
import { HULL, INRUNNER, OUTRUNNER, SCREW, type Section } from '../drives.js';
import { type Held, holdRules, PRACTICE } from './hold-rules.js';

const boat = (more: Section): Section => ({ ambient: { water: '15 °C' }, motor: INRUNNER, propeller: SCREW, vehicle: HULL, ...more });
const SINK = { fins: 9, fin_height: '8 mm', fin_thickness: '1 mm', length: '30 mm', breadth: '60 mm' };
const sunk = (joint: string): Section => ({ motor: INRUNNER, cooling: { heat_sink: { ...SINK, joint } } });
const strap = (material: string): Section => boat({ cooling: { strap: { material, cross_section: '30 mm2', length: '80 mm' } } });
const DRIVES = {
  bare: {},
  inrunner: { motor: INRUNNER },
  // an inrunner of a catalogue: 2.9 K/W from winding to housing
  catalogue: { motor: { ...INRUNNER, thermal: { winding_to_housing: '2.9 K/W' } } },
  'own flow': { motor: { ...OUTRUNNER, thermal: { stator_to_air: { conductance: '0.8 W/K' }, can_capacity: '33 J/K' } } },
  plate: { cooling: { mount: { plate: '20 cm2' } } },
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
  'given to the air': {
    battery: { cells: { series: 3 }, capacity: '2.2 Ah', thermal: { to_air: '0.4 W/K' } },
    controller: { thermal: { to_air: '0.2 W/K' } },
  },
  wing: { vehicle: { mass: '1 kg', wing: { area: '0.4 m2', aspect_ratio: 8 } } },
} as const satisfies Record<string, Section>;

/** The can, and stator and stack as they are taken from it. */
const [D, L, M] = [27e-3, 32e-3, 66e-3];
const [OUT_BORE, OUT_STACK] = [0.83 * D, 0.47 * L];
const [IN_BORE, IN_STACK] = [0.89 * D, L - 15e-3];
const MEMORY = 'from memory';
const HANDBOOK = 'handbook';

const ROWS: Record<keyof typeof HEAT_RULES, Held<keyof typeof DRIVES>> = {
  'inrunner-stack': { in: 'inrunner', is: 17e-3, off: '12 %', own: '6 %', source: PRACTICE },
  'outrunner-stack': { in: 'bare', is: 0.47 * L, off: '20 %', own: '8 %', source: PRACTICE },
  'inrunner-stator-diameter': { in: 'inrunner', is: 0.89 * D, off: '5 %', source: PRACTICE },
  'outrunner-stator-diameter': { in: 'bare', is: 0.83 * D, off: '5 %', source: PRACTICE },
  'pole-count': { in: 'bare', is: 14, source: 'as most motors of this layout have' },
  // 1.5 slots a pole: two walls of six slots, each 0.45·D/2 deep, and the back of a ring of D
  'inrunner-slot-contact': {
    in: 'inrunner',
    is: 120 * (6 * 2 * 0.225 + Math.PI) * IN_BORE * IN_STACK,
    off: '75 %',
    own: '20 %',
    source: PRACTICE,
  },
  // 12 slots to 14 poles: two walls of D/4 each, and the floors of a ring of 0.45·D
  'outrunner-slot-contact': {
    in: 'bare',
    is: 120 * (12 * 2 * 0.25 + 0.45 * Math.PI) * OUT_BORE * OUT_STACK,
    off: '100 %',
    own: '25 %',
    source: PRACTICE,
  },
  'winding-of-housing': { in: 'catalogue', is: 1 / (0.95 * 2.9), source: 'in series' },
  'stator-of-housing': { in: 'catalogue', is: 1 / (0.05 * 2.9), source: 'in series' },
  'press-fit': { in: 'inrunner', is: 3000 * Math.PI * IN_BORE * IN_STACK, off: '100 %', own: '20 %', source: PRACTICE },
  'no-path': { in: 'bare', is: 0, source: 'definition' },
  'inrunner-gap': { in: 'inrunner', is: 80 * Math.PI * (0.55 * IN_BORE) * IN_STACK, off: '60 %', source: PRACTICE },
  'outrunner-gap': { in: 'bare', is: 100 * Math.PI * OUT_BORE * OUT_STACK, off: '60 %', source: PRACTICE },
  'bonded-magnets': { in: 'bare', is: 2000 * Math.PI * D * OUT_STACK, off: '100 %', source: PRACTICE },
  'shaft-and-bearings': { in: 'inrunner', is: 0.05, off: '70 %', source: PRACTICE },
  'bearing-tube': { in: 'bare', is: 3 * D, off: '150 %', own: '30 %', source: PRACTICE },
  flange: { in: 'inrunner', is: 3 * D, off: '80 %', source: PRACTICE },
  'mount-faces': { in: 'bare', is: (2 * Math.PI * D ** 2) / 4, off: '80 %', own: '30 %', source: PRACTICE },
  'both-faces': { in: 'plate', is: 40e-4, source: 'geometry' },
  'mount-emissivity': { in: 'bare', is: 0.8, off: 0.3, source: PRACTICE },
  'every-speed': { in: 'own flow', is: 0, source: 'definition' },
  'can-side': { in: 'bare', is: Math.PI * D * L, source: 'geometry' },
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
  'convective-share': { in: 'bare', is: 0.5, off: 0.15, source: PRACTICE },
  'holds-as-given': { in: 'given to the air', is: 0, source: 'definition' },
  'still-compartment': { in: 'bare', is: 0, source: 'assumed still' },
  'closed-compartment': { in: 'bare', is: 0, source: 'assumed closed in' },
  'compartment-share': { in: 'wing', is: 0.1, off: 0.1, source: PRACTICE },
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
  'end-place': { in: 'bare', is: 0.5, off: 0.3, source: PRACTICE },
  'can-ends': { in: 'bare', is: (2 * Math.PI * D ** 2) / 4, source: 'geometry' },
  'can-emissivity': { in: 'bare', is: 0.6, off: 0.3, source: PRACTICE },
  'convection-error': { in: 'bare', is: 1, off: '35 %', own: '10 %', source: 'handbook correlations' },
  'through-flow': { in: 'bare', is: 120 * 2 * Math.PI * OUT_BORE * OUT_STACK, off: '150 %', own: '50 %', source: 'IEE Proc. B 138, 1991' },
  'closed-motor': { in: 'inrunner', is: 0, source: 'definition' },
  openness: { in: 'bare', is: 1, off: 0.2, source: PRACTICE },
  // copper 390, electrical steel 460 J/(kg·K): handbook
  'winding-capacity': { in: 'bare', is: 390 * (0.2 * M), off: '35 %', own: '12 %', source: PRACTICE },
  'stator-capacity': { in: 'bare', is: 460 * (0.3 * M), off: '30 %', own: '12 %', source: PRACTICE },
  'can-capacity': { in: 'bare', is: 650 * (0.25 * M), off: '35 %', own: '12 %', source: PRACTICE },
  'magnet-capacity': { in: 'bare', is: 450 * (0.25 * M), off: '30 %', own: '12 %', source: PRACTICE },
  // 33 J/K in the parts that those two would have
  'bell-capacity': { in: 'own flow', is: (33 * 650) / 1100, source: PRACTICE },
  'bell-magnets-capacity': { in: 'own flow', is: (33 * 450) / 1100, source: PRACTICE },
  'jacket-rest': { in: 'jacket', is: 0.12, off: 0.06, source: PRACTICE },
  'still-air': { in: 'bare', is: 0, source: 'assumed still' },
  'no-share': { in: 'bare', is: 0, source: 'assumed closed in' },
  'flight-share': { in: 'wing', is: 0.3, off: 0.3, source: PRACTICE },
  'slipstream-share': { in: 'bare', is: 0.3, off: 0.3, source: PRACTICE },
};

holdRules('rules for heat', DRIVES, ROWS);
