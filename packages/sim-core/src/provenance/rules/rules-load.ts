/** Rules for gearbox, propeller, wheel and vehicle. @module */

import { waterVapourPressure } from '../../media/water.js';
import { BLADE_SECTION_ERROR, BLADE_SET_ERROR } from '../../parts/propeller/blade-table.js';
import {
  type Doubt,
  definition,
  fixed,
  type Inputs,
  measurable,
  PROPELLER_ERRORS,
  type Rule,
  rule,
  scaled,
  unmeasured,
  type Values,
  value,
  without,
} from './rule.js';
import { PRACTICE, percent, points, SURE } from './spreads.js';

/** The angle of a calculated blade: what is known of it, and how far off that may be [rad]. */
const bladeAngle = (from: string) =>
  rule(
    `angle of the blades beside the one taken from ${from}`,
    'angle',
    { error: 'angle' },
    () => 0,
    measurable('blade-angle', null, ({ error }) => points(error)),
    PROPELLER_ERRORS,
  );
const SECTION = `${PROPELLER_ERRORS}; a swept-back blade pulls a sixth less`;

/** What driving the propeller narrows. */
const driven = <I extends Inputs>(common: Doubt<I>['common'], own?: Doubt['own']): Doubt<I> => measurable('propeller', null, common, own);

/** What is known of a measured curve: the tolerance written beside its points, and their scatter about it [1]. */
type Measured = Values<{ written: 'fraction'; scatter: 'fraction' }>;

const setSpread =
  (of: 'thrust' | 'power') =>
  ({ written, scatter }: Measured) =>
    percent(100 * Math.hypot(BLADE_SET_ERROR[of], Math.max(2 * scatter, written)));
const CARRIED =
  'each of 137 propellers of the UIUC Propeller Database against the mean of the others, docs/theory.md; in water the Wageningen B series';
const VAPOUR = 'ITTC 7.5-02-01-03';
const SCALE = 'a table of one run against the other runs of 137 propellers of the UIUC Propeller Database: Reynolds number, docs/theory.md';
const FITTED = 'twice the scatter of the points, or the tolerances written beside them: common practice, no published source';
const fittedSpread = ({ written, scatter }: Measured) => percent(100 * Math.max(2 * scatter, written));

/** What thrust over speed squared, and power over its cube, differ from speed to speed [1]. */
const ONE_SPEED = { thrust: 0.12, power: 0.1 } as const;

/** Twice the scatter of the figure of merit, 0.55 ± 0.25. */
const MERIT = 'highest static speed of eight propellers of the UIUC Propeller Database';

