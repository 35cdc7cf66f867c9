/**
 * The catalogue of rules that fill gaps: law, how far it may be off (common to all candidates, and this candidate's own), where it holds, source.
 *
 * @module
 */

import { airDensity, airKinematicViscosity } from '../../media/air.js';
import { pressureAtAltitude } from '../../media/standard-atmosphere.js';
import { waterDensity, waterKinematicViscosity } from '../../media/water.js';
import { type ByKind, celsius, definition, measurable, type Rule, rule, unmeasured, value } from './rule.js';
import { COOLING_RULES } from './rules-cooling.js';
import { ELECTRIC_RULES } from './rules-electrics.js';
import { HEAT_RULES } from './rules-heat.js';
import { LIMIT_RULES } from './rules-limits.js';
import { LOAD_RULES } from './rules-load.js';
import { MOTOR_RULES } from './rules-motor.js';
import { PRACTICE, percent, points, SURE } from './spreads.js';

export const RULES = {
  // surroundings
  'standard-day': value(
    'air temperature of a standard day',
    'temperature',
    celsius(15),
    measurable('weather', 'ambient.air', points(10)),
    'ISO 2533:1975',
  ),
  'sea-level': value('altitude', 'length', 0, SURE, 'assumed at sea level'),
  'pressure-at-altitude': rule(
    'air pressure at altitude',
    'pressure',
    (x) => pressureAtAltitude(x[0]),
    unmeasured(percent(1)),
    'ISO 2533:1975',
  ),
  'as-the-air': rule('as the air outside', 'temperature', (x) => x[0], SURE, PRACTICE),
  'mild-water': value('water temperature', 'temperature', celsius(15), measurable('weather', 'ambient.water', points(6)), PRACTICE),
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

  ...ELECTRIC_RULES,
  ...MOTOR_RULES,
  ...HEAT_RULES,
  ...COOLING_RULES,
  ...LOAD_RULES,

  ...LIMIT_RULES,

  'with-fan': rule('other loads on the pack with the cooling fan', 'power', (x) => x[0] + x[1], SURE, definition),
  'no-other-loads': value('other loads on the pack', 'power', 0, SURE, 'none given'),
} as const satisfies Record<string, Rule>;

/** The name of a rule that fills a gap. */
export type RuleId = keyof typeof RULES;
/** Whether a word is the name of a rule; what is written has a path of keys for a name. */
export const isRule = (subject: string): subject is RuleId => Object.hasOwn(RULES, subject);
/** The name of a default that goes by kind. */
export type KindRuleId = { [Id in RuleId]: (typeof RULES)[Id] extends ByKind ? Id : never }[RuleId];
/** The kinds that such a default knows. */
export type KindOf<Id extends KindRuleId> = string & keyof (typeof RULES)[Id]['values'];
