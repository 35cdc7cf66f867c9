/**
 * What a doubt study draws: every unknown of all candidates' data, and the model's own error, from a seed.
 *
 *   (1) u of sample i: quasi-random (scrambled Sobol) for the unknowns that matter most, seeded random for the rest;  z = Φ⁻¹(u)
 *   (2) T' = T_start + (T − T_start)·(1 + √c·e·z_common + √(1 − c)·e·z_own),  1.96·e = 10 %,  c = 0.8
 *
 * (2) is the model's error: its temperature rises are good to about 10 K or 10 %, and what a model leaves out it leaves out for all
 * candidates alike, so most of the variance is common. Unknowns are told apart by key: data on one line, or by one rule, move together.
 * A sample is found from its number alone, so that any share of the samples can be worked anywhere.
 *
 * *Source* of (2): thermal models of small electric machines against measurement, Aerospace 11 (5) 401, 2024; the common part is judgement.
 *
 * @module
 */

import { type ProfileStep, profileDuration } from '../../drive/profile.js';
import { inverseNormal } from '../../numerics/inverse-normal.js';
import { type QuasiRandomSequence, quasiRandomPoint, scrambledSobolSequence } from '../../numerics/quasi-random.js';
import { seededRandom } from '../../numerics/seeded-random.js';
import type { Objective } from '../../provenance/given.js';
import type { DoubtGroup } from '../../provenance/rules/doubt-groups.js';
import { doubtGroupOf, OWN_WORDS, type UnknownEntry, unknownsOf } from '../../provenance/unknowns.js';
import { type Spread, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { RunInput } from '../candidate.js';
import type { Watch } from '../simulate/watch.js';

export const MODEL_ERROR = {
  halfWidth: 0.1,
  common: 0.8,
  words: 'error of the thermal model itself, 10 % of every rise',
  source: 'Aerospace 11 (5) 401, 2024; that most of it is common to all candidates is judgement',
} as const;
const MODEL = 'model';

/** More quasi-random directions than this gain nothing at the numbers of samples one can wait for. */
const MOST_QUASI_RANDOM = 48;
const MOST_TIMES = 200;
const EVEN_TIMES = 64;

/** Which numbers are drawn, how often, in which order: numbers of draws and dimensions [1], times [s]. */
export interface DoubtPlan {
  readonly samples: number;
  readonly seed: number;
  readonly names: readonly string[];
  readonly profile: readonly ProfileStep[];
  readonly objective: Objective;
  /** In falling order of likely influence. */
  readonly unknowns: readonly UnknownEntry[];
  readonly quasiRandom: number;
  readonly sequence: QuasiRandomSequence | undefined;
  /** Times of the bands [s]: the ends of the steps, filled up evenly. */
  readonly times: readonly number[];
  /** What a log has measured of one candidate, whose bands are wanted too. */
  readonly watch?: Watch;
}

/**
 * How a relative change of a number of each group carries into the winding's rise, roughly: from rise = (M/k_t)²·R/G for a given load. It
 * orders the unknowns for (1) and touches no figure.
 */
const ELASTICITY: { readonly [G in DoubtGroup]: number } = {
  // a degree is some 8 % of torque
  'blade-angle': 5,
  kv: 2,
  propeller: 1.5,
  drag: 1.5,
  resistance: 1,
  'slot-contact': 0.7,
  'stator-size': 0.7,
  reach: 0.7,
  'way-to-air': 0.5,
  'water-jacket': 0.5,
  weather: 0.5,
  'winding-capacity': 0.3,
  'body-capacity': 0.3,
  'no-load': 0.25,
  'loss-share': 0.25,
  'magnet-capacity': 0.2,
  'other-capacity': 0.2,
  'pack-capacity': 0.2,
  'cell-resistance': 0.2,
  'controller-capacity': 0.2,
  'way-within': 0.1,
  'jacket-at-rest': 0.1,
  'friction-share': 0.1,
  'cell-shape': 0.1,
  'open-circuit': 0.1,
  inductance: 0.1,
  controller: 0.1,
  ripple: 0.1,
  wiring: 0.1,
  ground: 0.1,
  mass: 0.1,
  other: 0.1,
};

function influence({ subject, spread, value }: UnknownEntry): number {
  const elasticity = subject === MODEL ? 1 : ELASTICITY[doubtGroupOf(subject)];
  switch (spread.shape) {
    case 'log-normal':
      return elasticity * spread.sigma;
    case 'normal':
      return (elasticity * spread.sd) / Math.max(Math.abs(value), 1);
    default:
      return 0;
  }
}

/** What is to be drawn. */
export interface DoubtAsk {
  /** Number of draws, 16 or more [1]. */
  readonly samples: number;
  /** Whole number from 0 to 2³² − 1 that decides the draws [1]. */
  readonly seed: number;
  readonly quasiRandom?: boolean;
  readonly watch?: Watch | undefined;
}

/** Plans `samples` draws. Throws RangeError for a number of samples or a seed that is no whole number, or fewer than 16 samples. */
export function planDoubt(
  candidates: readonly RunInput[],
  profile: readonly ProfileStep[],
  objective: Objective,
  { samples, seed, quasiRandom = true, watch }: DoubtAsk,
): DoubtPlan {
  if (!Number.isInteger(samples) || samples < 16) throw new RangeError(`Doubt is sampled 16 times or more, not ${samples}.`);
  const spread: Spread = { shape: 'normal', sd: MODEL_ERROR.halfWidth / STANDARD_DEVIATIONS_95 };
  const names = candidates.map(({ name }) => name);
  const model = { spread, value: 1, dimension: 'ratio' as const, subject: MODEL };
  const unknowns: UnknownEntry[] = [
    ...unknownsOf(candidates),
    { ...model, key: MODEL, group: MODEL, words: MODEL_ERROR.words, candidates: names },
    ...names.map((name) => ({
      ...model,
      key: modelKeys(name)[1],
      group: `${MODEL}@own`,
      words: `${MODEL_ERROR.words}${OWN_WORDS}`,
      candidates: [name],
    })),
  ];
  // sort is stable: equals keep the order of the scenario
  unknowns.sort((a, b) => influence(b) - influence(a));
  const dimension = quasiRandom ? Math.min(unknowns.length, MOST_QUASI_RANDOM) : 0;
  return {
    samples,
    seed,
    names,
    profile,
    objective,
    unknowns,
    quasiRandom: dimension,
    sequence: dimension === 0 ? undefined : scrambledSobolSequence(dimension, seed),
    times: timesOf(profile),
    ...(watch === undefined ? {} : { watch }),
  };
}

function timesOf(profile: readonly ProfileStep[]): number[] {
  const duration = profileDuration(profile);
  const times = new Set<number>([0, duration]);
  if (profile.length <= MOST_TIMES - EVEN_TIMES) {
    let time = 0;
    for (const step of profile) {
      time += step.duration;
      times.add(Math.min(duration, time));
    }
  }
  const even = profile.length <= MOST_TIMES - EVEN_TIMES ? EVEN_TIMES : MOST_TIMES - 1;
  for (let k = 1; k < even; k++) times.add((k * duration) / even);
  return [...times].sort((a, b) => a - b);
}

/** (1) u of every unknown, in the plan's order. */
export function sampleOf({ unknowns, quasiRandom, sequence, seed }: DoubtPlan, index: number): Float64Array {
  const u = new Float64Array(unknowns.length);
  if (sequence !== undefined) quasiRandomPoint(sequence, index, u);
  const random = seededRandom(seed, index + 1);
  for (let j = quasiRandom; j < u.length; j++) u[j] = random.fraction();
  return u;
}

/** (1) z of every unknown by key. */
export function deviatesOf(plan: DoubtPlan, index: number): Map<string, number> {
  const u = sampleOf(plan, index);
  return new Map(plan.unknowns.map(({ key }, j) => [key, inverseNormal(u[j])]));
}

/** (2) Factor on every temperature rise of a candidate in one draw [1]. */
export function modelFactor(deviate: (key: string) => number, name: string): number {
  const e = MODEL_ERROR.halfWidth / STANDARD_DEVIATIONS_95;
  const { common } = MODEL_ERROR;
  const [all, own] = modelKeys(name);
  return 1 + e * (Math.sqrt(common) * deviate(all) + Math.sqrt(1 - common) * deviate(own));
}

/** Keys of the model's error: what is common to all candidates, and a candidate's own. */
export const modelKeys = (name: string) => [MODEL, `${MODEL}@${name}`] as const;
