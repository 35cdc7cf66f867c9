/** Feasible and fitting first, then the objective; a tie falls to the cooler winding. */
import type { CandidateResult } from '../results/run-result.js';

/** What ranking looks at, nominal or in one sample; `objective` is better when smaller. */
export interface Standing {
  readonly fits: boolean;
  readonly feasible: boolean;
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

const tier = (s: Standing): number => (s.fits ? 0 : 2) + (s.feasible ? 0 : 1);

/** Negative where a ranks before b. */
export const compareStandings = (a: Standing, b: Standing): number =>
  tier(a) - tier(b) || a.objective - b.objective || a.winding - b.winding;

export const sameTier = (a: Standing, b: Standing): boolean => tier(a) === tier(b);

export function standingOf({ headline, facts, feasible }: CandidateResult, objective: string): Standing {
  const winding = headline.peakWindingTemperature.nominal;
  const time = (headline.timeToReserve ?? headline.timeToCutoff ?? headline.runTime).nominal;
  const figures = { winding, time, topSpeed: headline.topSpeed.nominal, mass: facts.mass };
  return { fits: facts.fits, feasible, objective: objectiveOf(figures, objective), winding };
}

export function rank(candidates: readonly CandidateResult[], objective: string): CandidateResult[] {
  return [...candidates].sort((a, b) => compareStandings(standingOf(a, objective), standingOf(b, objective)));
}
