/** Pack, wiring and controller of which nothing is said: each number against its source. */
import type { ELECTRIC_RULES } from '@shaftwork/sim-core/provenance/rules/rules-electrics';
import { PACK } from '../drives.js';
import { type Held, holdRules, PRACTICE } from './hold-rules.js';

const DRIVES = {
  bare: { battery: { ...PACK, mass: '200 g' } },
  'pack of no mass': {},
  parallel: { battery: { cells: { series: 3, parallel: 2 }, capacity: '2.2 Ah', cell_resistance: '5 mohm', discharge_rating: '30 C' } },
  'two strings': { battery: { cells: { series: 3, parallel: 2 }, capacity: '2.2 Ah' } },
  nickel: { battery: { chemistry: 'nickel-metal-hydride', cells: { series: 6 }, capacity: '3 Ah' } },
  'one plug': { wiring: { connectors: 1 } },
  supply: { battery: { supply: '12 V' } },
  'loss written': { controller: { voltage_loss: '2 W', freewheeling: 'diode' } },
} as const;

/** 45 C of 2.2 Ah in SI. */
const RATING = 45 / 3600;
const ECKER = 'M. Ecker et al., J. Electrochem. Soc. 162 A1849, 2015';
const CHEN = 'M. Chen & G. A. Rincón-Mora, IEEE Trans. Energy Conversion 21(2), 2006';

const ROWS: Record<keyof typeof ELECTRIC_RULES, Held<keyof typeof DRIVES>> = {
  'full-charge': { in: 'bare', is: 1, source: 'assumed full' },
  'parallel-strings': { in: 'two strings', is: 2, source: 'definition' },
  'cell-capacity': { in: 'two strings', is: 1.1 * 3600, source: 'definition' },
  'usual-rating': { in: 'bare', is: RATING, off: '60 %', source: PRACTICE },
  'cell-resistance-lithium': { in: 'bare', is: (0.13 / 2.2) * 45 ** -0.6, off: '45 %', own: '15 %', source: 'from memory' },
  'cell-resistance-nickel-metal-hydride': { in: 'nickel', is: 14e-3 / 3, off: '50 %', own: '15 %', source: PRACTICE },
  'slow-resistance-lithium': { in: 'parallel', is: 0.3 * 5e-3, off: '50 %', source: ECKER },
  'slow-resistance-nickel': { in: 'nickel', is: (0.75 * 14e-3) / 3, off: '50 %', source: PRACTICE },
  'slow-time': { in: 'bare', is: 30, off: '60 %', source: PRACTICE },
  // 46 kJ/mol over the gas constant, to two digits
  'cell-activation': { in: 'bare', is: 46e3 / 8.314462618, within: 0.01, off: '25 %', source: '30–60 kJ/mol' },
  'activated-resistance': { in: 'bare', is: 0.25, off: 0.12, source: PRACTICE },
  // R_s(s) = 0.1562·exp(−24.37·s) + 0.07446 Ω (from memory): its rise at empty over what is left at half charge
  'resistance-near-empty': { in: 'nickel', is: 0.1562 / 0.07446, within: 0.002, off: '50 %', source: CHEN },
  'resistance-near-empty-width': { in: 'nickel', is: 1 / 24.37, within: 0.002, off: '50 %', source: 'Chen & Rincón-Mora, 2006' },
  'surface-lag': { in: 'bare', is: 0.05 / RATING, off: '80 %', source: ECKER },
  'open-circuit-error': { in: 'bare', is: 0, off: 0.03, source: 'spread between published curves' },
  // 24.4 W·h at 140 W·h/kg
  'pack-mass': { in: 'pack of no mass', is: (2.2 * 11.1) / 140, off: '25 %', source: PRACTICE },
  'of-a-supply': { in: 'supply', is: [0, 1e-9, 1, Number.POSITIVE_INFINITY], source: 'definition' },
  // behind a loss in watts at half throttle
  'cell-voltage': { in: 'loss written', is: 3.7, source: 'definition' },
  'cells-in-series': { in: 'loss written', is: 3, source: 'definition' },
  'nominal-voltage': { in: 'loss written', is: 11.1, source: 'definition' },
  'chemistry-cutoff': { in: 'bare', is: 3.3, source: PRACTICE },
  'rated-current': { in: 'parallel', is: 66, source: 'definition' },
  'cell-heat-capacity': { in: 'bare', is: 200, off: '15 %', source: PRACTICE },
  // 0.1 l: a cube of it has 6 · 21.5 cm²
  'cells-to-air': { in: 'bare', is: 8 * 6.6 * 0.1e-3 ** (2 / 3), off: '60 %', source: PRACTICE },
  // both ways of 20 cm of 1.7241 µΩ·cm copper, and two plugs
  'wiring-from-gauge': { in: 'bare', is: (1.7241e-8 * 0.4) / 3.3e-6 + 2 * 0.3e-3, off: '15 %', source: 'IEC 60028' },
  'connector-contact': { in: 'bare', is: 0.3e-3, off: '60 %', source: PRACTICE },
  'connector-count': { in: 'bare', is: 2, source: PRACTICE },
  'connectors-written': { in: 'one plug', is: 1, source: 'definition' },
  // 12 AWG of ASTM B258 is 3.31 mm²
  'wire-area': { in: 'bare', is: 3.31e-6, within: 0.005, off: '30 %', source: PRACTICE },
  'wire-length': { in: 'bare', is: 0.2, off: '50 %', source: PRACTICE },
  'path-resistance': { in: 'bare', is: 4e-3, off: '60 %', source: PRACTICE },
  'device-temperature-coefficient': { in: 'bare', is: 0.005, off: '40 %', source: PRACTICE },
  'switching-time': { in: 'bare', is: 200e-9, off: '80 %', source: PRACTICE },
  'pwm-frequency': { in: 'bare', is: 16e3, off: '60 %', source: PRACTICE },
  'ripple-constant': { in: 'bare', is: 9e-6, off: '150 %', source: 'thrust stand' },
  // P = κ·(V/4)²/L at half throttle
  'ripple-constant-from-power': { in: 'loss written', is: (2 * 96e-3 * 0.3e-3) / (11.1 / 4) ** 2, source: 'half throttle' },
  'ripple-in-motor': { in: 'bare', is: 0.8, off: 0.2, source: PRACTICE },
  'ripple-in-controller': { in: 'loss written', is: 0, source: 'definition' },
  'dead-time': { in: 'bare', is: 1e-6, off: '80 %', source: PRACTICE },
  'dead-time-drop': { in: 'bare', is: 0.8, off: '25 %', source: 'ROHM application note 64AN035E' },
  'no-derating': { in: 'bare', is: Number.POSITIVE_INFINITY, source: 'definition' },
  'idle-current': { in: 'bare', is: 0.06, off: '60 %', source: PRACTICE },
  'diode-drop': { in: 'loss written', is: 0.8, off: '30 %', source: PRACTICE },
  'no-diode': { in: 'bare', is: 0, source: PRACTICE },
  'controller-mass': { in: 'bare', is: 0.05, off: '60 %', source: PRACTICE },
  'controller-heat-capacity': { in: 'bare', is: 40, off: '30 %', source: PRACTICE },
  'controller-to-air': { in: 'bare', is: 0.9 * 0.05 ** (2 / 3), off: '60 %', source: PRACTICE },
};

holdRules('rules for pack, wiring and controller', DRIVES, ROWS);
