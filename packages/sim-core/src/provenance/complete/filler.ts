/** How gaps are filled: data by rule, and problems where a datum cannot be estimated. @module */

import type { ScenarioProblem } from '../../problems/index.js';
import type { Dimension } from '../../quantities/index.js';
import type { Datum, Place } from '../datum.js';
import { asFleet, type Fleet, type FleetKey } from '../fleet.js';
import { CHOICES, type ChoiceId, type ChoiceValue, type Chosen } from '../rules/choices.js';
import type { ByKind, Rule } from '../rules/rule.js';
import { type KindOf, type KindRuleId, RULES, type RuleId } from '../rules/rules.js';

/** Makes data by rule for one candidate, and collects what is missing. */
export interface Filler {
  readonly problems: ScenarioProblem[];
  /** What was taken where nothing was said, each once. */
  readonly choices: Chosen[];
  /** What is taken where nothing was said, which is noted. */
  take<Id extends ChoiceId>(choice: Id): ChoiceValue<Id>;
  /** What was given, else as `take`. */
  choose<Id extends ChoiceId, K extends string | number | boolean>(choice: Id, given: K | undefined): K | ChoiceValue<Id>;
  /** Derived or estimated by the rule's law, or a default with the rule's own value. */
  by(rule: RuleId, ...inputs: readonly Datum[]): Datum;
  /** A default by kind, with the rule's own value for this one. */
  ofKind<Id extends KindRuleId>(rule: Id, kind: KindOf<Id>): Datum;
  /** What is made of what was given: its value stands here [SI]. */
  fixed(rule: RuleId, value: number): Datum;
  /** The given datum, or a problem that says where to find it. */
  need<D extends Dimension>(given: Datum<D> | undefined, place: Place, key: string, whereToFind: string): Datum;
  missing(place: Place, key: string, expected: string, hint: string): void;
}

/** Stands in for a missing datum until all problems are known; never reaches a result. */
const absent = (dimension: Dimension): Datum => ({
  dimension,
  value: Number.NaN,
  unknown: { key: 'absent', spread: { shape: 'none' } },
  origin: { kind: 'default', rule: 'no-limit', inputs: [] },
});

export function createFiller(candidate: string, fleet?: Fleet): Filler {
  const problems: ScenarioProblem[] = [];
  const choices: Chosen[] = [];
  const made = (id: RuleId, inputs: readonly Datum[], fixed?: number): Datum => {
    const rule: Rule = RULES[id];
    const taken = fixed ?? rule.value;
    const given = inputs.map((input) => input.value);
    const spread = typeof rule.common === 'function' ? rule.common(given) : rule.common;
    const own = rule.own.shape === 'none' ? {} : { own: { key: `rule:${id}@${candidate}`, spread: rule.own } };
    const datum: Datum = {
      dimension: rule.dimension,
      value: taken ?? rule.law(given),
      unknown: { key: `rule:${id}`, spread },
      ...own,
      origin: { kind: taken !== undefined ? 'default' : spread.shape === 'none' ? 'derived' : 'estimated', rule: id, inputs },
    };
    const learnt = fleet?.get(id as FleetKey);
    return learnt === undefined ? datum : asFleet(datum, learnt, { common: `rule:${id}`, own: `rule:${id}@${candidate}` });
  };
  const take = <Id extends ChoiceId>(choice: Id): ChoiceValue<Id> => {
    const { value } = CHOICES[choice];
    if (!choices.some((made) => made.choice === choice)) choices.push({ choice, value });
    return value;
  };
  return {
    problems,
    choices,
    take,
    choose: (choice, given) => given ?? take(choice),
    by: (id, ...inputs) => made(id, inputs),
    ofKind: (id, kind) => {
      const { values }: ByKind = RULES[id];
      return made(id, [], values[kind]);
    },
    fixed: (id, value) => made(id, [], value),
    need: (given, place, key, whereToFind) => {
      if (given !== undefined) return given;
      problems.push({
        kind: 'missing-datum',
        place: { ...place, path: `${place.path}.${key}` },
        expected: key,
        found: 'nothing',
        hint: whereToFind,
      });
      return absent('ratio');
    },
    missing: (place, key, expected, hint) => {
      problems.push({ kind: 'missing-datum', place: { ...place, path: `${place.path}.${key}` }, expected, found: 'nothing', hint });
    },
  };
}
