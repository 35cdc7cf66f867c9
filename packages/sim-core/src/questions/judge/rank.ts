/**
 * What fits, meets its limits and holds every step first, then the objective; a tie falls to the cooler winding. Among those that fail, the
 * one that drives more of the run comes first, then the one that passes fewer limits and loses fewer steps, then the one
 * whose worst step lacks less of what it asks for, and only then the objective:
 * what stops early is cool for no merit of its own.
 *
 * @module
 */

import { entryOf } from '../../problems/certain.js';
import type { Objective } from '../../provenance/given.js';
import { fallsShort, greatestLack, stepNotHeld } from '../../results/finding.js';
import { objectiveFigures, objectiveOf } from '../../results/objectives.js';
import type { CandidateResult } from '../../results/run-result.js';
import type { NearestBy } from '../../words/verdict.js';

/** What ranking looks at, nominal or in one sample; `objective` is better when smaller. */
export interface Standing {
  readonly fits: boolean;
  readonly feasible: boolean;
  /** Whether every step of the profile is held. */
  readonly holds: boolean;
  /** Share of the run that was driven [1], and how many limits were passed or steps not held. */
  readonly driven: number;
  readonly failures: number;
  /** Share that the worst of the steps not held lacks of what it asks for [1]. */
  readonly lack: number;
  readonly objective: number;
  /** Peak winding temperature [K]. */
  readonly winding: number;
}

const passes = (s: Standing): boolean => s.feasible && s.holds;
const tier = (s: Standing): number => (s.fits ? 0 : 2) + (passes(s) ? 0 : 1);
/** Shares count to the whole per cent: less is no merit. */
const percent = (share: number): number => Math.round(100 * share);

/** Negative where a fails less than b; 0 where both pass or fail alike. */
export const compareFailures = (a: Standing, b: Standing): number =>
  passes(a) || passes(b) ? 0 : percent(b.driven) - percent(a.driven) || a.failures - b.failures || percent(a.lack) - percent(b.lack);

/** Figures closer than this share are equal, and rounding decides nothing [1]. */
const EQUAL = 1e-9;
const apart = (a: number, b: number): number => (Math.abs(a - b) <= EQUAL * Math.max(Math.abs(a), Math.abs(b)) ? 0 : a - b);

/** Negative where a ranks before b. */
export const compareStandings = (a: Standing, b: Standing): number =>
  tier(a) - tier(b) || compareFailures(a, b) || apart(a.objective, b.objective) || apart(a.winding, b.winding);

export const sameTier = (a: Standing, b: Standing): boolean => tier(a) === tier(b) && compareFailures(a, b) === 0;

/** How a run stands; `duration` of the profile [s]. */
export function standingOf(candidate: CandidateResult, objective: Objective, duration: number): Standing {
  const { headline, facts, feasible, findings, limits } = candidate;
  const figures = objectiveFigures(candidate);
  const lost = findings.filter((finding) => finding.kind === 'step-not-held').filter(fallsShort);
  return {
    fits: facts.fits,
    feasible,
    holds: stepNotHeld(findings) === undefined,
    driven: headline.runTime.nominal / duration,
    failures: limits.filter(({ passed }) => passed !== undefined).length + lost.length,
    lack: greatestLack(lost),
    objective: objectiveOf(figures, objective),
    winding: figures.winding,
  };
}

export function rank(candidates: readonly CandidateResult[], objective: Objective, duration: number): CandidateResult[] {
  const standing = new Map(candidates.map((each) => [each, standingOf(each, objective, duration)]));
  // what is equal in all of that comes by its name, not by its place in the file
  return [...candidates].sort((a, b) => compareStandings(entryOf(standing, a), entryOf(standing, b)) || (a.name < b.name ? -1 : 1));
}

/** How many of `ranked`, the best first, stand in one tier with the first and fail no more than it does. */
export function asGoodAsFirst(ranked: readonly CandidateResult[], objective: Objective, duration: number): number {
  const [first, ...others] = ranked.map((each) => standingOf(each, objective, duration));
  return first === undefined ? 0 : 1 + others.filter((other) => sameTier(first, other)).length;
}

/** What sets those that come nearest before the next, none of them doing all that is asked; undefined where nobody is behind them, or only by the objective. */
export function nearestBy(ranked: readonly CandidateResult[], objective: Objective, duration: number): NearestBy | undefined {
  const behind = ranked[asGoodAsFirst(ranked, objective, duration)];
  if (behind === undefined) return undefined;
  const [first, next] = [ranked[0], behind].map((each) => standingOf(each, objective, duration));
  if (first.fits !== next.fits) return 'fits';
  if (percent(first.driven) !== percent(next.driven)) return 'driven';
  return first.failures === next.failures ? 'lack' : 'failures';
}
