/**
 * What changed between two benches of one motor, or two discharges of one pack: only what lies outside the intervals.
 *
 *   (1) change = ln(after/before),  variance = both fits' own, the gains of the instruments held: the same instruments read both times
 *   (2) a winding whose temperature nobody read may have been 20 K off each time: 8 % of a resistance (common practice, no published source)
 *
 * *Holds for* the same instruments, propellers and controller. *Source* numerics/information.ts; what changes point at: common practice, no published source.
 * @module
 */

import { heldCovariance } from '../../numerics/information.js';
import { RULES } from '../../provenance/rules/rules.js';
import { STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { ChangedNumber, ChangeFinding, ChangeResult } from '../../results/change-result.js';
import { type FittedBench, fittedBench, type MotorAsk, slopeOf, variance } from './identify-motor.js';
import { type FittedPack, fittedPack, PACK_NUMBERS, type PackAsk } from './identify-pack.js';
import { namedValues } from './motor-numbers.js';
import { WINDING_UNSURE } from './part-text.js';

const COPPER = RULES['copper-coefficient'].value;

/** Constants of the motor before and after, told apart where they differ. Throws RangeError where a bench tells nothing. */
export const changedMotor = (before: MotorAsk, after: MotorAsk): ChangeResult =>
  changedBenches(before, after, [fittedBench(before), fittedBench(after)]);

type Asked = Pick<MotorAsk, 'sources' | 'taken'>;

/** The same of benches that are fitted. */
export function changedBenches(before: Asked, after: Asked, [a, b]: readonly [FittedBench, FittedBench]): ChangeResult {
  const unread = [a, b].filter(({ rows }) => Array.from(rows.winding).some(Number.isNaN)).length;
  const heat = (Math.sqrt(unread) * COPPER * WINDING_UNSURE) / STANDARD_DEVIATIONS_95;
  const covariances = [a, b].map(({ model, fit }) =>
    heldCovariance(
      fit.covariance,
      model.list.flatMap(({ kind }, j) => (kind === 'gain' ? [j] : [])),
    ),
  );
  const numbers = a.derived.flatMap((each): ChangedNumber[] => {
    if (each.key === 'resistance' || each.key === 'idle') return [];
    const [first, second] = [a, b].map(({ model, fit }) => each.value(namedValues(model, fit.deviates)));
    if (!(first > 0 && second > 0)) return [];
    const sds = [a, b].map(({ model, fit }, k) => Math.sqrt(variance(covariances[k], slopeOf(each, model, fit.deviates))));
    const sd = Math.hypot(...sds, each.key === 'whole' || each.key === 'inductance' ? heat : 0);
    return [changed(each, first, second, sd, Math.max(a.fit.quantile, b.fit.quantile))];
  });
  return {
    kind: 'motor',
    before: before.sources,
    after: after.sources,
    numbers,
    findings: motorFindings(numbers),
    taken: [
      ...takenBoth(before, after),
      ...(unread === 0 ? [] : ['the winding’s temperature was not read: it may differ by 20 K each time, which a resistance shows']),
    ],
    settled: a.fit.settled && b.fit.settled,
  };
}

/** Numbers of the pack before and after, told apart where they differ. Throws RangeError where a discharge tells nothing. */
export const changedPack = (before: PackAsk, after: PackAsk): ChangeResult =>
  changedPacks(before, after, [fittedPack(before), fittedPack(after)]);

/** The same of discharges that are fitted. */
export function changedPacks(before: Asked, after: Asked, [a, b]: readonly [FittedPack, FittedPack]): ChangeResult {
  const gains = (pack: FittedPack): number[] => pack.model.list.flatMap(({ kind }, j) => (kind === 'gain' ? [j] : []));
  const covariances = [a, b].map((each) => heldCovariance(each.fit.covariance, gains(each)));
  const numbers = PACK_NUMBERS.map((each): ChangedNumber => {
    const j = a.model.list.findIndex(({ key }) => key === each.key);
    const [first, second] = [a, b].map(({ model, fit }) => model.values(fit.deviates).get(each.key) ?? Number.NaN);
    const sds = [a, b].map(({ model }, k) => model.list[j].deviation * Math.sqrt(covariances[k][j][j]));
    return changed(each, first, second, Math.hypot(...sds), Math.max(a.fit.quantile, b.fit.quantile));
  });
  return {
    kind: 'pack',
    before: before.sources,
    after: after.sources,
    numbers,
    findings: packFindings(numbers),
    taken: takenBoth(before, after),
    settled: a.fit.settled && b.fit.settled,
  };
}

/** What was taken of either log, and of both. */
const takenBoth = (before: Asked, after: Asked): string[] => [
  ...before.taken.map((each) => `before: ${each}`),
  ...after.taken.map((each) => `after: ${each}`),
  'the same instruments both times: their gains do not count',
];

function changed(
  { key, words, of, at, dimension }: Pick<ChangedNumber, 'key' | 'words' | 'of' | 'at' | 'dimension'>,
  before: number,
  after: number,
  sd: number,
  quantile: number,
): ChangedNumber {
  const ratio = after / before;
  const factor = Math.exp(quantile * sd);
  const [low, high] = [ratio / factor - 1, ratio * factor - 1];
  return {
    key,
    words,
    ...(of === undefined ? {} : { of }),
    ...(at === undefined ? {} : { at }),
    dimension,
    before,
    after,
    change: ratio - 1,
    low,
    high,
    outside: low > 0 || high < 0,
  };
}

/** −1, 0 or 1: which way a number went, where that is outside its interval; the first of several. */
const wayOf = (numbers: readonly ChangedNumber[], key: string): number => {
  const moved = numbers.filter((each) => each.key === key && each.outside);
  return moved.length === 0 ? 0 : Math.sign(moved[0].change);
};

function motorFindings(numbers: readonly ChangedNumber[]): ChangeFinding[] {
  const [kv, resistance, loss] = ['kv', 'whole', 'noLoad'].map((key) => wayOf(numbers, key));
  const found: ChangeFinding[] = [];
  if (resistance < 0 && kv > 0 && loss > 0) found.push('shorted-turn');
  else if (kv > 0 && resistance >= 0) found.push('flux-lost');
  if (resistance > 0 && kv <= 0) found.push('bad-joint');
  if (loss > 0 && kv === 0 && resistance >= 0) found.push('more-friction');
  if (numbers.some(({ key, outside }) => key === 'torque' && outside) && found.length === 0) found.push('other-propeller');
  return found.length > 0 ? found : [numbers.some(({ outside }) => outside) ? 'no-pattern' : 'nothing'];
}

function packFindings(numbers: readonly ChangedNumber[]): ChangeFinding[] {
  const [capacity, resistance, slow] = ['capacity', 'resistance', 'slow'].map((key) => wayOf(numbers, key));
  if (capacity < 0 && resistance > 0) return ['aged-pack'];
  if (resistance > 0 && slow <= 0) return ['bad-joint'];
  if (capacity < 0) return ['capacity-lost'];
  if (resistance > 0) return ['aged-pack'];
  return [numbers.some(({ outside }) => outside) ? 'no-pattern' : 'nothing'];
}
