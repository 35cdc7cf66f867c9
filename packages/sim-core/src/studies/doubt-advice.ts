/**
 * What a measurement would do for a choice, from samples at hand.
 *
 *   (1) Y > 0: the choice is right;  Y ~ N(m, s²), by its ranks;  what is measured takes S' = S·(1 − (a/w)²) of s² out of doubt
 *   (2) chance of error before: Φ(−|m|/s); after, with the better choice made each time: E[ Φ( −|m + s√S'·x| / (s√(1 − S')) ) ], x ~ N(0, 1)
 *   (3) told: the chance counted in the samples, times the ratio of (2)'s two
 *
 * S is the first-order share of what is measured in Y's variance, w the 95 % half-width its data have now, a that of the measurement.
 * *Leaves out*: measuring several things; skewness of Y (the counted chance carries it).
 * *Source*: expected value of sample information: H. Raiffa & R. Schlaifer, Applied Statistical Decision Theory, Harvard 1961, ch. 5.
 */
import { normalDistribution } from '../numerics/normal-distribution.js';
import { OWN_WORDS, type UnknownEntry } from '../provenance/unknowns.js';
import { halfWidth95 } from '../quantities/index.js';
import type { Measurement, SensitivityShare } from '../results/doubt-result.js';
import { measurementOf, trouble } from './measurements.js';

/** A measurement counts as useful when it takes a tenth of the doubt away, and as good as the best when it takes half of what that one takes. */
const USEFUL = 0.1;
const AS_GOOD = 0.5;

/** (2), as the ratio of after to before [1]; `ratio` = m/s, `share` = S'. */
export function errorRatio(ratio: number, share: number): number {
  const before = normalDistribution(-Math.abs(ratio));
  if (share <= 0 || before === 0) return 1;
  if (share >= 1) return 0;
  const [steps, reach] = [200, 5];
  let after = 0;
  let weight = 0;
  for (let k = 0; k <= steps; k++) {
    const x = reach * ((2 * k) / steps - 1);
    const density = Math.exp(-0.5 * x * x);
    weight += density;
    after += density * normalDistribution(-Math.abs(ratio + Math.sqrt(share) * x) / Math.sqrt(1 - share));
  }
  return Math.min(1, after / weight / before);
}

/** 95 % half-width of one candidate's data now, as a share of the value; common and own parts together. */
function halfWidthOf(entries: readonly UnknownEntry[]): number {
  const half = ({ spread, value }: UnknownEntry): number =>
    spread.shape === 'normal' ? halfWidth95(spread) / Math.max(Math.abs(value), Number.MIN_VALUE) : halfWidth95(spread);
  const own = entries.filter(({ key }) => key.includes('@')).map(half);
  const rest = entries.filter(({ key }) => !key.includes('@')).map(half);
  return Math.hypot(Math.max(0, ...own), Math.max(0, ...rest));
}

/** Useful measurements, the one to make first in front: of those as good as the best, the least trouble. */
export function adviceOf(
  shares: readonly SensitivityShare[],
  unknowns: readonly UnknownEntry[],
  chanceOfError: number,
  ratio: number,
): Measurement[] {
  // one measurement settles a subject on every candidate it stands for
  const subjects = new Map<string, SensitivityShare[]>();
  for (const share of shares) {
    const subject = unknowns.find((entry) => entry.group === share.group)?.subject;
    if (subject !== undefined) subjects.set(subject, [...(subjects.get(subject) ?? []), share]);
  }
  const found: Measurement[] = [];
  for (const [subject, members] of subjects) {
    const method = measurementOf(subject);
    if (method === undefined) continue;
    const groups = members.map(({ group }) => group);
    const width = halfWidthOf(unknowns.filter(({ group }) => groups.includes(group)));
    if (!(method.accuracy < width)) continue;
    const share = members.reduce((sum, each) => sum + each.share, 0) * (1 - (method.accuracy / width) ** 2);
    const after = chanceOfError * errorRatio(ratio, Math.min(1, share));
    if (after > (1 - USEFUL) * chanceOfError) continue;
    const { how, effort, needsTheMotor } = method;
    const candidates = members.some((each) => each.candidates.length === 0) ? [] : [...new Set(members.flatMap((each) => each.candidates))];
    found.push({
      groups,
      words: members[0]!.words.replace(OWN_WORDS, ''),
      candidates,
      how,
      effort,
      needsTheMotor,
      before: chanceOfError,
      after,
    });
  }
  found.sort((a, b) => a.after - b.after);
  const best = found[0];
  if (best === undefined) return [];
  const good = (each: Measurement): boolean => each.before - each.after >= AS_GOOD * (best.before - best.after);
  return found.sort((a, b) => Number(good(b)) - Number(good(a)) || (good(a) ? trouble(a) - trouble(b) : 0) || a.after - b.after);
}
