/** Limits that nobody gave: each number against its source. */
import type { LIMIT_RULES } from '@shaftwork/sim-core/provenance/rules/rules-limits';
import { OUTRUNNER, type Section } from '../drives.js';
import { type Held, holdRules, PRACTICE } from './hold-rules.js';

const DRIVES = {
  bare: {},
  class: { motor: { ...OUTRUNNER, insulation_class: 'F', magnet_grade: 'H' } },
} as const satisfies Record<string, Section>;
const zero = (celsius: number): number => 273.15 + celsius;

const ROWS: Record<keyof typeof LIMIT_RULES, Held<keyof typeof DRIVES>> = {
  // classes F and B end at 155 and 130 °C
  'insulation-class': { in: 'class', is: zero(155), source: 'IEC 60085' },
  'usual-insulation': { in: 'bare', is: zero(130), source: 'IEC 60085' },
  'magnet-grade': { in: 'class', is: zero(120), source: 'magnet makers’ tables' },
  'usual-magnets': { in: 'bare', is: zero(100), source: PRACTICE },
  'usual-controller': { in: 'bare', is: zero(95), source: PRACTICE },
  'usual-cells': { in: 'bare', is: zero(60), source: PRACTICE },
  'no-limit': { in: 'bare', is: [0, Number.POSITIVE_INFINITY], source: 'definition' },
  'no-reserve': { in: 'bare', is: 0, source: 'none asked for' },
};

holdRules('rules for limits', DRIVES, ROWS);
