/** Why, in a sentence made from the figures: the difference, its largest parts, what goes against it, and what limits the split. @module */

import { listed } from '../problems/listed.js';
import { formatClock } from '../quantities/index.js';
import type { WhyPart, WhyResult, WhySplit } from '../results/why-result.js';

const size = ({ dimension }: WhySplit, value: number): string =>
  dimension === 'temperature' ? `${Math.abs(value).toFixed(0)} K` : formatClock(Math.abs(value));

/** " (31 K by the way from winding to can, 8 K by the can’s side)": the ways of the heat paths that go the same direction. */
function waysOf(split: WhySplit, { value, ways = [] }: WhyPart): string {
  const named = ways.filter((way) => way.value * value > 0 && Math.abs(way.value) >= 0.5);
  return named.length === 0 ? '' : ` (${listed(named.map((way) => `${size(split, way.value)} by ${way.words}`))})`;
}

/** Parts worth naming: a tenth of the largest, and enough to show in whole units. */
const worthNaming = (split: WhySplit, parts: readonly WhyPart[]): WhyPart[] => {
  const largest = Math.max(...split.parts.map(({ value }) => Math.abs(value)));
  return parts.filter(({ value }) => Math.abs(value) >= 0.1 * largest && Math.abs(value) >= 0.5);
};

function splitSentence(from: string, to: string, split: WhySplit): string {
  const { difference, words, parts } = split;
  const temperature = split.dimension === 'temperature';
  if (Math.abs(difference) < 0.5) return `${to} and ${from} have the same ${words}.`;
  const compared = temperature ? (difference < 0 ? 'lower' : 'higher') : difference < 0 ? 'shorter' : 'longer';
  const named = (sign: number): string =>
    listed(
      worthNaming(
        split,
        parts.filter(({ value }) => value * sign > 0),
      ).map((part) => `${size(split, part.value)} from ${part.words}${waysOf(split, part)}`),
    );
  const [along, against] = [named(Math.sign(difference)), named(-Math.sign(difference))];
  return `The ${words} of ${to} is ${size(split, difference)} ${compared} than that of ${from}: ${along === '' ? 'many small parts' : along}${against === '' ? '' : `, against ${against}`}.`;
}

/** Why two candidates differ, in a sentence or two. */
export function whySentence({ from, to, splits, simulations, capped }: Omit<WhyResult, 'sentence'>): string {
  const sentences = splits.map((split) => splitSentence(from, to, split));
  if (splits.some((split) => split.interactionsExceedParts && Math.abs(split.difference) >= 0.5)) {
    sentences.push('The parts act more together than alone, so the split says little.');
  }
  if (capped.length > 0) {
    const many = capped.length === 1 ? 'One mixture' : `${capped.length} mixtures`;
    sentences.push(`${many} of the two had no operating point and counted as the hottest that had one.`);
  }
  sentences.push(`(${simulations} simulations)`);
  return sentences.join(' ');
}
