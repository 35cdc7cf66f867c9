/** The catalogue of rules that fill gaps: law, how far it may be off (common to all candidates, and this candidate's own), where it holds, source. */

import { airDensity, airKinematicViscosity } from '../media/air.js';
import { pressureAtAltitude } from '../media/standard-atmosphere.js';
import { waterDensity, waterKinematicViscosity } from '../media/water.js';
import { noLoadSpeed } from '../parts/motor.js';
import { BLADE_ELEMENT_TOLERANCE } from '../parts/propeller/blade-table.js';
import { wiringResistance } from '../parts/wiring.js';
import { SECONDS_PER_HOUR } from '../quantities/constants.js';
import type { Dimension, Spread } from '../quantities/index.js';
import { PRACTICE, percent, points, SURE } from './spreads.js';

export interface Rule {
  /** What the rule finds, in words. */
  readonly words: string;
  readonly dimension: Dimension;
  /** Value from the inputs, both SI. A default has no inputs; its value stands in the datum. */
  readonly law: (x: readonly number[]) => number;
  /** Error common to all candidates that use the rule, and the smaller part that is each candidate's own. */
  readonly common: Spread;
  readonly own: Spread;
  readonly source: string;
}

const rule = (words: string, dimension: Dimension, law: Rule['law'], common: Spread, source: string, own: Spread = SURE): Rule => ({
  words,
  dimension,
  law,
  common,
  own,
  source,
});
const fixed = (words: string, dimension: Dimension, common: Spread, source: string, own: Spread = SURE): Rule =>
  rule(words, dimension, () => Number.NaN, common, source, own);
const definition = 'definition';
const PROPELLER_ERRORS = 'errors against the UIUC Propeller Database, docs/theory.md';

/** Loss torque at no load: kt·i0 [N·m], and the speed it was taken at [rad/s]; inputs kt, R, i0, V0. */
const noLoadTorque = (x: readonly number[]): number => x[0] * x[2];
const speedAtNoLoad = (x: readonly number[]): number => noLoadSpeed({ torqueConstant: x[0], resistance: x[1] }, x[3], x[2]);

