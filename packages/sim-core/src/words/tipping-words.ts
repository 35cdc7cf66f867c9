/** Where one number alone changes the answer, and what to measure first, in words. @module */

import { listed } from '../problems/listed.js';
import { formatQuantity } from '../quantities/index.js';
import type { CostlyNumber, CostlyResult, MeasurementAdvice, Tip } from '../results/costly-result.js';

/** "controller to air" of words that go on with a rule's formula. */
export const bareName = (words: string): string =>
  words
    .split(/: |, (?=[\d×])/)[0]
    .replace(/ \([^)]*$/, '')
    .replace(/,$/, '');

/** "winding resistance of Long", "controller to air": a rule's own formula is left out. */
export function costlyName({ words, candidates, standing }: CostlyNumber): string {
  const name = bareName(words);
  if (candidates.length === 0) return name;
  return standing === 'missing' ? `${name} (${listed(candidates, 'and')})` : `${name} of ${listed(candidates, 'and')}`;
}

/** The number as people write it, with its unit. */
export const costlyValue = ({ dimension }: CostlyNumber, value: number): string => formatQuantity(value, dimension, { significant: 3 });

/** "Wide leads", "Long fails its limit of winding temperature", "Long meets its limits". */
function consequence({ kind, candidate, words }: Tip): string {
  if (kind === 'leads') return `${candidate} leads`;
  if (kind === 'meets') return `${candidate} meets its limits`;
  return words === undefined ? `${candidate} does not finish` : `${candidate} passes its limit of ${words}`;
}

/** "below 0.77 W/K Wide leads", one for each side that has one. */
export const tipWords = (number: CostlyNumber): string[] =>
  number.tips.map((tip) => `${tip.at < number.value ? 'below' : 'above'} ${costlyValue(number, tip.at)} ${consequence(tip)}`);

/** What stays as it is, of the numbers looked at. */
export const withoutTips = ({ numbers }: CostlyResult): readonly CostlyNumber[] => numbers.filter(({ tips }) => tips.length === 0);

/** The number to measure first: of those that can be measured and written down the first, where it changes the answer or the sheet lacks it. */
export function measureFirst({ numbers }: CostlyResult): (CostlyNumber & { readonly advice: MeasurementAdvice }) | undefined {
  for (const number of numbers) {
    const { advice, tips, lacksOnSheet } = number;
    if (advice !== undefined) return tips.length === 0 && !lacksOnSheet ? undefined : { ...number, advice };
  }
  return undefined;
}

/** The advice in a sentence; undefined where nothing to measure changes the answer by itself. */
export function measureFirstSentence(costly: CostlyResult): string | undefined {
  const number = measureFirst(costly);
  if (number === undefined) return undefined;
  const { how, effort, needsTheMotor, key } = number.advice;
  const first = number.lacksOnSheet ? 'Ask the seller for, or measure first,' : 'Measure first:';
  const tips = tipWords(number);
  return `${first} ${costlyName(number)}, ${costlyValue(number, number.value)}${tips.length === 0 ? '' : `; ${listed(tips, 'and')}`}. How (${effort}${needsTheMotor ? ', with the motor' : ''}): ${how}. Write it as ${key}.`;
}
