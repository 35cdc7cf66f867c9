/**
 * The smallest cooling with which a candidate keeps its temperature limits with the chance asked for: each remedy in sizes that fit, then two
 * together. Each size is entered into what the candidate was given, completed and drawn as `run` draws it, so that entering it in the scenario
 * gives the same chance.
 *
 * @module
 */

import { byHeatLimit, HEAT_LIMITS, type HeatLimitId, isHeatLimit } from '../drive/heat-limits.js';
import type { ProfileStep } from '../drive/profile.js';
import { isKernelEvent } from '../kernel/event-margins.js';
import { certain, entryOf, lastOf } from '../problems/certain.js';
import { complete } from '../provenance/complete/complete.js';
import type { GivenDrive, Objective } from '../provenance/given.js';
import { realise } from '../provenance/realise.js';
import { type CoolingAnswer, type CoolingProposal, type CoolResult, REMEDIES, type Remedy } from '../results/cool-result.js';
import { LIMIT_IDS, LIMITS } from '../results/limits.js';
import type { RunInput } from './candidate.js';
import { REACHES, type SizedFitting, sizesOf } from './cooling-fittings.js';
import { planDoubt } from './doubt/plan.js';
import { limitBits, rowIndex, rowLength, workDoubt } from './doubt/sample.js';
import { fits, spaceRoom } from './judge/space.js';
import { type Simulation, simulate } from './simulate/simulate.js';

/** Chance that is asked for where the person does not say. */
export const USUAL_CHANCE = 0.9;
/** As many as `run` draws unless told otherwise. */
const DRAWS = { samples: 64, seed: 1 } as const;

const MUCH_MORE_THAN_HALF = 0.8;

/** Ceilings that a run passes whatever cools it. */
const BEYOND_COOLING = LIMIT_IDS.filter((id) => LIMITS[id].sense === 'ceiling' && !isHeatLimit(id));

/** What no cooling mends, in words. */
export function othersOf({ end, passed }: Pick<Simulation, 'end' | 'passed'>): string[] {
  return [
    ...(end === 'cut-off' ? ['the cells reach their cut-off'] : []),
    ...(end === 'empty' ? ['the pack is empty before the end'] : []),
    ...(end === 'failed' ? ['there is no operating point'] : []),
    ...BEYOND_COOLING.flatMap((id) => (isKernelEvent(id) && passed.has(id) ? [`${LIMITS[id].quantity} passes its limit`] : [])),
  ];
}

