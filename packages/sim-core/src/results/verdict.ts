/** The verdict in sentences, each made from the figures it speaks of. */
import { formatClock, formatQuantity } from '../quantities/index.js';
import type { CandidateResult, LimitResult } from './run-result.js';

const shown = (limit: LimitResult, value: number): string =>
  formatQuantity(value, limit.dimension, { unit: limit.shown as never, decimals: limit.dimension === 'voltage' ? 2 : 0 });

/** "27 K", "4 A": what is left of a limit, a temperature's as a difference. */
const left = (limit: LimitResult): string =>
  limit.dimension === 'temperature' ? `${Math.abs(limit.margin).toFixed(0)} K` : shown(limit, Math.abs(limit.margin));

export function standing(candidate: CandidateResult): string {
  const passed = candidate.limits.filter((limit) => limit.passedAt !== undefined).sort((a, b) => a.passedAt! - b.passedAt!)[0];
  if (passed !== undefined) {
    return `${candidate.name} passes its limit of ${passed.words} (${shown(passed, passed.bound)}) at ${formatClock(passed.passedAt!)} and reaches ${shown(passed, passed.worst)}.`;
  }
  if (candidate.end === 'failed')
    return `${candidate.name} stops at ${formatClock(candidate.headline.runTime.nominal)}: there is no operating point.`;
  if (candidate.end !== 'finished')
    return `${candidate.name} ends at ${formatClock(candidate.headline.runTime.nominal)}: the cells are ${candidate.end === 'empty' ? 'empty' : 'at their cut-off'}.`;
  const binding = candidate.limits[0];
  if (binding === undefined) return `${candidate.name} finishes the run; no limit was given.`;
  return `${candidate.name} finishes the run within every limit; the nearest is ${binding.words}, ${shown(binding, binding.worst)} against ${shown(binding, binding.bound)}, ${left(binding)} to spare.`;
}

export function verdictOf(ranked: readonly CandidateResult[], objective: string): string[] {
  const [first, second] = ranked;
  if (first === undefined) return [];
  const sentences: string[] = [];
  if (first.feasible) {
    sentences.push(`Choose ${first.name}${ranked.length > 1 ? ` (${objective} of those that meet every limit)` : ''}.`);
  } else sentences.push(ranked.length > 1 ? 'No candidate meets every limit.' : `${first.name} does not meet every limit.`);
  sentences.push(standing(first));
  if (second !== undefined) {
    sentences.push(standing(second));
    const difference = second.headline.peakWindingTemperature.nominal - first.headline.peakWindingTemperature.nominal;
    const size = Math.abs(difference).toFixed(0);
    if (size !== '0')
      sentences.push(`The winding of ${first.name} peaks ${size} K ${difference > 0 ? 'cooler' : 'hotter'} than that of ${second.name}.`);
  }
  for (const other of ranked.slice(2)) sentences.push(standing(other));
  sentences.push('These figures are nominal: the tolerances of the data are listed but not yet carried into the ranking.');
  return sentences;
}
