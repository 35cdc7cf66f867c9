/** The sheets' oddities and the costliest numbers as paragraphs of at most 80 columns. */
import type { AuditResult, CostlyResult } from '@shaftwork/sim-core';
import { formatNumber, formatQuantity } from '@shaftwork/sim-core/quantities';
import { TERMINAL_WIDTH, wrap } from './table.js';
import { textWidth } from './text-width.js';

/** A paragraph whose first line begins with `mark` and whose others stand below its text. */
export const hanging = (mark: string, text: string): string => mark + wrap(text, TERMINAL_WIDTH, ' '.repeat(textWidth(mark)));

const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

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

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
const kelvin = (value: number): string => `±${formatNumber(value, { significant: value < 10 ? 1 : 2 })} K`;

export function costlyText({ numbers }: CostlyResult): string {
  if (numbers.length === 0) return 'No single number in doubt is worth measuring first.\n';
  return `${numbers
    .map(({ words, standing, tolerance, dimension, effects, advice, changesChoiceTo, decidesLimits }, k) => {
      const off =
        tolerance.in === 'share'
          ? `±${formatNumber(100 * tolerance.halfWidth, { decimals: 0 })} %`
          : `±${formatQuantity(tolerance.halfWidth, dimension === 'temperature' ? 'temperatureDifference' : dimension)}`;
      const moved = listed(
        effects.map((each) => `${each.candidate}’s peak ${each.words} ${kelvin(each.before)} (${kelvin(each.after)} once measured)`),
      );
      const choice = [
        ...(changesChoiceTo === undefined ? [] : [`At one end of it ${changesChoiceTo} would lead.`]),
        ...(decidesLimits ? ['It decides whether the choice meets its limits.'] : []),
      ];
      const effort = `${advice.effort === 'minutes' ? 'Minutes' : advice.effort === 'an hour' ? 'An hour' : 'An afternoon'}${advice.needsTheMotor ? ', with the motor' : ''}: ${advice.how}.`;
      return [
        hanging(
          `  ${k + 1} `,
          `${words}, ${standing === 'missing' ? 'not given, ' : ''}${off}, moves ${moved}. ${choice.join(' ')}`.trimEnd(),
        ),
        hanging('    ', effort),
      ].join('\n');
    })
    .join('\n')}\n`;
}
