/** Surroundings that nobody gave: each number against its source. */
import type { RuleId } from '@shaftwork/sim-core/provenance/rules/rules';
import type { COOLING_RULES } from '@shaftwork/sim-core/provenance/rules/rules-cooling';
import type { ELECTRIC_RULES } from '@shaftwork/sim-core/provenance/rules/rules-electrics';
import type { HEAT_RULES } from '@shaftwork/sim-core/provenance/rules/rules-heat';
import type { LIMIT_RULES } from '@shaftwork/sim-core/provenance/rules/rules-limits';
import type { LOAD_RULES } from '@shaftwork/sim-core/provenance/rules/rules-load';
import type { MOTOR_RULES } from '@shaftwork/sim-core/provenance/rules/rules-motor';
import { HULL, INRUNNER, SCREW, type Section } from '../drives.js';
import { type Held, holdRules, PRACTICE } from './hold-rules.js';

const boat = (ambient: Section): Section => ({ ambient, motor: INRUNNER, propeller: SCREW, vehicle: HULL });
const DRIVES = {
  bare: {},
  hills: { ambient: { altitude: '1000 m' } },
  lake: boat({ water_kind: 'fresh' }),
  sea: boat({ water_kind: 'sea' }),
  fan: { motor: INRUNNER, other_loads: '5 W', cooling: { fan: { diameter: '40 mm', flow: '180 L/min', power: '1.5 W' } } },
} as const satisfies Record<string, Section>;

const ISO = 'ISO 2533:1975';
const ITTC = 'ITTC 7.5-02-01-03';
const zero = (celsius: number): number => 273.15 + celsius;

type Elsewhere =
  | keyof typeof COOLING_RULES
  | keyof typeof ELECTRIC_RULES
  | keyof typeof HEAT_RULES
  | keyof typeof LIMIT_RULES
  | keyof typeof LOAD_RULES
  | keyof typeof MOTOR_RULES;
const ROWS: Record<Exclude<RuleId, Elsewhere>, Held<keyof typeof DRIVES>> = {
  'standard-day': { in: 'bare', is: zero(15), off: 10, source: ISO },
  'sea-level': { in: 'bare', is: 0, source: 'sea level' },
  // 898.76 hPa at a geometric altitude of 1000 m
  'pressure-at-altitude': { in: 'hills', is: 89_876, within: 1e-5, off: '1 %', source: ISO },
  'as-the-air': { in: 'bare', is: zero(15), source: PRACTICE },
  'mild-water': { in: 'bare', is: zero(15), off: 6, source: PRACTICE },
  'air-density': { in: 'bare', is: 1.225, within: 1e-4, source: ISO },
  'air-viscosity': { in: 'bare', is: 1.4607e-5, within: 1e-3, source: ISO },
  // 15 °C: 999.1 and 1026.0 kg/m³, 1.1386 and 1.1892 mm²/s
  'fresh-water-density': { in: 'lake', is: 999.103, within: 1e-5, source: ITTC },
  'sea-water-density': { in: 'sea', is: 1026.021, within: 1e-4, source: ITTC },
  'fresh-water-viscosity': { in: 'lake', is: 1.1386e-6, within: 2e-3, source: ITTC },
  'sea-water-viscosity': { in: 'sea', is: 1.1892e-6, within: 2e-3, source: ITTC },
  'with-fan': { in: 'fan', is: 6.5, source: 'definition' },
  'no-other-loads': { in: 'bare', is: 0, source: 'none given' },
};

holdRules('rules for surroundings', DRIVES, ROWS);
