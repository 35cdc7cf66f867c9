/** The sheets' oddities and the costliest numbers as paragraphs of at most 80 columns. @module */

import {
  type AuditResult,
  type CostlyEffect,
  type CostlyResult,
  costlyName,
  costlyValue,
  tipWords,
  withoutTips,
} from '@shaftwork/sim-core';
import { listed } from '@shaftwork/sim-core/problems';
import { type Dimension, formatQuantity } from '@shaftwork/sim-core/quantities';
import { TERMINAL_WIDTH, wrap } from './table.js';
import { textWidth } from './text-width.js';

/** A paragraph whose first line begins with `mark` and whose others stand below its text. */
export const hanging = (mark: string, text: string): string => mark + wrap(text, TERMINAL_WIDTH, ' '.repeat(textWidth(mark)));

const WEIGHT = { contradiction: 'Contradiction. ', unusual: 'Unusual. ', note: '' } as const;

/** Each oddity: what, what it would mean, what settles it. */
export function oddityText({ oddities }: AuditResult): string {
  if (oddities.length === 0) return 'Nothing on the sheets is odd.\n';
  return `${oddities
    .map((each) =>
      [
        hanging('  • ', `${WEIGHT[each.weight]}${each.says}`),
        hanging('    ', `${each.means} To settle it: ${lowerFirst(each.settles)} (${each.basis})`),
      ].join('\n'),
    )
    .join('\n')}\n`;
}

const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
/** Of the numbers that cost most, so many are told with what to do about them. */
const TOLD = 3;

/** The numbers to measure, the one that changes the answer soonest in front. */
export function costlyText({ numbers }: CostlyResult): string {
  const told = numbers.flatMap((number) => (number.advice === undefined ? [] : [{ ...number, advice: number.advice }])).slice(0, TOLD);
  if (told.length === 0) return 'No single number in doubt is worth measuring first.\n';
  return `${told
    .map((number, k) => {
      const { standing, effects, advice, low, high } = number;
      const amount = (value: number, { dimension, shown }: CostlyEffect): string =>
        dimension === 'temperature'
          ? formatQuantity(value, 'temperatureDifference', { significant: 2 })
          : formatQuantity<Dimension>(value, dimension, { unit: shown, significant: 2 });
      const moved = listed(
        effects.map(
          (each) =>
            `${each.words} of ${each.candidate} ±${amount(each.before, each)}${each.after === undefined ? '' : ` (±${amount(each.after, each)} once measured)`}`,
        ),
      );
      const tips = tipWords(number);
      const { effort, needsTheMotor, how, key } = advice;
      return [
        hanging(
          `  ${k + 1} `,
          `${costlyName(number)}${standing === 'missing' ? ', not given' : ''}: ${costlyValue(number, number.value)} (${costlyValue(number, low)} to ${costlyValue(number, high)})${moved === '' ? '' : ` moves ${moved}`}. ${tips.length === 0 ? 'It changes nothing of the choice by itself.' : `${upperFirst(listed(tips))}.`}`,
        ),
        hanging(
          '    ',
          `${effort === 'minutes' ? 'Minutes' : effort === 'an hour' ? 'An hour' : 'An afternoon'}${needsTheMotor ? ', with the motor' : ''}: ${how}. Write it as ${key}.`,
        ),
      ].join('\n');
    })
    .join('\n')}\n`;
}

/** Where one number alone changes the answer; a line each, and what leaves the choice as it is. */
export function tippingText(costly: CostlyResult): string {
  const tipping = costly.numbers.filter(({ tips }) => tips.length > 0);
  const steady = withoutTips(costly).map((number) => costlyName(number));
  const rest =
    steady.length === 0
      ? []
      : [
          hanging(
            '  ',
            `Within ${steady.length === 1 ? 'its 95 % interval this leaves' : 'their 95 % intervals these leave'} the choice as it is: ${steady.join('; ')}.`,
          ),
        ];
  return [
    'What one number alone would change',
    ...tipping.map((number) => hanging('  ', `${costlyName(number)}, ${costlyValue(number, number.value)}: ${listed(tipWords(number))}.`)),
    ...rest,
    '',
  ].join('\n');
}
