/** Rules for the motor’s heat paths. */
import { definition, fixed, type Rule, rule } from './rule.js';
import { PRACTICE, percent, points, SURE } from './spreads.js';

/** Winding to a slot's wall through liner, varnish and air [W/(m²·K)]; makes 900 W/(m²·K) × D × stack of 12 slots, 700 of an inrunner's 6. */
const SLOT_WALL = 120;
/** Both walls of slots as deep as a quarter of the stator's diameter, and their floor, over D × stack [1]. */
const outrunnerWalls = (slots: number): number => 0.5 * slots + 0.45 * Math.PI;
/** Slots outside a bore of 0.55 of the slot diameter, and their back. */
const inrunnerWalls = (slots: number): number => 0.45 * slots + Math.PI;
const SLOT_SOURCE = 'geometry; the coefficient is common practice, no published source';
/** Of the printed resistance from winding to housing, what the press fit takes; stator and housing are nearly one body [1]. */
const STATOR_SHARE = 0.05;
/** Magnets 0.25 of a motor's mass at 450, can and ends 0.25 at 650 J/(kg·K): the magnets' part of both [1]. */
const BELL_MAGNETS = 450 / (450 + 650);

/** Base under fins, wall of a tube [m]. */
const BASE = 1.5e-3;
const WALL = 0.5e-3;

