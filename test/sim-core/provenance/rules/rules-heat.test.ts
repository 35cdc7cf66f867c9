/** The motor's heat paths where only its size is known: each number against its source. */
import type { HEAT_RULES } from '@shaftwork/sim-core/provenance/rules/rules-heat';
import { INRUNNER, OUTRUNNER, type Section } from '../drives.js';
import { type Held, holdRules, PRACTICE } from './hold-rules.js';

const DRIVES = {
  bare: {},
  inrunner: { motor: INRUNNER },
  // an inrunner of a catalogue: 2.9 K/W from winding to housing
  catalogue: { motor: { ...INRUNNER, thermal: { winding_to_housing: '2.9 K/W' } } },
  'own flow': { motor: { ...OUTRUNNER, thermal: { stator_to_air: { conductance: '0.8 W/K' }, can_capacity: '33 J/K' } } },
  'to the air': { motor: { ...INRUNNER, thermal: { can_to_air: '0.4 W/K' } } },
  plate: { cooling: { mount: { plate: '20 cm2' } } },
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
  'no-surface': { in: 'to the air', is: 0, source: 'definition' },
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
  'convective-share': { in: 'bare', is: 0.5, off: 0.15, source: PRACTICE },
  'holds-as-given': { in: 'given to the air', is: 0, source: 'definition' },
  'still-compartment': { in: 'bare', is: 0, source: 'assumed still' },
  'closed-compartment': { in: 'bare', is: 0, source: 'assumed closed in' },
  'compartment-share': { in: 'wing', is: 0.1, off: 0.1, source: PRACTICE },
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
  'still-air': { in: 'bare', is: 0, source: 'assumed still' },
  'no-share': { in: 'bare', is: 0, source: 'assumed closed in' },
  'flight-share': { in: 'wing', is: 0.3, off: 0.3, source: PRACTICE },
  'slipstream-share': { in: 'bare', is: 0.3, off: 0.3, source: PRACTICE },
};

holdRules('rules for heat', DRIVES, ROWS);
