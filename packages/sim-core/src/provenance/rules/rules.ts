/**
 * The catalogue of rules that fill gaps: law, how far it may be off (common to all candidates, and this candidate's own), where it holds, source.
 *
 * @module
 */

import { airDensity, airKinematicViscosity } from '../../media/air.js';
import { pressureAtAltitude } from '../../media/standard-atmosphere.js';
import { waterDensity, waterKinematicViscosity } from '../../media/water.js';
import type { Datum } from '../datum.js';
import {
  type ByKind,
  celsius,
  type DataFor,
  definition,
  type Made,
  measurable,
  type Rule,
  rule,
  unmeasured,
  value,
  type Without,
} from './rule.js';
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
    { altitude: 'length' },
    ({ altitude }) => pressureAtAltitude(altitude),
    unmeasured(percent(1)),
    'ISO 2533:1975',
  ),
  'as-the-air': rule('as the air outside', 'temperature', { air: 'temperature' }, ({ air }) => air, SURE, PRACTICE),
  'mild-water': value('water temperature', 'temperature', celsius(15), measurable('weather', 'ambient.water', points(6)), PRACTICE),
  'air-density': rule(
    'density of air',
    'density',
    { temperature: 'temperature', pressure: 'pressure' },
    ({ temperature, pressure }) => airDensity(temperature, pressure),
    SURE,
    'ideal gas; ISO 2533:1975',
  ),
  'air-viscosity': rule(
    'kinematic viscosity of air',
    'kinematicViscosity',
    { temperature: 'temperature', pressure: 'pressure' },
    ({ temperature, pressure }) => airKinematicViscosity(temperature, pressure),
    SURE,
    'Sutherland; ISO 2533:1975',
  ),
  'fresh-water-density': rule(
    'density of fresh water',
    'density',
    { temperature: 'temperature' },
    ({ temperature }) => waterDensity('fresh', temperature),
    SURE,
    'ITTC 7.5-02-01-03',
  ),
  'sea-water-density': rule(
    'density of sea water',
    'density',
    { temperature: 'temperature' },
    ({ temperature }) => waterDensity('sea', temperature),
    SURE,
    'ITTC 7.5-02-01-03',
  ),
  'fresh-water-viscosity': rule(
    'viscosity of fresh water',
    'kinematicViscosity',
    { temperature: 'temperature' },
    ({ temperature }) => waterKinematicViscosity('fresh', temperature),
    SURE,
    'ITTC 7.5-02-01-03',
  ),
  'sea-water-viscosity': rule(
    'viscosity of sea water',
    'kinematicViscosity',
    { temperature: 'temperature' },
    ({ temperature }) => waterKinematicViscosity('sea', temperature),
    SURE,
    'ITTC 7.5-02-01-03',
  ),

  ...ELECTRIC_RULES,
  ...MOTOR_RULES,
  ...HEAT_RULES,
  ...COOLING_RULES,
  ...LOAD_RULES,

  ...LIMIT_RULES,

  'with-fan': rule(
    'other loads on the pack with the cooling fan',
    'power',
    { other: 'power', fan: 'power' },
    ({ other, fan }) => other + fan,
    SURE,
    definition,
  ),
  'no-other-loads': value('other loads on the pack', 'power', 0, SURE, 'none given'),
} as const satisfies Record<string, Rule>;

type Rules = typeof RULES;
/** The name of a rule that fills a gap. */
export type RuleId = keyof Rules;
/** The rules that are like `Kind`. */
type Like<Kind> = { [Id in RuleId]: Rules[Id] extends Kind ? Id : never }[RuleId];
/** The name of a default that goes by kind. */
export type KindRuleId = Like<ByKind>;
/** The kinds that such a default knows. */
export type KindOf<Id extends KindRuleId> = string & keyof Rules[Id]['values'];
/** The name of a rule for what is made of what was given. */
export type MadeRuleId = Like<Made>;
/** The name of a rule for what there is none of. */
export type WithoutRuleId = Like<Without>;
/** The name of a rule with a law, or a value of its own. */
export type LawRuleId = Exclude<RuleId, KindRuleId | MadeRuleId | WithoutRuleId>;
/** The dimension of what a rule finds. */
export type DimensionOf<Id extends RuleId> = Rules[Id]['dimension'];
/** Data for the inputs of a rule. */
export type InputsOf<Id extends RuleId> = DataFor<Rules[Id]['inputs']>;

/** What is to be said besides its name: its inputs, where it has any. */
export type Needs<Id extends RuleId> = keyof Rules[Id]['inputs'] extends never ? [] : [inputs: InputsOf<Id>];

/** What a rule was used on to make a datum; undefined where the datum is of another origin. */
export const inputsOf = <Id extends RuleId>({ origin }: Datum, rule: Id): InputsOf<Id> | undefined =>
  // the one place where the name of a rule becomes the type of its inputs: the filler took no others
  origin.kind !== 'given' && origin.rule === rule ? (origin.inputs as InputsOf<Id>) : undefined;
/** Any rule, to be read. */
export const ruleOf = (id: RuleId): Rule => RULES[id];
/** Whether a word is the name of a rule; what is written has a path of keys for a name. */
export const isRule = (subject: string): subject is RuleId => Object.hasOwn(RULES, subject);
