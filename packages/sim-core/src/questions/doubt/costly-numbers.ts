/**
 * Which missing or doubtful numbers cost the answer most, and where each of them tips it: every unknown alone over its 95 % interval, on the
 * real profile.
 *
 *   (1) cost: the most that going to the end of the interval takes of what is left of a limit, or changes of the objective's figure
 *   (2) tips: the nearest places below and above the written value where the leader changes, or begins or ceases to meet its limits:
 *       a root of  margin of the leader  or of  leader less best other,  along the unknown's standardised deviate z, |z| ≤ 1.96
 *   (3) after a measurement: (1) with the interval that the measurement leaves
 *
 * A rule's common and own errors move together along their steepest direction, z = z₉₅·σ_k/√Σσ², since one measurement settles both. What
 * stands on a line of its own is an unknown of its own. Unknowns are first drawn at one end of one candidate; the costliest at both ends of all,
 * and whatever moves a winding at both ends of the leading ones.
 * *Leaves out* what only shows when several unknowns are off at once (the sampled doubt has that), and an answer that tips and tips back
 * within one side of an interval.
 *
 * @module
 */

import type { ProfileStep } from '../../drive/profile.js';
import { brent } from '../../numerics/roots.js';
import { entryOf } from '../../problems/certain.js';
import type { Objective } from '../../provenance/given.js';
import type { Draw } from '../../provenance/realise.js';
import { unknownsOf } from '../../provenance/unknowns.js';
import { deviationOf, drawn, halfWidth95, logNormal95, normal95, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { CostlyEffect, CostlyNumber, CostlyResult, Tip } from '../../results/costly-result.js';
import type { LimitResult } from '../../results/limit-result.js';
import { OBJECTIVE } from '../../results/objectives.js';
import type { RunInput } from '../candidate.js';
import { type Outcome, outcomeOf } from '../judge/outcome.js';
import { compareStandings, sameTier } from '../judge/rank.js';
import type { Watch } from '../simulate/watch.js';
import { type Method, measurementOf, onUsualSheets } from './measurements.js';
import { groupOf, type Number95, numbersOf } from './numbers.js';

/** Numbers that are looked at from both ends. */
const MOST_BOTH_ENDS = 8;
/** What is already as good as a cheap measurement is no doubtful number. */
const WORTH_MEASURING = 1.3;
/** What moves the winding's peak by less at one end of its interval is not looked at from the other [K]. */
const LITTLE = 0.3;
/** A missing line of the sheet comes first where it costs this share of the costliest number. */
const WORTH_ASKING = 0.1;
/** A tip is found to a hundredth of its interval. */
const TIP_TOLERANCE = 0.02;

type Outcomes = ReadonlyMap<string, Outcome>;

/** Share of the interval [1] that `method` leaves; 1 or more where it gains nothing. */
function remaining({ spread, first }: Number95, { accuracy }: Method): number {
  const size = Math.max(Math.abs(first.value), halfWidth95(spread));
  return deviationOf(spread.shape === 'log-normal' ? logNormal95(accuracy) : normal95(accuracy * size)) / deviationOf(spread);
}

/** A runner-up that fails its limits by far is no alternative, whatever is measured; margin as a share of the way from start to limit. */
const NEAR_MISS = -0.15;
const inPlay = ({ standing, limits }: Outcome): boolean => standing.feasible || (limits[0]?.marginShare ?? 0) > NEAR_MISS;

/** What is left of the way to the nearest limit [1]; negative where one is passed or the run does not end. */
const marginOf = ({ limits, standing: { driven, feasible } }: Outcome): number => {
  const margin = limits[0]?.marginShare ?? 1;
  return feasible ? margin : Math.min(margin, driven - 1);
};
/** What is left of a limit counts at least as this share, so that one nearly reached does not hide all others. */
const LEAST_LEFT = 0.05;

const worstOf = (outcome: Outcome, id: LimitResult['id']): number | undefined => outcome.limits.find((limit) => limit.id === id)?.worst;

const halfSpan = (values: readonly number[]): number => 0.5 * (Math.max(...values) - Math.min(...values));

/** (1) for one candidate, with the limit that pays it. */
function costOf(nominal: Outcome, changed: Outcome, objective: Objective): { cost: number; limit: LimitResult | undefined } {
  // of what lasts no time at all, all that another number makes it last is gained
  const own = Math.abs(nominal.standing.objective) || Math.abs(changed.standing.objective) || 1;
  const scale = OBJECTIVE[objective].figure === 'winding' ? 100 : own;
  let cost = Math.abs(changed.standing.objective - nominal.standing.objective) / scale;
  let limit: LimitResult | undefined;
  let most = 0;
  for (const each of nominal.limits) {
    const other = changed.limits.find(({ id }) => id === each.id);
    if (other === undefined) continue;
    const taken = Math.abs(other.marginShare - each.marginShare) / Math.max(LEAST_LEFT, Math.abs(each.marginShare));
    if (taken > most) [most, limit] = [taken, each];
  }
  cost = Math.max(cost, most);
  return { cost, limit };
}

/** What instruments would show of one candidate with each of its numbers at the upper end of its interval, seen by the way. */
export interface NumberLooks {
  readonly watch: Watch;
  /** By the number's group, as far as its run was made; the runs of a candidate that leads are. */
  readonly series: Map<string, Float64Array>;
}

/**
 * The costliest numbers of `candidates` on `profile`; candidates beyond the first two of the ranking count only for the choice.
 * `relative`: tolerance of the integration. Throws RangeError where a run changes its mode without end.
 */
export function costlyNumbers(
  candidates: readonly RunInput[],
  profile: readonly ProfileStep[],
  objective: Objective,
  relative?: number,
  looks?: NumberLooks,
): CostlyResult {
  let simulations = 0;
  const run = (input: RunInput, draw?: Draw): Outcome => {
    simulations++;
    return outcomeOf(input, profile, objective, draw, relative, looks?.watch.candidate === input.name ? looks.watch : undefined);
  };
  const nominal: Outcomes = new Map(candidates.map((input) => [input.name, run(input)]));
  const order = (outcomes: Outcomes): string[] =>
    candidates.map(({ name }) => name).sort((a, b) => compareStandings(entryOf(outcomes, a).standing, entryOf(outcomes, b).standing));
  const ranking = order(nominal);
  const leader = ranking[0];
  const leading = ranking.slice(0, 2).filter((name, k) => k === 0 || inPlay(entryOf(nominal, name)));
  /** Outcomes of those of `names` that hold the number, at z standard deviations of it; nominal for the rest. */
  const at = (number: Number95, z: number, names: readonly string[]): Outcomes => {
    const draw: Draw = (key) => z * (number.direction.get(key) ?? 0);
    const moved = candidates.filter(({ name }) => names.includes(name) && number.candidates.includes(name));
    return new Map([...nominal, ...moved.map((input) => [input.name, run(input, draw)] as const)]);
  };
  const everyone = candidates.map(({ name }) => name);
  const dearest = (number: Number95, outcomes: Outcomes) =>
    leading
      .filter((name) => number.candidates.includes(name))
      .map((name) => ({ name, ...costOf(entryOf(nominal, name), entryOf(outcomes, name), objective) }))
      .sort((a, b) => b.cost - a.cost);
  /** Half of what the peak of the winding takes over these runs [K], of the one of `names` whose does most. */
  const moved = (names: readonly string[], ...runs: readonly Outcomes[]): { readonly candidate: string; readonly before: number } =>
    names
      .map((name) => ({ candidate: name, before: halfSpan([nominal, ...runs].map((each) => entryOf(each, name).standing.winding)) }))
      .reduce((a, b) => (b.before > a.before ? b : a));

  const screened = numbersOf(unknownsOf(candidates))
    .flatMap((number) => {
      // one candidate tells enough to sort by
      const names = leading.filter((name) => number.candidates.includes(name)).slice(0, 1);
      if (names.length === 0) return [];
      const upper = at(number, STANDARD_DEVIATIONS_95, names);
      const shown = looks === undefined || !names.includes(looks.watch.candidate) ? undefined : upper.get(looks.watch.candidate)?.series;
      if (shown !== undefined) looks?.series.set(groupOf(number), shown);
      return { number, names, upper, cost: dearest(number, upper)[0].cost };
    })
    .sort((a, b) => b.cost - a.cost);

  const looked = screened.slice(0, MOST_BOTH_ENDS).map(({ number, names, upper: begun }) => {
    const others = everyone.filter((name) => !names.includes(name));
    const upper: Outcomes = new Map([
      ...at(number, STANDARD_DEVIATIONS_95, others),
      ...names.map((name) => [name, entryOf(begun, name)] as const),
    ]);
    const lower = at(number, -STANDARD_DEVIATIONS_95, everyone);
    const tips = [tipOf(number, -1, lower), tipOf(number, 1, upper)].filter((tip) => tip !== undefined);
    return { number, lower, upper, tips, cost: Math.max(dearest(number, lower)[0].cost, dearest(number, upper)[0].cost) };
  });

  /** (2) on one side; the outcomes at its end are known. */
  function tipOf(number: Number95, side: 1 | -1, atEnd: Outcomes): (Tip & { readonly z: number }) | undefined {
    const end = side * STANDARD_DEVIATIONS_95;
    const all = new Map<number, Outcomes>([
      [0, nominal],
      [end, atEnd],
    ]);
    const allAt = (z: number): Outcomes => {
      const found = all.get(z) ?? at(number, z, everyone);
      all.set(z, found);
      return found;
    };
    const margin = (z: number): number => marginOf(entryOf(all.get(z) ?? at(number, z, [leader]), leader));
    const places = [margin, (z: number) => lead(allAt(z))].flatMap((f) =>
      f(0) === 0 || f(0) > 0 === f(end) > 0 ? [] : [brent(f, 0, end, TIP_TOLERANCE)],
    );
    if (places.length === 0) return undefined;
    const z = places.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
    // just beyond the place it is another answer, and where a jump hides that, at the end of the interval
    const changed = (outcomes: Outcomes): boolean =>
      order(outcomes)[0] !== leader || entryOf(outcomes, leader).standing.feasible !== entryOf(nominal, leader).standing.feasible;
    const beyond = [1, 3].map((steps) => allAt(z + side * steps * TIP_TOLERANCE)).find(changed) ?? atEnd;
    if (!changed(beyond)) return undefined;
    const [first] = order(beyond);
    const { value } = number.first;
    const place = { at: drawn(value, number.spread, z), z };
    if (first !== leader) return { ...place, kind: 'leads', candidate: first };
    const own = entryOf(beyond, leader);
    const [nearest] = own.limits;
    const passed = nearest !== undefined && nearest.margin < 0 ? { limit: nearest.id, words: nearest.words } : {};
    return { ...place, kind: own.standing.feasible ? 'meets' : 'fails', candidate: leader, ...passed };
  }

  /** How far the leader stands before the best of the others: negative where it does not; with candidates of one tier in the objective's measure. */
  function lead(outcomes: Outcomes): number {
    const own = entryOf(outcomes, leader).standing;
    const gaps = everyone
      .filter((name) => name !== leader)
      .map((name) => {
        const other = entryOf(outcomes, name).standing;
        const far = Math.sign(compareStandings(other, own)) * Number.MAX_SAFE_INTEGER;
        if (!sameTier(own, other)) return far;
        return other.objective === own.objective ? other.winding - own.winding : other.objective - own.objective;
      });
    return Math.min(Number.MAX_SAFE_INTEGER, ...gaps);
  }

  const costliest = Math.max(0, ...looked.map(({ cost }) => cost));
  const numbers = looked
    .map(({ number, lower, upper, tips, cost }): CostlyNumber & { readonly nearest: number } => {
      const method = measurementOf(number.subject);
      const left = method === undefined ? 1 : remaining(number, method);
      const advice = method !== undefined && left * WORTH_MEASURING < 1 ? method : undefined;
      const [narrowLow, narrowHigh] =
        advice === undefined
          ? [undefined, undefined]
          : [at(number, -left * STANDARD_DEVIATIONS_95, leading), at(number, left * STANDARD_DEVIATIONS_95, leading)];
      const effects = leading
        .filter((name) => number.candidates.includes(name))
        .flatMap((candidate): CostlyEffect[] => {
          const [own, a, b] = [nominal, lower, upper].map((outcomes) => entryOf(outcomes, candidate)) as [Outcome, Outcome, Outcome];
          const costs = [costOf(own, a, objective), costOf(own, b, objective)].sort((p, q) => q.cost - p.cost);
          const limit = costs[0].limit;
          if (limit === undefined) return [];
          const worst = (outcomes: Outcomes): number => worstOf(entryOf(outcomes, candidate), limit.id) ?? limit.worst;
          const [low, high] = [worst(lower), worst(upper)];
          const narrow = narrowLow === undefined ? undefined : [limit.worst, worst(narrowLow), worst(narrowHigh)];
          return [
            {
              candidate,
              limit: limit.id,
              words: limit.words,
              dimension: limit.dimension,
              shown: limit.shown,
              nominal: limit.worst,
              low,
              high,
              // both ends may lie on one side of the middle
              before: halfSpan([limit.worst, low, high, ...(narrow ?? [])]),
              ...(narrow === undefined ? {} : { after: halfSpan(narrow) }),
            },
          ];
        });
      const { value, dimension, words, group } = number.first;
      return {
        subject: number.subject,
        words,
        candidates: number.candidates.length === candidates.length ? [] : number.candidates,
        standing: group.startsWith('rule:') ? 'missing' : 'doubtful',
        dimension,
        value,
        low: drawn(value, number.spread, -STANDARD_DEVIATIONS_95),
        high: drawn(value, number.spread, STANDARD_DEVIATIONS_95),
        cost,
        effects,
        tips: tips.map(({ z: _, ...tip }) => tip),
        ...(advice === undefined ? {} : { advice }),
        ...(onUsualSheets(number.subject) && cost > WORTH_ASKING * costliest ? { lacksOnSheet: true } : {}),
        nearest: Math.min(Number.POSITIVE_INFINITY, ...tips.map(({ z }) => Math.abs(z))),
      };
    })
    // a line that the sheet lacks may be had for a question; of the rest, what tips soonest is the most likely to be decisive
    .sort(
      (a, b) =>
        Number(b.lacksOnSheet ?? false) - Number(a.lacksOnSheet ?? false) ||
        (a.nearest === b.nearest ? b.cost - a.cost : a.nearest - b.nearest),
    )
    .map(({ nearest: _, ...number }) => number);
  return {
    numbers,
    all: screened
      .map(({ number, names, upper }) => {
        const concerned = leading.filter((name) => number.candidates.includes(name));
        const both = looked.find((each) => each.number === number);
        // what matters is looked at from both ends of all whom it concerns, whichever else stands in the file
        const little = both === undefined && 2 * moved(names, upper).before < LITTLE;
        const runs =
          both !== undefined
            ? [both.lower, both.upper]
            : little
              ? [upper]
              : [upper, at(number, STANDARD_DEVIATIONS_95, concerned.slice(1)), at(number, -STANDARD_DEVIATIONS_95, concerned)];
        return { subject: number.subject, words: number.first.words, ...moved(concerned, ...runs) };
      })
      .sort((a, b) => b.before - a.before),
    ranking,
    leading,
    simulations,
  };
}
