/** What drives the spread of a number: first-order shares from the samples at hand, by group of unknowns. @module */

import { additiveFit, type FitInputs, firstOrderShare } from '../../numerics/additive-fit.js';
import { mean, standardDeviation } from '../../numerics/quantiles.js';
import type { Dimension } from '../../quantities/index.js';
import type { Sensitivity, SensitivityShare } from '../../results/doubt-result.js';
import { type DoubtPlan, sampleOf } from './plan.js';

/** u of every sample, a column an unknown. */
export function inputColumns(plan: DoubtPlan): Float64Array[] {
  const columns = plan.unknowns.map(() => new Float64Array(plan.samples));
  for (let i = 0; i < plan.samples; i++) {
    const u = sampleOf(plan, i);
    for (let j = 0; j < u.length; j++) columns[j][i] = u[j];
  }
  return columns;
}

/** First-order shares of `values` by group; only the unknowns of the named candidates come into question. */
export function sensitivityOf(
  plan: DoubtPlan,
  inputs: FitInputs,
  words: string,
  dimension: Dimension,
  values: Float64Array,
  candidates: readonly string[],
): Sensitivity {
  const deviation = standardDeviation(values);
  // rounding of the integration is no doubt
  if (!(deviation > 1e-9 * Math.max(1e-6, Math.abs(mean(values))))) return { words, dimension, standardDeviation: 0, shares: [], rest: 0 };
  const { unknowns, names } = plan;
  const among = unknowns.flatMap((entry, j) => (entry.candidates.some((name) => candidates.includes(name)) ? [j] : []));
  const fit = additiveFit(inputs, values, among);
  const groups = new Map<string, number[]>();
  for (const j of among) {
    const { group } = unknowns[j];
    groups.set(group, [...(groups.get(group) ?? []), j]);
  }
  const shares: SensitivityShare[] = [];
  for (const [group, members] of groups) {
    const { share, error } = firstOrderShare(fit, members, plan.samples);
    if (!(share > 0.005 && share > error)) continue;
    const entry = unknowns[members[0]];
    const whose = new Set(members.flatMap((j) => unknowns[j].candidates));
    shares.push({
      group,
      words: entry.words,
      candidates: whose.size === names.length && !group.endsWith('@own') ? [] : [...whose],
      share,
      error,
    });
  }
  shares.sort((a, b) => b.share - a.share);
  const told = shares.reduce((sum, { share }) => sum + share, 0);
  // first-order shares are parts of one whole: where sampling noise takes their sum past it, they are scaled back to it
  const scale = Math.max(1, told);
  const scaled = shares.map((each) => ({ ...each, share: each.share / scale, error: each.error / scale }));
  return { words, dimension, standardDeviation: deviation, shares: scaled, rest: Math.max(0, 1 - told) };
}
