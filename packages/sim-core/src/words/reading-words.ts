/** What was read, and what it made of a number, as sentences. @module */

import { listed } from '../problems/listed.js';
import { type Dimension, formatNumber, formatQuantity } from '../quantities/index.js';
import type { AssumedNumber } from '../results/assumption.js';
import type { Contradiction } from '../results/finding.js';
import type { ReadingLine, ReadingsResult } from '../results/readings-result.js';

const show = (value: number, dimension: Dimension): string =>
  dimension === 'temperature'
    ? formatQuantity(value, dimension, { unit: '°C', decimals: 0 })
    : formatQuantity(value, dimension, { significant: 3 });

const YOURS = 'your reading of ';
/** “your readings of 31.0 A and 58 °C on the can”. */
const told = (by: readonly string[]): string =>
  by.length > 1 && by.every((each) => each.startsWith(YOURS))
    ? `your readings of ${listed(by.map((each) => each.slice(YOURS.length)))}`
    : listed(by);

/** “narrowed by your reading of 31.0 A, from 65.0 mΩ (56.5 mΩ to 74.8 mΩ)”; nothing where nothing narrowed it. */
export function narrowedWords({ narrowed, dimension, low, high }: AssumedNumber): string | undefined {
  if (narrowed === undefined) return undefined;
  const width = narrowed.high - narrowed.low;
  const how = high - low < 0.95 * width ? 'narrowed' : 'moved';
  return `${how} by ${told(narrowed.by)}, from ${show(narrowed.value, dimension)} (${show(narrowed.low, dimension)} to ${show(narrowed.high, dimension)})`;
}

/** “battery current at 100 % throttle: 31.0 A read; 34.7 A were to be expected (30.1 A to 40.0 A), now 31.2 A”. */
export function readingSentence({ words, dimension, value, expected, since }: ReadingLine): string {
  const at = (x: number): string => show(x, dimension);
  return `${words}: ${at(value)} read; ${at(expected.value)} were to be expected (${at(expected.low)} to ${at(expected.high)}), ${at(since)} since`;
}

/** How the readings were taken in, beside their list. */
export function readingsNote({ lines, settled, effectiveDraws }: ReadingsResult): string {
  const count =
    lines.length === 1
      ? 'The reading narrows the numbers it speaks of'
      : `The ${lines.length} readings together narrow the numbers they speak of`;
  const how =
    effectiveDraws === undefined
      ? ''
      : ` The model bends too much there for a straight line, so draws were weighted by how well they agree, worth ${Math.round(effectiveDraws)} of 256.`;
  const lost = settled
    ? ''
    : ' No values were found that make all of them as true as can be: look at them, and take these numbers for rough.';
  return `${count}, for every candidate that shares them; the list of what was assumed tells which.${how}${lost}`;
}

/** “358 °C were read as temperature on the can 1:00 after the stop, where 24 °C were to be expected”. */
export const readWhere = ({ reading, dimension, value, bound }: Contradiction): string =>
  `${show(value, dimension)} were read as ${reading}, where ${show(bound, dimension)} were to be expected`;

/** What a reading contradicts, and what to do about it. */
export function contradictionSentence(finding: Contradiction): string {
  const { line, deviations, against, asked, written, askedDimension } = finding;
  const whole =
    against === undefined || asked === undefined || written === undefined || askedDimension === undefined
      ? 'It contradicts the other readings'
      : `To agree, the ${against} would have to be ${show(asked, askedDimension)}, not ${show(written, askedDimension)}`;
  return `Line ${line}: ${readWhere(finding)}, ${formatNumber(deviations, { decimals: 1 })} standard deviations off. ${whole}: look at the reading, its unit, and whether this was what was driven.`;
}
