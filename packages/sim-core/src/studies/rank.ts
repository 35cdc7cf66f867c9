/** Feasible and fitting first, then the objective; a tie falls to the cooler winding. */
import type { CandidateResult } from '../results/run-result.js';

function objectiveOf(candidate: CandidateResult, objective: string): number {
  const { headline, facts } = candidate;
  switch (objective) {
    case 'longest':
      return -(headline.timeToReserve ?? headline.timeToCutoff ?? headline.runTime).nominal;
    case 'fastest':
      return -headline.topSpeed.nominal;
    case 'lightest':
      return facts.mass;
    default:
      return headline.peakWindingTemperature.nominal;
  }
}

export function rank(candidates: readonly CandidateResult[], objective: string): CandidateResult[] {
  const tier = (c: CandidateResult): number => (c.facts.fits ? 0 : 2) + (c.feasible ? 0 : 1);
  return [...candidates].sort(
    (a, b) =>
      tier(a) - tier(b) ||
      objectiveOf(a, objective) - objectiveOf(b, objective) ||
      a.headline.peakWindingTemperature.nominal - b.headline.peakWindingTemperature.nominal,
  );
}
