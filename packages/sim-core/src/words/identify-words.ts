/** What was identified, in words: numbers with intervals, why a log does not tell one, how well the laws fit. @module */
import { type Dimension, formatNumber, formatQuantity, handyUnit, toUnit, unitSign } from '../quantities/index.js';
import type { FoundNumber, IdentifyResult, NotTold, ReadingFit } from '../results/identify-result.js';

/** Digits after the point of interval and value alike: as many as two digits of the half-width need. */
function decimalsOf({ value, low, high, dimension }: FoundNumber): number {
  const unit = handyUnit(value, dimension);
  const half = Math.abs(toUnit(high, unit) - toUnit(low, unit)) / 2;
  return half > 0 ? Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(half)))) : 3;
}

/** Name of a number with whose it is and where it holds: "torque of P1 at 18 600 rpm". */
export function numberName({ words, of, at }: FoundNumber): string {
  const where = at === undefined ? '' : ` at ${formatQuantity(at.value, at.dimension, { significant: 3 })}`;
  return `${words}${of === undefined ? '' : ` of ${of}`}${where}`;
}

/** Value with its unit, and both ends of the interval in the same unit. */
export function numberParts(number: FoundNumber): { readonly value: string; readonly interval: string } {
  const unit = handyUnit(number.value, number.dimension);
  const decimals = decimalsOf(number);
  const shown = (x: number): string => formatNumber(toUnit(x, unit), { decimals });
  const sign = unitSign(unit);
  return {
    value: `${shown(number.value)}${sign === '' ? '' : `\u202f${sign}`}`,
    interval: `${shown(number.low)} to ${shown(number.high)}`,
  };
}

/** "± 6 %", of a share. */
export const shareText = (share: number): string =>
  share > 9.99 ? 'no bound' : `±\u202f${formatNumber(100 * share, { significant: 2 })}\u202f%`;

/** Half-width of a number's interval as a share. */
export const shareOf = ({ value, low, high }: FoundNumber): number => Math.max(high / value, value / low) - 1;

/** Why the log does not tell a number, and which run would. */
export function notToldSentence(number: FoundNumber, instead: NotTold): string {
  const { usual, from, run } = instead;
  const width = shareText(shareOf(number));
  const why =
    from === undefined
      ? ''
      : ` It cannot be parted from ${ofWhat(from.words)} (correlation ${formatNumber(from.correlation, { decimals: 2 })}).`;
  const would = run === undefined ? '' : ` What would tell it: ${run.words}, to ${shareText(run.left)}.`;
  return `The log does not tell the ${numberName(number)}: ${width} with it, ${shareText(usual)} without.${why}${would}`;
}
const ofWhat = (words: string): string => (/^(what|how)/.test(words) ? words : `the ${words}`);

/** How one kind of reading fits. */
export function fitSentence({ words, dimension, count, left, outliers, pattern, alongWords }: ReadingFit): string {
  const size = formatQuantity(left, differenceOf(dimension), { significant: 2 });
  const off = outliers === 0 ? '' : `, ${outliers} of them far off and counted little`;
  const odd =
    pattern > MISFIT ? ` What is left follows ${alongWords}: the laws leave something out there, and the intervals are too narrow.` : '';
  return `${words[0].toUpperCase()}${words.slice(1)}: ${count} rows within ${size} (root mean square)${off}.${odd}`;
}
const differenceOf = (dimension: Dimension): Dimension => (dimension === 'temperature' ? 'temperatureDifference' : dimension);

/** Above this pattern what a fit leaves is no chance. */
export const MISFIT = 4;

/** Whether the laws leave something out that the log shows. */
export const misfits = ({ fits, settled }: IdentifyResult): boolean => !settled || fits.some(({ pattern }) => pattern > MISFIT);

/** What the whole identification comes to, in a sentence or two. */
export function identifySentence(result: IdentifyResult): string {
  const told = result.numbers.filter((number) => number.told).length;
  const thing = { motor: 'motor', heat: 'motor’s heat', pack: 'pack' }[result.kind];
  const sure = result.settled ? '' : ' The fit did not settle: do not use its numbers.';
  return `${result.rows} rows determine ${told} of ${result.numbers.length} numbers of the ${thing}; ${result.rank} of ${result.unknowns} unknown directions are told by the log, the rest by rules.${sure}`;
}
