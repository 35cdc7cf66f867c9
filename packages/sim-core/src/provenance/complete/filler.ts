/** How gaps are filled: data by rule, and problems where a datum cannot be estimated. @module */

import type { ScenarioProblem } from '../../problems/index.js';
import type { Dimension } from '../../quantities/index.js';
import { type Datum, type Place, valuesOf } from '../datum.js';
import { asFleet, type Fleet, type FleetKey } from '../fleet.js';
import { CHOICES, type ChoiceId, type ChoiceValue, type Chosen } from '../rules/choices.js';
import type { ByKind } from '../rules/rule.js';
import {
  type DimensionOf,
  type KindOf,
  type KindRuleId,
  type LawRuleId,
  type MadeRuleId,
  type Needs,
  RULES,
  type RuleId,
  ruleOf,
  type WithoutRuleId,
} from '../rules/rules.js';

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
  by<Id extends LawRuleId>(rule: Id, ...inputs: Needs<Id>): Datum<DimensionOf<Id>>;
  /** A default by kind, with the rule's own value for this one. */
  ofKind<Id extends KindRuleId>(rule: Id, kind: KindOf<Id>): Datum<DimensionOf<Id>>;
  /** What is made of what was given: its value stands here [SI]. */
  fixed<Id extends MadeRuleId>(rule: Id, value: number): Datum<DimensionOf<Id>>;
  /** What there is none of: how much that is [SI], and of which dimension. */
  without<D extends Dimension>(rule: WithoutRuleId, dimension: D, value: number): Datum<D>;
  /** The given datum, or a problem that says where to find it. */
  need<D extends Dimension>(given: Datum<D> | undefined, dimension: D, place: Place, key: string, whereToFind: string): Datum<D>;
  missing(place: Place, key: string, expected: string, hint: string): void;
}

/** Stands in for a missing datum until all problems are known; never reaches a result. */
const absent = <D extends Dimension>(dimension: D): Datum<D> => ({
  dimension,
  value: Number.NaN,
  unknown: { key: 'absent', spread: { shape: 'none' } },
  origin: { kind: 'default', rule: 'no-limit', inputs: {} },
});

export function createFiller(candidate: string, fleet?: Fleet): Filler {
  const problems: ScenarioProblem[] = [];
  const choices: Chosen[] = [];
  const made = <D extends Dimension>(
    id: RuleId,
    dimension: D,
    data: { readonly [Name in string]?: Datum | undefined },
    fixed?: number,
  ): Datum<D> => {
    const rule = ruleOf(id);
    const taken = fixed ?? rule.value;
    const inputs = Object.fromEntries(
      Object.keys(rule.inputs).flatMap((name) => {
        const datum = data[name];
        return datum === undefined ? [] : [[name, datum]];
      }),
    );
    const given = valuesOf(inputs);
    const spread = typeof rule.common === 'function' ? rule.common(given) : rule.common;
    const own = rule.own.shape === 'none' ? {} : { own: { key: `rule:${id}@${candidate}`, spread: rule.own } };
    const datum: Datum<D> = {
      dimension,
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
    by: (id, ...[inputs]) => made(id, RULES[id].dimension, inputs ?? {}),
    ofKind: (id, kind) => {
      const { values }: ByKind = RULES[id];
      return made(id, RULES[id].dimension, {}, values[kind]);
    },
    fixed: (id, value) => made(id, RULES[id].dimension, {}, value),
    without: (id, dimension, value) => made(id, dimension, {}, value),
    need: (given, dimension, place, key, whereToFind) => {
      if (given !== undefined) return given;
      problems.push({
        kind: 'missing-datum',
        place: { ...place, path: `${place.path}.${key}` },
        expected: key,
        found: 'nothing',
        hint: whereToFind,
      });
      return absent(dimension);
    },
    missing: (place, key, expected, hint) => {
      problems.push({ kind: 'missing-datum', place: { ...place, path: `${place.path}.${key}` }, expected, found: 'nothing', hint });
    },
  };
}
