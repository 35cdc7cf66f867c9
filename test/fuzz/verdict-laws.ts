/** Laws over ranking and verdict: what the words say is what the figures say. */
import { type CandidateResult, type RunResult, stepNotHeld } from '@shaftwork/sim-core';

/** Words that a sentence for people never has. */
export const NO_WORDS = /NaN|Infinity|undefined|\bnull\b|\[object/;

const meetsAll = (each: CandidateResult): boolean => each.feasible && each.facts.fits && stepNotHeld(each.findings) === undefined;

/** The figure of each objective; smaller is better. */
export const FIGURE: Readonly<Record<string, (each: CandidateResult) => number>> = {
  longest: ({ headline, outlasts = Number.NaN }) => -((headline.timeToReserve ?? headline.timeToCutoff)?.nominal ?? outlasts),
  fastest: ({ headline }) => -headline.topSpeed.nominal,
  lightest: ({ facts }) => facts.mass,
  coolest: ({ headline }) => headline.peakWindingTemperature.nominal,
};

export function verdictLawsBroken({ ranking, candidates, scenario, verdict }: RunResult): string[] {
  const found: string[] = [];
  const order = ranking.flatMap((name) => candidates.filter((each) => each.name === name));
  if (order.length !== candidates.length || new Set(ranking).size !== order.length) return [`the ranking is ${ranking.join()}`];
  const figure = FIGURE[scenario.objective];
  for (const [k, each] of order.entries()) {
    const before = order[k - 1];
    if (before === undefined || !meetsAll(each)) continue;
    if (!meetsAll(before)) found.push(`${each.name} meets all, and stands after ${before.name}`);
    else if (figure(each) < figure(before) - 1e-9 * Math.abs(figure(before)))
      found.push(`${scenario.objective}: ${before.name} with ${figure(before)} before ${each.name} with ${figure(each)}`);
  }
  const said = verdict.join(' ');
  const [first] = order;
  if (!said.includes(first.name)) found.push('the verdict does not name the first');
  if (/^Choose |^(?!None ).*meets every limit[.,]/.test(verdict[0]) && !meetsAll(first))
    found.push(`“${verdict[0]}”, but ${first.name} does not`);
  if (/does not|None of/.test(verdict[0]) && meetsAll(first)) found.push(`“${verdict[0]}”, but ${first.name} does`);
  if (NO_WORDS.test(said)) found.push(`the verdict says “${said}”`);
  if (/-\d[\d.]*\s\S+ to spare/.test(said)) found.push(`the verdict spares less than nothing: “${said}”`);
  return found;
}
