/** Rules for the motor’s heat paths. @module */

import { definition, fixed, measurable, type Rule, rule, scaled, unmeasured, value } from './rule.js';
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

export const HEAT_RULES = {
  'inrunner-stack': rule(
    'stack length: can less 15 mm of end bells and end turns',
    'length',
    (x) => Math.max(0.35 * x[0], x[0] - 0.015),
    measurable('stator-size', 'motor.stack_length', percent(12), percent(6)),
    PRACTICE,
  ),
  'outrunner-stack': scaled(
    0.47,
    (k) => `stack length, ${k} of the can`,
    'length',
    (k, x) => k * x[0],
    measurable('stator-size', 'motor.stack_length', percent(20), percent(8)),
    PRACTICE,
  ),
  'inrunner-stator-diameter': scaled(
    0.89,
    (k) => `slot diameter, ${k} of the can`,
    'length',
    (k, x) => k * x[0],
    measurable('stator-size', 'motor.stator_diameter', percent(5)),
    PRACTICE,
  ),
  'outrunner-stator-diameter': scaled(
    0.83,
    (k) => `stator diameter, ${k} of the can`,
    'length',
    (k, x) => k * x[0],
    measurable('stator-size', 'motor.stator_diameter', percent(5)),
    PRACTICE,
  ),
  'pole-count': fixed('number of magnet poles', 'ratio', SURE, 'given, or as most motors of this layout have'),
  'inrunner-slot-contact': rule(
    'winding to stator: 120 W/(m²·K) on the walls of 1.5 slots a pole',
    'conductance',
    (x) => SLOT_WALL * inrunnerWalls(1.5 * x[2]) * x[0] * x[1],
    measurable('slot-contact', 'motor.thermal.winding_to_stator', percent(75), percent(20)),
    SLOT_SOURCE,
  ),
  'outrunner-slot-contact': rule(
    'winding to stator: 120 W/(m²·K) on the walls of 12 slots to 14 poles',
    'conductance',
    (x) => SLOT_WALL * outrunnerWalls((12 / 14) * x[2]) * x[0] * x[1],
    measurable('slot-contact', 'motor.thermal.winding_to_stator', percent(100), percent(25)),
    SLOT_SOURCE,
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
  'press-fit': scaled(
    3000,
    (k) => `stator to can through a press fit: ${k} W/(m²·K)`,
    'conductance',
    (k, x) => k * Math.PI * x[0] * x[1],
    measurable('way-within', 'motor.thermal.stator_to_can', percent(100), percent(20)),
    PRACTICE,
  ),
  'no-path': value('no such path in this layout', 'conductance', 0, SURE, definition),
  'inrunner-gap': scaled(
    80,
    (k) => `stator to rotor across the gap: ${k} W/(m²·K)`,
    'conductance',
    (k, x) => k * Math.PI * 0.55 * x[0] * x[1],
    unmeasured(percent(60)),
    PRACTICE,
  ),
  'outrunner-gap': scaled(
    100,
    (k) => `stator to magnets across the gap: ${k} W/(m²·K)`,
    'conductance',
    (k, x) => k * Math.PI * x[0] * x[1],
    unmeasured(percent(60)),
    PRACTICE,
  ),
  'bonded-magnets': scaled(
    2000,
    (k) => `magnets to the bell: ${k} W/(m²·K)`,
    'conductance',
    (k, x) => k * Math.PI * x[0] * x[1],
    unmeasured(percent(100)),
    PRACTICE,
  ),
  'shaft-and-bearings': value('rotor to can through shaft and bearings', 'conductance', 0.05, unmeasured(percent(70)), PRACTICE),
  'bearing-tube': scaled(
    3,
    (k) => `stator to mount through the bearing tube: ${k} W/(m·K) × can diameter`,
    'conductance',
    (k, x) => k * x[0],
    measurable('way-to-air', 'cooling.mount.conductance', percent(150), percent(30)),
    PRACTICE,
  ),
  flange: scaled(
    3,
    (k) => `can to mount through its flange: ${k} W/(m·K) × can diameter`,
    'conductance',
    (k, x) => k * x[0],
    measurable('way-within', 'cooling.mount.conductance', percent(80)),
    PRACTICE,
  ),
  'mount-faces': rule(
    'both faces of a mount as wide as the motor, 2·π·D²/4',
    'area',
    (x) => 0.5 * Math.PI * x[0] ** 2,
    measurable('way-to-air', null, percent(80), percent(30)),
    PRACTICE,
  ),
  'both-faces': rule('both faces of the plate', 'area', (x) => 2 * x[0], SURE, 'geometry'),
  'mount-emissivity': value('emissivity of the mount', 'fraction', 0.8, measurable('way-to-air', null, points(0.3)), PRACTICE),
  'every-speed': value('it holds at every speed of the shaft', 'angularSpeed', 0, SURE, definition),
  'can-side': rule('side of the can, π·D·L', 'area', (x) => Math.PI * x[0] * x[1], SURE, 'geometry'),
  'convective-share': value(
    'share of what controller or pack give off that follows the air’s speed',
    'fraction',
    0.5,
    unmeasured(points(0.15)),
    PRACTICE,
  ),
  'holds-as-given': value('a given conductance to the air holds as it is', 'fraction', 0, SURE, definition),
  'still-compartment': value('air speed in the compartment', 'speed', 0, SURE, 'assumed still'),
  'closed-compartment': value('share of the vehicle’s speed in the compartment', 'fraction', 0, SURE, 'assumed closed in'),
  'compartment-share': value(
    'share of the flight speed that passes controller and pack',
    'fraction',
    0.1,
    unmeasured(points(0.1)),
    PRACTICE,
  ),
  'end-place': value('where the fixed end is between stator and mount', 'fraction', 0.5, unmeasured(points(0.3)), PRACTICE),
  'can-ends': rule('both ends of the can, π·D²/2', 'area', (x) => 0.5 * Math.PI * x[0] ** 2, SURE, 'geometry'),
  'can-emissivity': value(
    'emissivity of the can',
    'fraction',
    0.6,
    measurable('way-within', 'motor.thermal.can_to_air', points(0.3)),
    PRACTICE,
  ),
  'convection-error': value(
    'factor on the can’s convection',
    'ratio',
    1,
    measurable('way-to-air', 'motor.thermal.can_to_air', percent(35), percent(10)),
    'spread of handbook correlations',
  ),
  'through-flow': scaled(
    120,
    (k) => `air through an open motor at 10 m/s: ${k} W/(m²·K) on 2π × stator diameter × stack`,
    'conductance',
    (k, x) => k * 2 * Math.PI * x[0] * x[1],
    measurable('way-to-air', 'motor.thermal.stator_to_air.conductance', percent(150), percent(50)),
    'end windings h = 15.5·(1 + 0.29·v) W/(m²·K) on 2.2 times that area makes 133: P. Mellor, D. Roberts, D. Turner, IEE Proc. B 138, 1991 (from memory)',
  ),
  'closed-motor': value('no air through a motor whose can does not turn', 'fraction', 0, SURE, definition),
  openness: value('share of the free air that reaches the motor', 'fraction', 1, measurable('way-within', null, points(0.2)), PRACTICE),
  'winding-capacity': rule(
    'heat capacity of the winding, 0.20 of the motor’s mass at 390 J/(kg·K)',
    'heatCapacity',
    (x) => 0.2 * 390 * x[0],
    measurable('winding-capacity', 'motor.thermal.winding_capacity', percent(35), percent(12)),
    PRACTICE,
  ),
  'stator-capacity': rule(
    'heat capacity of the stator iron, 0.30 of the mass at 460 J/(kg·K)',
    'heatCapacity',
    (x) => 0.3 * 460 * x[0],
    measurable('body-capacity', 'motor.thermal.stator_capacity', percent(30), percent(12)),
    PRACTICE,
  ),
  'can-capacity': rule(
    'heat capacity of can and ends, 0.25 of the mass at 650 J/(kg·K)',
    'heatCapacity',
    (x) => 0.25 * 650 * x[0],
    measurable('body-capacity', 'motor.thermal.can_capacity', percent(35), percent(12)),
    PRACTICE,
  ),
  'magnet-capacity': rule(
    'heat capacity of rotor and magnets, 0.25 of the mass at 450 J/(kg·K)',
    'heatCapacity',
    (x) => 0.25 * 450 * x[0],
    measurable('magnet-capacity', null, percent(30), percent(12)),
    PRACTICE,
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
  'still-air': value('air speed at the motor', 'speed', 0, SURE, 'assumed still'),
  'no-share': value('share of the vehicle’s speed that reaches the motor', 'fraction', 0, SURE, 'assumed closed in'),
  'flight-share': value('share of the flight speed that reaches the motor', 'fraction', 0.3, unmeasured(points(0.3)), PRACTICE),
  'slipstream-share': value('share of the slipstream that reaches the motor', 'fraction', 0.3, unmeasured(points(0.3)), PRACTICE),
} as const satisfies Record<string, Rule>;