export const RULES = {
  // surroundings
  'standard-day': fixed('air temperature of a standard day', 'temperature', points(10), 'ISO 2533:1975'),
  'sea-level': fixed('altitude', 'length', SURE, 'assumed at sea level'),
  'pressure-at-altitude': rule('air pressure at altitude', 'pressure', (x) => pressureAtAltitude(x[0]), percent(1), 'ISO 2533:1975'),
  'as-the-air': rule('as the air outside', 'temperature', (x) => x[0], SURE, PRACTICE),
  'mild-water': fixed('water temperature', 'temperature', points(6), PRACTICE),
  'air-density': rule('density of air', 'density', (x) => airDensity(x[0], x[1]), SURE, 'ideal gas; ISO 2533:1975'),
  'air-viscosity': rule(
    'kinematic viscosity of air',
    'kinematicViscosity',
    (x) => airKinematicViscosity(x[0], x[1]),
    SURE,
    'Sutherland; ISO 2533:1975',
  ),
  'fresh-water-density': rule('density of fresh water', 'density', (x) => waterDensity('fresh', x[0]), SURE, 'ITTC 7.5-02-01-03'),
  'sea-water-density': rule('density of sea water', 'density', (x) => waterDensity('sea', x[0]), SURE, 'ITTC 7.5-02-01-03'),
  'fresh-water-viscosity': rule(
    'viscosity of fresh water',
    'kinematicViscosity',
    (x) => waterKinematicViscosity('fresh', x[0]),
    SURE,
    'ITTC 7.5-02-01-03',
  ),
  'sea-water-viscosity': rule(
    'viscosity of sea water',
    'kinematicViscosity',
    (x) => waterKinematicViscosity('sea', x[0]),
    SURE,
    'ITTC 7.5-02-01-03',
  ),

  // battery
  'full-charge': fixed('charge at the start', 'fraction', SURE, 'assumed full'),
  'cell-resistance-lithium-polymer': rule(
    'cell resistance from capacity, 14 mΩ·Ah',
    'resistance',
    (x) => (14e-3 * SECONDS_PER_HOUR) / x[0],
    percent(40),
    PRACTICE,
    percent(15),
  ),
  'cell-resistance-lithium-ion': rule(
    'cell resistance from capacity, 70 mΩ·Ah',
    'resistance',
    (x) => (70e-3 * SECONDS_PER_HOUR) / x[0],
    percent(50),
    PRACTICE,
    percent(15),
  ),
  'cell-resistance-lithium-iron-phosphate': rule(
    'cell resistance from capacity, 40 mΩ·Ah',
    'resistance',
    (x) => (40e-3 * SECONDS_PER_HOUR) / x[0],
    percent(50),
    PRACTICE,
    percent(15),
  ),
  'cell-resistance-nickel-metal-hydride': rule(
    'cell resistance from capacity, 14 mΩ·Ah',
    'resistance',
    (x) => (14e-3 * SECONDS_PER_HOUR) / x[0],
    percent(50),
    PRACTICE,
    percent(15),
  ),
  'slow-resistance': rule(
    'slow part of the cell resistance, 0.75 of the ohmic part',
    'resistance',
    (x) => 0.75 * x[0],
    percent(50),
    PRACTICE,
  ),
  'slow-time': fixed('time constant of the slow part', 'time', percent(60), PRACTICE),
  'resistance-activation': fixed(
    'rise of cell resistance in the cold (activation temperature)',
    'temperatureDifference',
    percent(40),
    PRACTICE,
  ),
  'open-circuit-error': fixed(
    'error of the open-circuit curve',
    'voltage',
    points(0.03),
    'spread between published curves of one chemistry',
  ),
  'pack-mass': rule(
    'pack mass from its energy, 140 W·h/kg',
    'mass',
    (x) => (x[0] * x[1]) / (140 * SECONDS_PER_HOUR),
    percent(25),
    PRACTICE,
  ),
  'nominal-voltage': fixed('nominal voltage of the pack', 'voltage', SURE, definition),
  'chemistry-cutoff': fixed('lowest loaded cell voltage', 'voltage', SURE, PRACTICE),
  'rated-current': rule('battery current from the discharge rating', 'current', (x) => x[0] * x[1], SURE, definition),
  'cell-heat-capacity': rule('heat capacity of the pack, 1000 J/(kg·K)', 'heatCapacity', (x) => 1000 * x[0], percent(15), PRACTICE),
  'cells-to-air': rule(
    'pack to air: 8 W/(m²·K) on the surface of a block of 2 g/cm³',
    'conductance',
    (x) => 8 * 6.6 * (x[0] / 2000) ** (2 / 3),
    percent(60),
    PRACTICE,
  ),

  // wiring and controller
  'wiring-from-gauge': rule(
    'wiring resistance from gauge, length both ways and connectors',
    'resistance',
    (x) => wiringResistance(x[1], x[0], x[2], x[3]),
    percent(15),
    'ASTM B258, IEC 60028',
  ),
  'connector-contact': fixed('contact resistance of a pair of connectors', 'resistance', percent(60), PRACTICE),
  'connector-count': fixed('pairs of connectors', 'ratio', SURE, PRACTICE),
  'wire-area': fixed('wire cross-section', 'wireGauge', percent(30), PRACTICE),
  'wire-length': fixed('wire length one way', 'length', percent(50), PRACTICE),
  'path-resistance': fixed('controller path resistance', 'resistance', percent(60), PRACTICE),
  'device-temperature-coefficient': fixed(
    'rise of the controller’s resistance with temperature',
    'temperatureCoefficient',
    percent(40),
    PRACTICE,
  ),
  'switching-time': fixed('rise and fall time of the controller', 'time', percent(80), PRACTICE),
  'pwm-frequency': fixed('switching frequency', 'frequency', percent(60), PRACTICE),
  'voltage-loss': fixed('controller loss per volt squared, in W/V²', 'ratio', percent(80), PRACTICE),
  'voltage-loss-from-power': rule(
    'controller loss per volt squared from a loss at the pack’s nominal voltage',
    'ratio',
    (x) => x[0] / (x[1] * x[1]),
    SURE,
    definition,
  ),
  'dead-time': fixed('dead times of one switching cycle together', 'time', percent(80), PRACTICE),
  'dead-time-drop': fixed('drop of the body diodes in the dead times', 'voltage', percent(25), 'ROHM application note 64AN035E; silicon'),
  'no-derating': fixed('the controller does not derate', 'temperature', SURE, definition),
  'idle-current': fixed('controller idle current', 'current', percent(60), PRACTICE),
  'diode-drop': fixed('drop of the freewheeling diode', 'voltage', percent(30), PRACTICE),
  'no-diode': fixed('no diode drop: synchronous rectification', 'voltage', SURE, PRACTICE),
  'controller-mass': fixed('controller mass', 'mass', percent(60), PRACTICE),
  'controller-heat-capacity': rule(
    'heat capacity of the controller, 800 J/(kg·K)',
    'heatCapacity',
    (x) => 800 * x[0],
    percent(30),
    PRACTICE,
  ),
  'controller-to-air': rule(
    'controller to air: 0.9 W/K × (mass in kg)^⅔, in still air',
    'conductance',
    (x) => 0.9 * x[0] ** (2 / 3),
    percent(60),
    PRACTICE,
  ),

  // motor
  'kt-from-kv': rule('torque constant from Kv', 'torqueConstant', (x) => 1 / x[0], SURE, 'kt = 1/Kv'),
  'kt-from-back-emf': rule(
    'torque constant from Kv by peak back-EMF',
    'torqueConstant',
    (x) => Math.PI / 3 / x[0],
    SURE,
    'six-step drive runs π/3 faster than its peak EMF says',
  ),
  'line-from-phase': rule('resistance between lines from one phase of a star', 'resistance', (x) => 2 * x[0], SURE, definition),
  'copper-coefficient': fixed('temperature coefficient of copper', 'temperatureCoefficient', SURE, 'IEC 60028'),
  'flux-coefficient': fixed('temperature coefficient of magnet flux', 'temperatureCoefficient', percent(15), 'magnet makers’ tables'),
  'constant-loss-share': fixed('part of the no-load torque that does not depend on speed', 'fraction', points(0.25), PRACTICE),
  'friction-share': fixed('part of the constant loss torque that is bearing friction', 'fraction', points(0.2), PRACTICE),
  'constant-loss-torque': rule(
    'constant loss torque from one no-load point',
    'torque',
    (x) => noLoadTorque(x) * x[4],
    SURE,
    'kt·i0 split by an assumed share',
  ),
  'speed-loss-torque': rule(
    'loss torque per speed from one no-load point',
    'torquePerSpeed',
    (x) => (noLoadTorque(x) * (1 - x[4])) / speedAtNoLoad(x),
    SURE,
    'kt·i0 split by an assumed share',
  ),
  'constant-loss-from-two': rule(
    'constant loss torque from two no-load points',
    'torque',
    (x) => twoPoints(x).constant,
    SURE,
    'straight line through kt·i0 over speed',
  ),
  'speed-loss-from-two': rule(
    'loss torque per speed from two no-load points',
    'torquePerSpeed',
    (x) => twoPoints(x).slope,
    SURE,
    'straight line through kt·i0 over speed',
  ),
  'hysteresis-torque': rule('hysteresis torque', 'torque', (x) => x[0] * (1 - x[1]), SURE, 'constant loss torque less friction'),
  'friction-torque': rule('bearing friction torque', 'torque', (x) => x[0] * x[1], SURE, 'share of the constant loss torque'),
  'no-windage': fixed('windage torque per speed squared, counted in the loss per speed', 'torquePerSpeedSquared', SURE, PRACTICE),
  remanence: fixed('remanence of the magnets at 20 °C, in tesla', 'ratio', percent(4), 'magnet makers’ tables'),
  'grade-coercivity': fixed(
    'intrinsic coercivity of the grade at 20 °C, in A/m',
    'ratio',
    percent(5),
    'magnet makers’ tables; UH, EH, AH from memory',
  ),
  half: rule('radius, half of the diameter', 'length', (x) => 0.5 * x[0], SURE, definition),
  'magnet-gap': fixed('air gap between magnets and stator', 'length', percent(50), PRACTICE),
  'coercivity-coefficient': fixed(
    'temperature coefficient of intrinsic coercivity',
    'temperatureCoefficient',
    percent(20),
    'magnet makers’ tables',
  ),
  'magnet-loss-share': fixed('part of the iron loss that arises in the magnets', 'fraction', points(0.04), PRACTICE),
  'inrunner-inertia': rule(
    'rotor inertia, 0.3 of the mass on 0.19 of the diameter',
    'inertia',
    (x) => 0.5 * 0.3 * x[0] * (0.27 * x[1]) ** 2,
    percent(60),
    PRACTICE,
    percent(20),
  ),
  'outrunner-inertia': rule(
    'bell inertia, 0.45 of the mass at 0.46 of the diameter',
    'inertia',
    (x) => 0.45 * x[0] * (0.46 * x[1]) ** 2,
    percent(40),
    PRACTICE,
    percent(20),
  ),

  // heat of the motor
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
  'inrunner-slot-contact': rule(
    'winding to stator: 700 W/(m²·K) × slot diameter × stack',
    'conductance',
    (x) => 700 * x[0] * x[1],
    percent(75),
    PRACTICE,
    percent(20),
  ),
  'outrunner-slot-contact': rule(
    'winding to stator: 900 W/(m²·K) × stator diameter × stack',
    'conductance',
    (x) => 900 * x[0] * x[1],
    percent(75),
    PRACTICE,
    percent(20),
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
    'stator to mount through the bearing tube: 7 W/(m·K) × can diameter',
    'conductance',
    (x) => 7 * x[0],
    percent(80),
    PRACTICE,
    percent(30),
  ),
  flange: rule('can to mount through its flange: 3 W/(m·K) × can diameter', 'conductance', (x) => 3 * x[0], percent(80), PRACTICE),
  'can-side': rule('side of the can, π·D·L', 'area', (x) => Math.PI * x[0] * x[1], SURE, 'geometry'),
  'free-side': rule(
    'side of the can that no sink covers, π·D·L·(1 − coverage)',
    'area',
    (x) => Math.PI * x[0] * x[1] * (1 - x[2]),
    SURE,
    'geometry',
  ),
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
  'end-place': fixed('where the fixed end is between stator and mount', 'fraction', points(0.3), PRACTICE),
  'can-ends': rule('both ends of the can, π·D²/2', 'area', (x) => 0.5 * Math.PI * x[0] ** 2, SURE, 'geometry'),
  'can-emissivity': fixed('emissivity of the can', 'fraction', points(0.3), PRACTICE),
  'convection-error': fixed('factor on the can’s convection', 'ratio', percent(35), 'spread of handbook correlations', percent(10)),
  'through-flow': rule(
    'air through an open motor at 10 m/s: 120 W/(m²·K) on 2π × stator diameter × stack',
    'conductance',
    (x) => 120 * 2 * Math.PI * x[0] * x[1],
    percent(150),
    PRACTICE,
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
  'jacket-rest': fixed('share of the water jacket’s conductance left at rest', 'fraction', points(0.06), PRACTICE),
  'still-air': fixed('air speed at the motor', 'speed', SURE, 'assumed still'),
  'no-share': fixed('share of the vehicle’s speed that reaches the motor', 'fraction', SURE, 'assumed closed in'),
  'flight-share': fixed('share of the flight speed that reaches the motor', 'fraction', points(0.3), PRACTICE),
  'slipstream-share': fixed('share of the slipstream that reaches the motor', 'fraction', points(0.3), PRACTICE),

  // load
  'direct-drive': fixed('no gearbox', 'ratio', SURE, definition),
  'gear-efficiency': fixed('efficiency of the gearbox', 'fraction', points(0.04), PRACTICE),
  'gear-mass': fixed('mass of the gearbox', 'mass', SURE, 'assumed part of the vehicle'),
  'shaft-efficiency': fixed('efficiency of shaft and bearings', 'fraction', SURE, 'none between motor and propeller'),
  'no-wake': fixed('wake fraction', 'fraction', SURE, 'open water or air'),
  'no-deduction': fixed('thrust deduction', 'fraction', SURE, 'open water or air'),
  'propeller-inertia': rule('propeller inertia, 0.09 kg/m³ × diameter⁵', 'inertia', (x) => 0.09 * x[0] ** 5, percent(80), PRACTICE),
  'coefficient-error': fixed('factor on the propeller’s coefficients', 'ratio', percent(5), PRACTICE, percent(0.001)),
  'power-coefficient-error': fixed('factor on the propeller’s power coefficient', 'ratio', percent(5), PRACTICE, percent(0.001)),
  'marine-thrust-error': fixed('factor on the screw’s thrust coefficient at model size', 'ratio', percent(5), PRACTICE),
  'marine-power-error': fixed('factor on the screw’s torque coefficient at model size', 'ratio', percent(10), PRACTICE),
  'blade-stations-thrust-error': fixed(
    'factor on the thrust calculated from measured chord and twist',
    'ratio',
    percent(100 * BLADE_ELEMENT_TOLERANCE['stations'].thrust),
    PROPELLER_ERRORS,
  ),
  'blade-stations-power-error': fixed(
    'factor on the power calculated from measured chord and twist',
    'ratio',
    percent(100 * BLADE_ELEMENT_TOLERANCE['stations'].power),
    PROPELLER_ERRORS,
  ),
  'blade-stations-and-pitch-thrust-error': fixed(
    'factor on the thrust calculated from measured chord, twist and printed pitch',
    'ratio',
    percent(100 * BLADE_ELEMENT_TOLERANCE['stations-and-pitch'].thrust),
    PROPELLER_ERRORS,
  ),
  'blade-stations-and-pitch-power-error': fixed(
    'factor on the power calculated from measured chord, twist and printed pitch',
    'ratio',
    percent(100 * BLADE_ELEMENT_TOLERANCE['stations-and-pitch'].power),
    PROPELLER_ERRORS,
  ),
  'blade-family-thrust-error': fixed(
    'factor on the thrust calculated from diameter, pitch and family',
    'ratio',
    percent(100 * BLADE_ELEMENT_TOLERANCE['family'].thrust),
    PROPELLER_ERRORS,
  ),
  'blade-family-power-error': fixed(
    'factor on the power calculated from diameter, pitch and family',
    'ratio',
    percent(100 * BLADE_ELEMENT_TOLERANCE['family'].power),
    PROPELLER_ERRORS,
  ),
  'tyre-grip': fixed('grip of the tyres', 'ratio', percent(25), PRACTICE),
  'no-inertia': fixed('inertia of the wheels', 'inertia', SURE, 'assumed small'),
  'all-up-mass': rule('mass of vehicle, pack, motors and gearboxes', 'mass', (x) => x[0] + x[1] + x[4] * (x[2] + x[3]), SURE, definition),
  'drive-count': fixed('drives on the pack', 'ratio', SURE, definition),
  'on-the-bench': fixed('held on a bench', 'mass', SURE, definition),
  'added-mass': fixed('water carried along by the hull', 'fraction', points(0.04), PRACTICE),
  'no-added-mass': fixed('no added mass', 'fraction', SURE, definition),
  'drag-error': fixed('factor on the vehicle’s drag', 'ratio', percent(10), PRACTICE),
  'no-drag-area': fixed('no drag area', 'area', SURE, definition),
  'wing-drag-area': rule('drag area of the wing', 'area', (x) => x[0] * x[1], SURE, definition),
  'induced-factor': rule(
    'induced drag factor',
    'ratio',
    (x) => 1 / (Math.PI * x[1] * x[2] * x[0]),
    SURE,
    'J. D. Anderson, Introduction to Flight, ch. 5 (from memory)',
  ),
  'no-wing': fixed('no wing', 'ratio', SURE, definition),
  'span-efficiency': fixed('span efficiency', 'ratio', percent(10), PRACTICE),
  'zero-lift-drag': fixed('zero-lift drag coefficient', 'ratio', percent(25), PRACTICE),
  'most-lift': fixed('largest lift coefficient', 'ratio', percent(15), PRACTICE),
  'lift-area': rule('most lift over dynamic pressure', 'area', (x) => x[0] * x[1], SURE, definition),
  'no-rolling': fixed('no rolling resistance', 'ratio', SURE, definition),

  // limits
  'insulation-class': fixed('winding limit by insulation class', 'temperature', SURE, 'IEC 60085'),
  'usual-insulation': fixed('winding limit, class B assumed', 'temperature', SURE, 'IEC 60085'),
  'magnet-grade': fixed('magnet limit by grade', 'temperature', SURE, 'magnet makers’ tables'),
  'usual-magnets': fixed('magnet limit, grade M assumed', 'temperature', SURE, PRACTICE),
  'usual-controller': fixed('controller limit', 'temperature', SURE, PRACTICE),
  'usual-cells': fixed('cell limit', 'temperature', SURE, PRACTICE),
  'no-limit': fixed('no such limit', 'ratio', SURE, definition),
  'no-reserve': fixed('charge that must be left', 'fraction', SURE, 'none asked for'),
  'no-other-loads': fixed('other loads on the pack', 'power', SURE, 'none given'),
} as const satisfies Record<string, Rule>;

export type RuleId = keyof typeof RULES;

/** Line through (speed, torque) of two no-load points; inputs kt, R, i0, V0, i1, V1. */
function twoPoints(x: readonly number[]): { constant: number; slope: number } {
  const [kt, r, i0, v0, i1, v1] = x;
  const w0 = (v0 - i0 * r) / kt;
  const w1 = (v1 - i1 * r) / kt;
  const slope = (kt * (i1 - i0)) / (w1 - w0);
  return { constant: kt * i0 - slope * w0, slope };
}