export const LOAD_RULES = {
  'direct-drive': value('no gearbox', 'ratio', 1, SURE, definition),
  'no-gear-loss': value('efficiency of no gearbox', 'fraction', 1, SURE, definition),
  'gear-efficiency': value('efficiency of the gearbox', 'fraction', 0.95, unmeasured(points(0.04)), PRACTICE),
  'gear-mass': value('mass of the gearbox', 'mass', 0, SURE, 'assumed part of the vehicle'),
  'shaft-efficiency': value('efficiency of shaft and bearings', 'fraction', 1, SURE, 'none between motor and propeller'),
  'no-wake': value('wake fraction', 'fraction', 0, SURE, 'open water or air'),
  'no-deduction': value('thrust deduction', 'fraction', 0, SURE, 'open water or air'),
  'propeller-inertia': scaled(
    0.09,
    (k) => `propeller inertia, ${k} kg/m³ × diameter⁵`,
    'inertia',
    { diameter: 'length' },
    (k, { diameter }) => k * diameter ** 5,
    unmeasured(percent(80)),
    PRACTICE,
  ),
  'screw-inertia': scaled(
    5,
    (k) => `inertia of a marine screw and the water it carries, ${k} kg/m³ × diameter⁵`,
    'inertia',
    { diameter: 'length' },
    (k, { diameter }) => k * diameter ** 5,
    unmeasured(percent(150)),
    'half of it the screw, blades 0.03 diameters thick of nylon to brass: common practice, no published source; half the water, H. Schwanecke, 1963, 0.07·ρ·D⁵·(P/D)²·(A_E/A_0)²/(π·z), for P/D 1.1, A_E/A_0 0.55, 3 blades (from memory)',
  ),
  'coefficient-error': value('factor on the propeller’s coefficients', 'ratio', 1, driven(percent(5), percent(0.001)), PRACTICE),
  'air-coefficient-error': value(
    'factor on the propeller’s coefficients, at other speeds than they were measured at',
    'ratio',
    1,
    driven(percent(15)),
    SCALE,
  ),
  'air-power-coefficient-error': value(
    'factor on the propeller’s power coefficient, at other speeds than it was measured at',
    'ratio',
    1,
    driven(percent(10)),
    SCALE,
  ),
  'power-coefficient-error': value('factor on the propeller’s power coefficient', 'ratio', 1, driven(percent(5), percent(0.001)), PRACTICE),
  'thrust-scatter': fixed('scatter of the measured thrust about its fit, root mean square', 'fraction', 'the measured points'),
  'power-scatter': fixed('scatter of the measured torque or power about its fit, root mean square', 'fraction', 'the measured points'),
  'written-thrust-error': fixed('tolerance written beside the measured thrust and speed', 'fraction', definition),
  'written-power-error': fixed('tolerance written beside the measured torque or power and speed', 'fraction', definition),
  'fitted-thrust-error': rule(
    'factor on the thrust fitted to the measured points',
    'ratio',
    { written: 'fraction', scatter: 'fraction' },
    () => 1,
    driven(fittedSpread),
    FITTED,
  ),
  'fitted-power-error': rule(
    'factor on the power fitted to the measured points',
    'ratio',
    { written: 'fraction', scatter: 'fraction' },
    () => 1,
    driven(fittedSpread),
    FITTED,
  ),
  'one-point-thrust-error': rule(
    'factor on the thrust of the one measured point, taken on by the square of speed',
    'ratio',
    { written: 'fraction' },
    () => 1,
    driven(({ written }) => percent(100 * Math.hypot(ONE_SPEED.thrust, written))),
    'thrust over speed squared between speeds of one propeller, by its Reynolds number: small outrunners with four propellers on a thrust stand',
  ),
  'one-point-power-error': rule(
    'factor on the power of the one measured point, taken on by the cube of speed',
    'ratio',
    { written: 'fraction' },
    () => 1,
    driven(({ written }) => percent(100 * Math.hypot(ONE_SPEED.power, written))),
    'power at rest from full to half speed of rotation, 137 propellers of the UIUC Propeller Database: Reynolds number',
  ),
  'reach-error': fixed('how far off the logarithm of that advance ratio may be', 'ratio', definition),
  'carried-reach': rule(
    'logarithm of how much further than usual a propeller measured at rest pulls, as a factor on the advance ratio where its thrust vanishes',
    'ratio',
    { error: 'ratio' },
    () => 0,
    measurable('reach', null, ({ error }) => points(error)),
    CARRIED,
  ),
  'carried-thrust-error': rule(
    'factor on the thrust measured at rest alone and carried to speed by its usual fall',
    'ratio',
    { written: 'fraction', scatter: 'fraction' },
    () => 1,
    driven(({ written, scatter }) => percent(100 * Math.hypot(0.15, Math.max(2 * scatter, written)))),
    CARRIED,
  ),
  'carried-power-error': rule(
    'factor on the power measured at rest alone and carried to speed by its usual fall',
    'ratio',
    { written: 'fraction', scatter: 'fraction' },
    () => 1,
    driven(({ written, scatter }) => percent(100 * Math.hypot(0.2, Math.max(2 * scatter, written)))),
    CARRIED,
  ),
  // CP goes with the merit's inverse, CT with its power of two thirds
  'merit-power-error': value(
    'factor on the power that the measured thrust was taken to need, by a figure of merit of 0.55',
    'ratio',
    1,
    driven(percent(45)),
    MERIT,
  ),
  'merit-thrust-error': value(
    'factor on the thrust that the measured power was taken to give, by a figure of merit of 0.55',
    'ratio',
    1,
    driven(percent(30)),
    MERIT,
  ),
  'marine-thrust-error': value('factor on the screw’s thrust coefficient at model size', 'ratio', 1, driven(percent(5)), PRACTICE),
  'marine-power-error': value('factor on the screw’s torque coefficient at model size', 'ratio', 1, driven(percent(10)), PRACTICE),
  'blade-angle': fixed('angle that the measured point turns the blades by', 'angle', definition),
  'blade-angle-error': fixed('how far off the angle of the blades may be', 'angle', definition),
  'blade-stations-angle': bladeAngle('measured chord and twist'),
  'blade-stations-and-pitch-angle': bladeAngle('measured chord, twist and printed pitch'),
  'blade-family-angle': bladeAngle('diameter, pitch and family'),
  'blade-assumed-family-angle': bladeAngle('diameter and pitch, the blades for thin ones,'),
  'blade-thrust-error': value(
    'factor on the thrust that the section of the blades gives',
    'ratio',
    1,
    driven(percent(100 * BLADE_SECTION_ERROR.thrust)),
    SECTION,
  ),
  'blade-power-error': value(
    'factor on the power that the section of the blades takes',
    'ratio',
    1,
    driven(percent(100 * BLADE_SECTION_ERROR.power)),
    PROPELLER_ERRORS,
  ),
  'blade-set-angle': rule(
    'angle that the point at rest turns the calculated blades by',
    'angle',
    { angle: 'angle', error: 'angle' },
    ({ angle }) => angle,
    measurable('blade-angle', null, ({ error }) => points(error)),
    PROPELLER_ERRORS,
  ),
  'blade-set-thrust-error': rule(
    'factor on the thrust calculated and set by the point at rest',
    'ratio',
    { written: 'fraction', scatter: 'fraction' },
    () => 1,
    driven(setSpread('thrust')),
    PROPELLER_ERRORS,
  ),
  'blade-set-power-error': rule(
    'factor on the power calculated and set by the point at rest',
    'ratio',
    { written: 'fraction', scatter: 'fraction' },
    () => 1,
    driven(setSpread('power')),
    PROPELLER_ERRORS,
  ),
  'screw-area': value('area of the screw’s blades over that of the disc', 'ratio', 0.5, unmeasured(percent(20)), PRACTICE),
  'screw-immersion': scaled(
    0.75,
    (k) => `depth of the screw’s shaft, ${k} diameters`,
    'length',
    { diameter: 'length' },
    (k, { diameter }) => k * diameter,
    SURE,
    PRACTICE,
  ),
  'fresh-vapour-pressure': rule(
    'vapour pressure of fresh water',
    'pressure',
    { temperature: 'temperature' },
    ({ temperature }) => waterVapourPressure('fresh', temperature),
    SURE,
    VAPOUR,
  ),
  'sea-vapour-pressure': rule(
    'vapour pressure of sea water',
    'pressure',
    { temperature: 'temperature' },
    ({ temperature }) => waterVapourPressure('sea', temperature),
    SURE,
    VAPOUR,
  ),
  'tyre-grip': value('grip of the tyres', 'ratio', 0.9, measurable('ground', 'wheel.grip', percent(25)), PRACTICE),
  'all-wheels-driven': value('share of the weight on the driven wheels', 'fraction', 1, SURE, 'all wheels driven'),
  'no-inertia': value('inertia of the wheels', 'inertia', 0, SURE, 'assumed small'),
  'all-up-mass': rule(
    'mass of vehicle, pack, motors and gearboxes',
    'mass',
    { own: 'mass', pack: 'mass', motor: 'mass', gearbox: 'mass', drives: 'ratio' },
    ({ own, pack, motor, gearbox, drives }) => own + pack + drives * (motor + gearbox),
    SURE,
    definition,
  ),
  'drive-count': fixed('drives on the pack', 'ratio', definition),
  'on-the-bench': value('held on a bench', 'mass', 1, SURE, definition),
  'added-mass': value('water carried along by the hull', 'fraction', 0.08, unmeasured(points(0.04)), PRACTICE),
  'no-added-mass': value('no added mass', 'fraction', 0, SURE, definition),
  'drag-error': value('factor on the vehicle’s drag', 'ratio', 1, measurable('drag', 'vehicle.drag_factor', percent(10)), PRACTICE),
  'no-drag-area': value('no drag area', 'area', 0, SURE, definition),
  'wing-drag-area': rule(
    'drag area of the wing',
    'area',
    { wing: 'area', coefficient: 'ratio' },
    ({ wing, coefficient }) => wing * coefficient,
    SURE,
    definition,
  ),
  'induced-factor': rule(
    'induced drag factor',
    'ratio',
    { wing: 'area', aspect: 'ratio', efficiency: 'ratio' },
    ({ wing, aspect, efficiency }) => 1 / (Math.PI * aspect * efficiency * wing),
    SURE,
    'J. D. Anderson, Introduction to Flight, ch. 5 (from memory)',
  ),
  'no-wing': without('no wing'),
  'span-efficiency': value('span efficiency', 'ratio', 0.8, unmeasured(percent(10)), PRACTICE),
  'zero-lift-drag': value('zero-lift drag coefficient', 'ratio', 0.03, measurable('drag', null, percent(25)), PRACTICE),
  'most-lift': value('largest lift coefficient', 'ratio', 1.2, unmeasured(percent(15)), PRACTICE),
  'lift-area': rule(
    'most lift over dynamic pressure',
    'area',
    { wing: 'area', coefficient: 'ratio' },
    ({ wing, coefficient }) => wing * coefficient,
    SURE,
    definition,
  ),
  'no-rolling': value('no rolling resistance', 'ratio', 0, SURE, definition),
} as const satisfies Record<string, Rule>;
