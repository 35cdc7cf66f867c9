/** Rules for what is fitted to cool the motor: sink, strap, fan, cowl, jacket, coil. @module */

import { byKind, definition, fixed, measurable, type Rule, rule, scaled, unmeasured, value } from './rule.js';
import { PRACTICE, percent, points, SURE } from './spreads.js';

/** Heat through a layer. */
const LAYER = 'k/t, Incropera et al., 6th ed., eq. 3.6; thickness and conductivity from makers’ sheets (from memory)';
/** Base under fins, wall of a tube [m]. */
const BASE = 1.5e-3;
const WALL = 0.5e-3;

export const COOLING_RULES = {
  uncovered: value('part of the can’s side that is covered', 'fraction', 0, SURE, definition),
  'sink-coverage': value('part of the can’s side under the heat sink', 'fraction', 0.6, unmeasured(points(0.2)), PRACTICE),
  'sink-joint': rule(
    'joint under the heat sink, coefficient × length × breadth',
    'conductance',
    (x) => x[2] * x[0] * x[1],
    SURE,
    'geometry',
  ),
  // k/t of what fills the joint; a dry one is a gap of air of 0.026 W/(m·K)
  'joint-paste': value('coefficient of a joint with paste', 'heatTransferCoefficient', 3000, unmeasured(percent(100)), PRACTICE),
  'joint-tape': value(
    'coefficient of a joint with thermal tape, 0.25 mm of 0.6 W/(m·K)',
    'heatTransferCoefficient',
    0.6 / 0.25e-3,
    unmeasured(percent(60)),
    LAYER,
  ),
  'joint-pad': value(
    'coefficient of a joint with a pad, 1 mm of 1.5 W/(m·K)',
    'heatTransferCoefficient',
    1.5 / 1e-3,
    unmeasured(percent(60)),
    LAYER,
  ),
  'joint-dry': value(
    'coefficient of a dry joint, a gap of 0.1 mm of air',
    'heatTransferCoefficient',
    0.026 / 0.1e-3,
    unmeasured(percent(150)),
    LAYER,
  ),
  strap: rule(
    'strap to the hull: length/(conductivity × cross-section) and its joints in series',
    'conductance',
    (x) => 1 / (x[1] / (x[2] * x[0]) + 1 / x[3]),
    SURE,
    'Fourier’s law, Incropera et al., 6th ed., eq. 3.6',
  ),
  'strap-conductivity': byKind(
    'conductivity of the strap',
    'thermalConductivity',
    { copper: 390, aluminium: 200 },
    unmeasured(percent(10)),
    'handbook: copper 390, aluminium 200 W/(m·K)',
  ),
  // of one that is not asked for more than it carries
  'pipe-conductivity': value(
    'conductivity that a heat pipe stands for',
    'thermalConductivity',
    10_000,
    unmeasured(percent(200)),
    'makers’ figures from 5,000 to 50,000 W/(m·K) (from memory)',
  ),
  'strap-joints': value('both joints of the strap, some 4 cm² each with paste', 'conductance', 0.6, unmeasured(percent(100)), PRACTICE),
  'copper-strap-mass': rule(
    'mass of a copper strap or pipe',
    'mass',
    (x) => 8900 * x[0] * x[1],
    measurable('mass', null, percent(10)),
    'density of copper, handbook',
  ),
  'aluminium-strap-mass': rule(
    'mass of an aluminium strap',
    'mass',
    (x) => 2700 * x[0] * x[1],
    measurable('mass', null, percent(10)),
    'density of aluminium, handbook',
  ),
  'fan-air': rule(
    'air of a fan: 0.6 of its free flow through the disc it sweeps, less a hub of 0.45 of its diameter',
    'speed',
    (x) => (0.6 * x[0]) / (0.25 * Math.PI * x[1] ** 2 * (1 - 0.45 ** 2)),
    unmeasured(percent(35)),
    'continuity; the share of the free flow is common practice, no published source',
  ),
  'fan-beyond-can': rule('what a fan is wider than the can, one side', 'length', (x) => Math.max(0, 0.5 * (x[0] - x[1])), SURE, 'geometry'),
  'fan-mass': scaled(
    10,
    (k) => `mass of a small fan, ${k} kg/m² × diameter squared`,
    'mass',
    (k, x) => k * x[0] ** 2,
    measurable('mass', null, percent(40)),
    PRACTICE,
  ),
  'cowl-share': rule(
    'stream round a motor in a cowl: 0.6 of the inlet’s area over that of the gap, at most all of it',
    'fraction',
    (x) => Math.min(1, (0.6 * x[0]) / (Math.PI * (x[2] + x[1]) * x[1])),
    unmeasured(percent(35)),
    'continuity, discharge coefficient of a sharp-edged inlet (handbook)',
  ),
  'no-pump': value('no pump moves the water', 'speed', 0, SURE, definition),
  'no-scoop': value('the pump alone moves the water', 'fraction', 0, SURE, definition),
  'pump-speed': rule(
    'water in the tube, flow over its cross-section',
    'speed',
    (x) => x[0] / (0.25 * Math.PI * x[1] ** 2),
    SURE,
    'continuity',
  ),
  'fin-conductivity': byKind(
    'conductivity of the fins',
    'thermalConductivity',
    { aluminium: 200, copper: 390, steel: 45 },
    unmeasured(percent(15)),
    'handbook: aluminium alloy 200, copper 390, steel 45 W/(m·K)',
  ),
  'coil-joint': scaled(
    5,
    (k) => `joint between tube and motor: ${k} W/(m·K) × length`,
    'conductance',
    (k, x) => k * x[0],
    unmeasured(percent(100)),
    PRACTICE,
  ),
  'coil-speed': value('speed of the water in the tube over the boat’s', 'fraction', 0.25, unmeasured(points(0.2)), PRACTICE),
  'fin-count': fixed('number of fins', 'ratio', SURE, definition),
  'fins-round-can': rule('fins and their base of 1.5 mm round the can', 'length', (x) => x[0] + BASE, SURE, PRACTICE),
  'sink-mass': rule(
    'mass of the heat sink, aluminium, on a base of 1.5 mm',
    'mass',
    (x) => 2700 * x[3] * (x[0] * x[1] * x[2] + BASE * x[4]),
    measurable('mass', null, percent(25)),
    'density of aluminium 2700 kg/m³, handbook',
  ),
  'tube-round-can': rule('tube with walls of 0.5 mm round the can', 'length', (x) => x[0] + 2 * WALL, SURE, PRACTICE),
  'tube-mass': rule(
    'mass of the tube, brass with walls of 0.5 mm, and of the water in it',
    'mass',
    (x) => Math.PI * x[1] * (8500 * WALL * (x[0] + WALL) + 1000 * 0.25 * x[0] ** 2),
    measurable('mass', null, percent(30)),
    'density of brass 8500 kg/m³, handbook',
  ),
  'jacket-round-can': value('a water jacket round the can, one side', 'length', 3e-3, unmeasured(percent(40)), PRACTICE),
  'jacket-mass': scaled(
    5,
    (k) => `mass of the water jacket and the water in it, ${k} kg per square metre of the can’s side`,
    'mass',
    (k, x) => k * Math.PI * x[0] * x[1],
    measurable('mass', null, percent(50)),
    PRACTICE,
  ),
  'nothing-round-can': value('nothing stands round the can', 'length', 0, SURE, definition),
  'nothing-added': value('no cooling that weighs', 'mass', 0, SURE, definition),
  thickest: rule('the thickest of what stands round the can', 'length', (x) => Math.max(...x), SURE, definition),
  sum: rule('mass of all cooling', 'mass', (x) => x.reduce((total, each) => total + each, 0), SURE, definition),
  'jacket-rest': value(
    'share of the water jacket’s conductance left at rest',
    'fraction',
    0.12,
    measurable('jacket-at-rest', 'cooling.water_jacket.rest_share', points(0.06)),
    PRACTICE,
  ),
} as const satisfies Record<string, Rule>;