/** All remedies for one candidate of `all` on its profile; `goal` is the chance to reach [1], told by as many draws as `samples`. Throws RangeError on a goal outside 0 to 1. */
export function cool(
  input: RunInput,
  all: readonly RunInput[],
  profile: readonly ProfileStep[],
  objective: Objective,
  goal: number = USUAL_CHANCE,
  samples: number = DRAWS.samples,
): CoolResult {
  if (!(goal > 0 && goal < 1)) throw new RangeError('The chance to reach lies between 0 and 100 %, both excluded.');
  const { name, given } = input;
  const nominal = ({ data }: RunInput): Simulation =>
    simulate(realise(data), profile, { method: 'dormand-prince', relative: 1e-5, record: false });

  /** Share of the draws in which all of `limits` are kept. */
  const chancesOf = (candidate: RunInput): ((limits: readonly HeatLimitId[]) => number) => {
    // drawn beside the others, as `run` draws it, and worked alone
    const beside = all.map((each) => (each === input ? candidate : each));
    const plan = { ...planDoubt(beside, profile, objective, { ...DRAWS, samples }), names: [name] };
    const rows = workDoubt(plan, [candidate], { from: 0, to: plan.samples });
    const at = rowIndex('passed');
    return (limits) => {
      const mask = limitBits(limits);
      let kept = 0;
      for (let k = 0; k < plan.samples; k++) if ((rows[k * rowLength(plan) + at] & mask) === 0) kept++;
      return kept / plan.samples;
    };
  };
  const fitted = (fittings: readonly SizedFitting[]): RunInput | undefined => {
    const changed = fittings.reduce<GivenDrive>((drive, { apply }) => apply(drive), given);
    const completion = complete(name, changed);
    if (!completion.ok || !fits(spaceRoom(changed, realise(completion.data)))) return undefined;
    return { name, given: changed, data: completion.data, choices: completion.choices };
  };
  const propose = (fittings: readonly SizedFitting[], limits: readonly HeatLimitId[]): CoolingProposal | undefined => {
    const candidate = fitted(fittings);
    if (candidate === undefined) return undefined;
    const chances = chancesOf(candidate);
    const chance = chances(limits);
    const { highest } = nominal(candidate);
    return {
      fittings: fittings.map(({ remedy, words, entry }) => ({ remedy, words, entry })),
      chance,
      chanceOfAll: chances(HEAT_LIMITS),
      keepsAll: chance >= goal && bad.every((limit) => limits.includes(limit)),
      peaks: byHeatLimit((limit) => highest[limit].value),
    };
  };
  /** A limit passed with nominal data is passed in about half of the draws or more: not worth drawing where much more is asked for. */
  const hopeless = (fittings: readonly SizedFitting[], limits: readonly HeatLimitId[]): boolean => {
    const candidate = fitted(fittings);
    if (candidate === undefined) return true;
    if (goal < MUCH_MORE_THAN_HALF) return false;
    const { passed } = nominal(candidate);
    return limits.some((limit) => passed.has(limit));
  };
  /** The smallest of `sizes` that reaches the goal, by halving the list, else the largest; with `beside` always fitted. */
  const smallest = (
    sizes: readonly SizedFitting[],
    limits: readonly HeatLimitId[],
    beside: readonly SizedFitting[] = [],
  ): { readonly size: SizedFitting; readonly proposal: CoolingProposal; readonly enough: boolean } | undefined => {
    let high = sizes.length - 1;
    let best = propose([sizes[high], ...beside], limits);
    if (best === undefined) return undefined;
    if (best.chance < goal) return { size: sizes[high], proposal: best, enough: false };
    let low = -1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      const tried = hopeless([sizes[middle], ...beside], limits) ? undefined : propose([sizes[middle], ...beside], limits);
      if (tried !== undefined && tried.chance >= goal) [high, best] = [middle, tried];
      else low = middle;
    }
    return { size: sizes[high], proposal: best, enough: true };
  };

  const asItIs = chancesOf(input);
  const failing = HEAT_LIMITS.map((limit) => ({ limit, chance: asItIs([limit]) })).filter(({ chance }) => chance < goal);
  const bad = failing.map(({ limit }) => limit);
  const others = othersOf(nominal(input));
  const system = realise(input.data);
  const fitting = new Map<Remedy, readonly SizedFitting[]>();
  const answer = (remedy: Remedy): CoolingAnswer => {
    const limits = REACHES[remedy];
    if (!limits.some((limit) => bad.includes(limit))) return { kind: 'not-needed' };
    const sizes = sizesOf(remedy, given, system);
    if (typeof sizes === 'string') return { kind: 'useless', why: sizes };
    const room = sizes.filter((size) => fitted([size]) !== undefined);
    if (room.length === 0) return { kind: 'useless', why: 'no size of it fits the space' };
    fitting.set(remedy, room);
    const { proposal, enough } = certain(smallest(room, limits), 'size that fits');
    return { kind: enough ? 'enough' : 'not-enough', proposal };
  };
  const remedies = REMEDIES.map((remedy) => ({ remedy, answer: answer(remedy) }));
  const solved = remedies.some(({ answer }) => 'proposal' in answer && answer.proposal.keepsAll);
  const pairs: CoolingProposal[] = [];
  const able = [...fitting.keys()];
  for (const [k, one] of able.entries()) {
    for (const other of able.slice(k + 1)) {
      if (solved || !bad.every((limit) => REACHES[one].includes(limit) || REACHES[other].includes(limit))) continue;
      const first = smallest(entryOf(fitting, one), bad, [lastOf(entryOf(fitting, other))]);
      if (first === undefined || !first.enough) continue;
      const second = certain(smallest(entryOf(fitting, other), bad, [first.size]), 'pair that fits');
      pairs.push({ ...second.proposal, fittings: [...second.proposal.fittings].reverse() });
    }
  }
  return { name, goal, failing, others, remedies, pairs };
}
