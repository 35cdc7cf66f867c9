/** What a drive turns and carries, where little is said of it: each number against its source. */
import type { LOAD_RULES } from '@shaftwork/sim-core/provenance/rules/rules-load';
import { AIR_SCREW, HULL, INRUNNER, SCREW, type Section } from '../drives.js';
import { type Held, holdRules, PRACTICE } from './hold-rules.js';

const ROW = { shaft_speed: '9000 rpm ± 1 %', thrust: '8 N ± 3 %', torque: '0.1 N·m ± 4 %' };
/** Thrust over speed squared 1 and 1.3, torque on one law. */
const APART = [
  { shaft_speed: '6000 rpm', thrust: '4 N', torque: '64 mN·m' },
  { shaft_speed: '9000 rpm', thrust: '11.7 N', torque: '144 mN·m' },
];
const measured = (...points: readonly Section[]): Section => ({ kind: 'measured-points', diameter: '9 in', points });
const STATIONS = [0.2, 0.75, 1].map((radius) => ({ radius, chord: 0.16, twist: '14°' }));
const WING = { area: '0.4 m2', aspect_ratio: 8 };
const TABLE = [
  { advance_ratio: 0, thrust: 0.1, power: 0.05 },
  { advance_ratio: 0.7, thrust: 0.01, power: 0.02 },
];
const DRIVES = {
  bare: { propeller: AIR_SCREW },
  geared: { gearbox: { ratio: 3 } },
  boat: { ambient: { water: '15 °C' }, motor: INRUNNER, propeller: SCREW, vehicle: HULL },
  'boat at sea': { ambient: { water: '15 °C', water_kind: 'sea' }, motor: INRUNNER, propeller: SCREW, vehicle: HULL },
  table: { propeller: { kind: 'coefficients', diameter: '9 in', table: TABLE } },
  'table in water': { propeller: { kind: 'coefficients', diameter: '9 in', table: TABLE, medium: 'water' } },
  'one point': { propeller: measured(ROW) },
  'points apart': { propeller: measured(...APART) },
  carried: { propeller: measured(ROW), vehicle: { mass: '1 kg', drag_area: '0.02 m2' } },
  'thrust alone': { propeller: measured({ shaft_speed: '9000 rpm', thrust: '8 N' }) },
  'torque alone': { propeller: measured({ shaft_speed: '9000 rpm', torque: '0.1 N·m' }) },
  family: { propeller: { ...AIR_SCREW, family: 'thin' } },
  stations: { propeller: { kind: 'blade-element', diameter: '9 in', stations: STATIONS } },
  'stations and pitch': { propeller: { ...AIR_SCREW, pitch: '5.3 in', stations: STATIONS } },
  set: { propeller: { ...AIR_SCREW, points: [ROW] } },
  car: { motor: INRUNNER, propeller: 'none', wheel: { radius: '40 mm' }, vehicle: { mass: '2 kg' }, gearbox: { ratio: 8, mass: '40 g' } },
  wing: { vehicle: { mass: '1 kg', wing: WING }, battery: { cells: { series: 3 }, capacity: '2.2 Ah', mass: '200 g' }, drives: 2 },
} as const satisfies Record<string, Section>;

/** Residuals of a fit of one coefficient that weighs each point by the fourth power of its speed. */
const [SLOW, FAST] = [6000 ** 4, 9000 ** 4];
const FIT = (SLOW + 1.3 * FAST) / (SLOW + FAST);
const SCATTER = Math.sqrt(((1 / FIT - 1) ** 2 + (1.3 / FIT - 1) ** 2) / 2);
/** What was written beside a reading of ± 3 and 4 % at a speed of ± 1 %: speed counts twice. */
const [THRUST, TORQUE] = [Math.hypot(0.03, 0.02), Math.hypot(0.04, 0.02)];
const DEGREE = Math.PI / 180;
const UIUC = 'UIUC Propeller Database';
const FITTED = 'twice the scatter of the points';
const percent = (share: number): `${number} %` => `${100 * share} %`;
/** Share of water's molecules among those of sea water of 35.2 g of salt a kilogram, its ions 31.4 g/mol: Raoult's law. */
const RAOULT = 964.8 / 18.015 / (964.8 / 18.015 + 35.2 / 31.4);