export const HEAT_RULES = {
  'inrunner-stack': rule(
    'stack length: can less 15 mm of end bells and end turns',
    'length',
    (x) => Math.max(0.35 * x[0], x[0] - 0.015),
    percent(12),
    PRACTICE,
    percent(6),
  ),
  'outrunner-stack': rule('stack length, 0.47 of the can', 'length', (x) => 0.47 * x[0], percent(20), PRACTICE, percent(8)),
  'inrunner-stator-diameter': rule('slot diameter, 0.89 of the can', 'length', (x) => 0.89 * x[0], percent(5), PRACTICE),
  'outrunner-stator-diameter': rule('stator diameter, 0.83 of the can', 'length', (x) => 0.83 * x[0], percent(5), PRACTICE),
  'pole-count': fixed('number of magnet poles', 'ratio', SURE, 'given, or as most motors of this layout have'),
  'inrunner-slot-contact': rule(
    'winding to stator: 120 W/(m²·K) on the walls of 1.5 slots a pole',
    'conductance',
    (x) => SLOT_WALL * inrunnerWalls(1.5 * x[2]) * x[0] * x[1],
    percent(75),
    SLOT_SOURCE,
    percent(20),
  ),
  'outrunner-slot-contact': rule(
    'winding to stator: 120 W/(m²·K) on the walls of 12 slots to 14 poles',
    'conductance',
    (x) => SLOT_WALL * outrunnerWalls((12 / 14) * x[2]) * x[0] * x[1],
    percent(100),
    SLOT_SOURCE,
    percent(25),
  ),
  'winding-of-housing': rule(
    'winding to stator, of the printed way from winding to housing nearly all',
    'conductance',
    (x) => x[0] / (1 - STATOR_SHARE),
    SURE,
    'the two in series are the printed way',
  ),
  'stator-of-housing': rule(
    'stator to can, a twentieth of the printed way from winding to housing',
    'conductance',
    (x) => x[0] / STATOR_SHARE,
    SURE,
    'the two in series are the printed way',
  ),
  'press-fit': rule(
    'stator to can through a press fit: 3000 W/(m²·K)',
    'conductance',
    (x) => 3000 * Math.PI * x[0] * x[1],
    percent(100),
    PRACTICE,
    percent(20),
  ),
  'no-path': fixed('no such path in this layout', 'conductance', SURE, definition),
  'inrunner-gap': rule(
    'stator to rotor across the gap: 80 W/(m²·K)',
    'conductance',
    (x) => 80 * Math.PI * 0.55 * x[0] * x[1],
    percent(60),
    PRACTICE,
  ),
  'outrunner-gap': rule(
    'stator to magnets across the gap: 100 W/(m²·K)',
    'conductance',
    (x) => 100 * Math.PI * x[0] * x[1],
    percent(60),
    PRACTICE,
  ),
  'bonded-magnets': rule('magnets to the bell: 2000 W/(m²·K)', 'conductance', (x) => 2000 * Math.PI * x[0] * x[1], percent(100), PRACTICE),
  'shaft-and-bearings': fixed('rotor to can through shaft and bearings', 'conductance', percent(70), PRACTICE),
  'bearing-tube': rule(
    'stator to mount through the bearing tube: 3 W/(m·K) × can diameter',
    'conductance',
    (x) => 3 * x[0],
    percent(150),
    PRACTICE,
    percent(30),
  ),
  flange: rule('can to mount through its flange: 3 W/(m·K) × can diameter', 'conductance', (x) => 3 * x[0], percent(80), PRACTICE),
  'mount-faces': rule(
    'both faces of a mount as wide as the motor, 2·π·D²/4',
    'area',
    (x) => 0.5 * Math.PI * x[0] ** 2,
    percent(80),
    PRACTICE,
    percent(30),
  ),
  'both-faces': rule('both faces of the plate', 'area', (x) => 2 * x[0], SURE, 'geometry'),
  'mount-emissivity': fixed('emissivity of the mount', 'fraction', points(0.3), PRACTICE),
  'every-speed': fixed('it holds at every speed of the shaft', 'angularSpeed', SURE, definition),
  'can-side': rule('side of the can, π·D·L', 'area', (x) => Math.PI * x[0] * x[1], SURE, 'geometry'),
  uncovered: fixed('part of the can’s side that is covered', 'fraction', SURE, definition),
  'sink-coverage': fixed('part of the can’s side under the heat sink', 'fraction', points(0.2), PRACTICE),
  'sink-joint': rule(
    'joint under the heat sink: 3000 W/(m²·K) with paste',
    'conductance',
    (x) => 3000 * x[0] * x[1],
    percent(100),
    PRACTICE,
  ),
  'fin-conductivity': fixed(
    'conductivity of the fins',
    'thermalConductivity',
    percent(15),
    'handbook: aluminium alloy 200, copper 390, steel 45 W/(m·K)',
  ),
  'coil-joint': rule('joint between tube and motor: 5 W/(m·K) × length', 'conductance', (x) => 5 * x[0], percent(100), PRACTICE),
  'coil-speed': fixed('speed of the water in the tube over the boat’s', 'fraction', points(0.2), PRACTICE),
  'fin-count': fixed('number of fins', 'ratio', SURE, definition),
  'fins-round-can': rule('fins and their base of 1.5 mm round the can', 'length', (x) => x[0] + BASE, SURE, PRACTICE),
  'sink-mass': rule(
    'mass of the heat sink, aluminium, on a base of 1.5 mm',
    'mass',
    (x) => 2700 * x[3] * (x[0] * x[1] * x[2] + BASE * x[4]),
    percent(25),
    'density of aluminium 2700 kg/m³, handbook',
  ),
  'tube-round-can': rule('tube with walls of 0.5 mm round the can', 'length', (x) => x[0] + 2 * WALL, SURE, PRACTICE),
  'tube-mass': rule(
    'mass of the tube, brass with walls of 0.5 mm, and of the water in it',
    'mass',
    (x) => Math.PI * x[1] * (8500 * WALL * (x[0] + WALL) + 1000 * 0.25 * x[0] ** 2),
    percent(30),
    'density of brass 8500 kg/m³, handbook',
  ),
  'jacket-round-can': fixed('a water jacket round the can, one side', 'length', percent(40), PRACTICE),
  'jacket-mass': rule(
    'mass of the water jacket and the water in it, 5 kg per square metre of the can’s side',
    'mass',
    (x) => 5 * Math.PI * x[0] * x[1],
    percent(50),
    PRACTICE,
  ),
  'nothing-round-can': fixed('nothing stands round the can', 'length', SURE, definition),
  'nothing-added': fixed('no cooling that weighs', 'mass', SURE, definition),
  thickest: rule('the thickest of what stands round the can', 'length', (x) => Math.max(...x), SURE, definition),
  sum: rule('mass of all cooling', 'mass', (x) => x.reduce((total, each) => total + each, 0), SURE, definition),
  'end-place': fixed('where the fixed end is between stator and mount', 'fraction', points(0.3), PRACTICE),
  'can-ends': rule('both ends of the can, π·D²/2', 'area', (x) => 0.5 * Math.PI * x[0] ** 2, SURE, 'geometry'),
  'can-emissivity': fixed('emissivity of the can', 'fraction', points(0.3), PRACTICE),
  'convection-error': fixed('factor on the can’s convection', 'ratio', percent(35), 'spread of handbook correlations', percent(10)),
  'through-flow': rule(
    'air through an open motor at 10 m/s: 120 W/(m²·K) on 2π × stator diameter × stack',
    'conductance',
    (x) => 120 * 2 * Math.PI * x[0] * x[1],
    percent(150),
    'end windings h = 15.5·(1 + 0.29·v) W/(m²·K) on 2.2 times that area makes 133: P. Mellor, D. Roberts, D. Turner, IEE Proc. B 138, 1991 (from memory)',
    percent(50),
  ),
  'closed-motor': fixed('no air through a motor whose can does not turn', 'fraction', SURE, definition),
  openness: fixed('share of the free air that reaches the motor', 'fraction', points(0.2), PRACTICE),
  'winding-capacity': rule(
    'heat capacity of the winding, 0.20 of the motor’s mass at 390 J/(kg·K)',
    'heatCapacity',
    (x) => 0.2 * 390 * x[0],
    percent(35),
    PRACTICE,
    percent(12),
  ),
  'stator-capacity': rule(
    'heat capacity of the stator iron, 0.30 of the mass at 460 J/(kg·K)',
    'heatCapacity',
    (x) => 0.3 * 460 * x[0],
    percent(30),
    PRACTICE,
    percent(12),
  ),
  'can-capacity': rule(
    'heat capacity of can and ends, 0.25 of the mass at 650 J/(kg·K)',
    'heatCapacity',
    (x) => 0.25 * 650 * x[0],
    percent(35),
    PRACTICE,
    percent(12),
  ),
  'magnet-capacity': rule(
    'heat capacity of rotor and magnets, 0.25 of the mass at 450 J/(kg·K)',
    'heatCapacity',
    (x) => 0.25 * 450 * x[0],
    percent(30),
    PRACTICE,
    percent(12),
  ),
  'bell-capacity': rule(
    'of the given heat capacity of the bell, what is not magnets',
    'heatCapacity',
    (x) => (1 - BELL_MAGNETS) * x[0],
    SURE,
    PRACTICE,
  ),
  'bell-magnets-capacity': rule(
    'of the given heat capacity of the bell, the magnets’ share',
    'heatCapacity',
    (x) => BELL_MAGNETS * x[0],
    SURE,
    PRACTICE,
  ),
  'jacket-rest': fixed('share of the water jacket’s conductance left at rest', 'fraction', points(0.06), PRACTICE),
  'still-air': fixed('air speed at the motor', 'speed', SURE, 'assumed still'),
  'no-share': fixed('share of the vehicle’s speed that reaches the motor', 'fraction', SURE, 'assumed closed in'),
  'flight-share': fixed('share of the flight speed that reaches the motor', 'fraction', points(0.3), PRACTICE),
  'slipstream-share': fixed('share of the slipstream that reaches the motor', 'fraction', points(0.3), PRACTICE),
} as const satisfies Record<string, Rule>;
