/** What fits, meets its limits and holds every step first, then the objective; a tie falls to the cooler winding. */
import { stepNotHeld } from '../results/finding.js';
import type { CandidateResult } from '../results/run-result.js';

/** What ranking looks at, nominal or in one sample; `objective` is better when smaller. */
export interface Standing {
  readonly fits: boolean;
  readonly feasible: boolean;
  /** Whether every step of the profile is held. */
  readonly holds: boolean;
  readonly objective: number;
  /** Peak winding temperature [K]. */
  readonly winding: number;
}

/** The figures an objective is read from; smaller is better. */
export function objectiveOf(
  figures: { readonly winding: number; readonly time: number; readonly topSpeed: number; readonly mass: number },
  objective: string,
): number {
  switch (objective) {
    case 'longest':
      return -figures.time;
    case 'fastest':
      return -figures.topSpeed;
    case 'lightest':
      return figures.mass;
    default:
      return figures.winding;
  }
}

const tier = (s: Standing): number => (s.fits ? 0 : 2) + (s.feasible && s.holds ? 0 : 1);

/** Negative where a ranks before b. */
export const compareStandings = (a: Standing, b: Standing): number =>
  tier(a) - tier(b) || a.objective - b.objective || a.winding - b.winding;

export const sameTier = (a: Standing, b: Standing): boolean => tier(a) === tier(b);

export function standingOf({ headline, facts, feasible, findings }: CandidateResult, objective: string): Standing {
  const winding = headline.peakWindingTemperature.nominal;
  const time = (headline.timeToReserve ?? headline.timeToCutoff ?? headline.runTime).nominal;
  const figures = { winding, time, topSpeed: headline.topSpeed.nominal, mass: facts.mass };
  const holds = stepNotHeld(findings) === undefined;
  return { fits: facts.fits, feasible, holds, objective: objectiveOf(figures, objective), winding };
}

export function rank(candidates: readonly CandidateResult[], objective: string): CandidateResult[] {
  return [...candidates].sort((a, b) => compareStandings(standingOf(a, objective), standingOf(b, objective)));
}