const ROWS: Record<keyof typeof LOAD_RULES, Held<keyof typeof DRIVES>> = {
  'direct-drive': { in: 'bare', is: 1, source: 'definition' },
  'no-gear-loss': { in: 'bare', is: 1, source: 'definition' },
  'gear-efficiency': { in: 'geared', is: 0.95, off: 0.04, source: PRACTICE },
  'gear-mass': { in: 'geared', is: 0, source: 'assumed part of the vehicle' },
  'shaft-efficiency': { in: 'bare', is: 1, source: 'none between motor and propeller' },
  'no-wake': { in: 'bare', is: 0, source: 'open water or air' },
  'no-deduction': { in: 'bare', is: 0, source: 'open water or air' },
  'propeller-inertia': { in: 'bare', is: 0.09 * 0.2286 ** 5, off: '80 %', source: PRACTICE },
  'screw-inertia': { in: 'boat', is: 5 * 0.04 ** 5, off: '150 %', source: 'H. Schwanecke, 1963' },
  'coefficient-error': { in: 'table in water', is: 1, off: '5 %', own: '0.001 %', source: PRACTICE },
  'air-coefficient-error': { in: 'table', is: 1, off: '15 %', source: UIUC },
  'air-power-coefficient-error': { in: 'table', is: 1, off: '10 %', source: UIUC },
  'power-coefficient-error': { in: 'table in water', is: 1, off: '5 %', own: '0.001 %', source: PRACTICE },
  'thrust-scatter': { in: 'points apart', is: SCATTER, source: 'the measured points' },
  'power-scatter': { in: 'carried', is: 0, source: 'the measured points' },
  'written-thrust-error': { in: 'one point', is: THRUST, within: 1e-6, source: 'definition' },
  'written-power-error': { in: 'one point', is: TORQUE, within: 1e-6, source: 'definition' },
  'fitted-thrust-error': { in: 'points apart', is: 1, off: percent(2 * SCATTER), source: FITTED },
  'fitted-power-error': { in: 'points apart', is: 1, off: '5 %', source: FITTED },
  'one-point-thrust-error': { in: 'one point', is: 1, off: percent(Math.hypot(0.12, THRUST)), source: 'four propellers on a thrust stand' },
  'one-point-power-error': { in: 'one point', is: 1, off: percent(Math.hypot(0.1, TORQUE)), source: UIUC },
  'reach-error': { in: 'carried', is: 0.38, source: 'definition' },
  'carried-reach': { in: 'carried', is: 0, off: 0.38, source: UIUC },
  'carried-thrust-error': { in: 'carried', is: 1, off: percent(Math.hypot(0.15, THRUST)), source: UIUC },
  'carried-power-error': { in: 'carried', is: 1, off: percent(Math.hypot(0.2, TORQUE)), source: UIUC },
  // a merit of 0.55 ± 0.25: power goes with its inverse, thrust with its power of two thirds; 0.25/0.55 is 45 %, 1.45^⅔ is 1.28
  'merit-power-error': { in: 'thrust alone', is: 1, off: '45 %', source: 'eight propellers' },
  'merit-thrust-error': { in: 'torque alone', is: 1, off: '30 %', source: 'eight propellers' },
  'marine-thrust-error': { in: 'boat', is: 1, off: '5 %', source: PRACTICE },
  'marine-power-error': { in: 'boat', is: 1, off: '10 %', source: PRACTICE },
  'blade-angle': { in: 'set', is: 'found', source: 'definition' },
  'blade-angle-error': { in: 'family', is: 3 * DEGREE, source: 'definition' },
  'blade-stations-angle': { in: 'stations', is: 0, off: 3.4 * DEGREE, source: UIUC },
  'blade-stations-and-pitch-angle': { in: 'stations and pitch', is: 0, off: 2.7 * DEGREE, source: UIUC },
  'blade-family-angle': { in: 'family', is: 0, off: 3 * DEGREE, source: UIUC },
  'blade-assumed-family-angle': { in: 'bare', is: 0, off: 4 * DEGREE, source: UIUC },
  'blade-thrust-error': { in: 'bare', is: 1, off: '16 %', source: 'a swept-back blade pulls a sixth less' },
  'blade-power-error': { in: 'bare', is: 1, off: '10 %', source: UIUC },
  'blade-set-angle': { in: 'set', is: 'found', off: 'found', source: UIUC },
  'blade-set-thrust-error': { in: 'set', is: 1, off: percent(Math.hypot(0.11, THRUST)), source: UIUC },
  'blade-set-power-error': { in: 'set', is: 1, off: percent(Math.hypot(0.15, TORQUE)), source: UIUC },
  'screw-area': { in: 'boat', is: 0.5, off: '20 %', source: PRACTICE },
  'screw-immersion': { in: 'boat', is: 0.03, source: PRACTICE },
  // saturation pressure at 15 °C: steam tables (IAPWS-IF97, from memory)
  'fresh-vapour-pressure': { in: 'boat', is: 1705.8, within: 1e-3, source: 'ITTC 7.5-02-01-03' },
  'sea-vapour-pressure': { in: 'boat at sea', is: 1705.8 * RAOULT, within: 3e-3, source: 'ITTC 7.5-02-01-03' },
  'tyre-grip': { in: 'car', is: 0.9, off: '25 %', source: PRACTICE },
  'all-wheels-driven': { in: 'car', is: 1, source: 'all wheels driven' },
  'no-inertia': { in: 'car', is: 0, source: 'assumed small' },
  // the airframe, one pack, two motors
  'all-up-mass': { in: 'wing', is: 1 + 0.2 + 2 * 0.066, source: 'definition' },
  'drive-count': { in: 'wing', is: 2, source: 'definition' },
  'on-the-bench': { in: 'bare', is: 1, source: 'definition' },
  'added-mass': { in: 'boat', is: 0.08, off: 0.04, source: PRACTICE },
  'no-added-mass': { in: 'car', is: 0, source: 'definition' },
  'drag-error': { in: 'car', is: 1, off: '10 %', source: PRACTICE },
  'no-drag-area': { in: 'car', is: 0, source: 'definition' },
  'wing-drag-area': { in: 'wing', is: 0.03 * 0.4, source: 'definition' },
  'induced-factor': { in: 'wing', is: 1 / (Math.PI * 8 * 0.8 * 0.4), source: 'J. D. Anderson, Introduction to Flight, ch. 5' },
  'no-wing': { in: 'bare', is: [0, 1], source: 'definition' },
  'span-efficiency': { in: 'wing', is: 0.8, off: '10 %', source: PRACTICE },
  'zero-lift-drag': { in: 'wing', is: 0.03, off: '25 %', source: PRACTICE },
  'most-lift': { in: 'wing', is: 1.2, off: '15 %', source: PRACTICE },
  'lift-area': { in: 'wing', is: 1.2 * 0.4, source: 'definition' },
  'no-rolling': { in: 'boat', is: 0, source: 'definition' },
};

holdRules('rules for gear, propeller, wheel and vehicle', DRIVES, ROWS);
