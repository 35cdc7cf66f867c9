/**
 * What happens where a key is left out, asked of the program itself: each drive of key-drives.ts that has the key is prepared without it, and what is then
 * assumed in its place, taken where nothing was said, or asked for is collected.
 * @module
 */

import { isDatum } from '@shaftwork/sim-core/provenance/datum';
import { RULES, type RuleId } from '@shaftwork/sim-core/provenance/rules/rules';
import { formatNumber, formatQuantity } from '@shaftwork/sim-core/quantities';
import { assumptionsOf } from '@shaftwork/sim-core/questions/run/assumptions';
import type { AssumedChoice, AssumedNumber, Assumption } from '@shaftwork/sim-core/results/assumption';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { DRIVES, type Drive } from '../properties/key-drives.js';
import { placesOf, without } from '../properties/key-places.js';

export interface LeftOut {
  /** What the program asks for then, in its words. */
  readonly asked: readonly string[];
  readonly numbers: readonly AssumedNumber[];
  readonly choices: readonly AssumedChoice[];
  /** Rules that stand in and leave nothing to doubt, in their words. */
  readonly sure: readonly string[];
}

const prepare = (drive: Drive) => prepareScenario(JSON.stringify({ title: 'Keys', candidates: [{ name: 'A' }], ...drive }));
const keyOf = (each: Assumption): string => `${each.kind}|${each.origin}`;

/** Rules of the data themselves, what they follow from left aside. */
function rulesOf(x: unknown, found = new Set<RuleId>()): ReadonlySet<RuleId> {
  if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x)) return found;
  if (isDatum(x)) {
    if (x.origin.kind !== 'given') found.add(x.origin.rule);
  } else for (const inner of Object.values(x)) rulesOf(inner, found);
  return found;
}

interface Assumed {
  readonly list: ReadonlySet<string>;
  readonly rules: ReadonlySet<RuleId>;
}
const assumed = new Map<Drive, Assumed>();
function assumedIn(drive: Drive): Assumed {
  const known = assumed.get(drive);
  if (known !== undefined) return known;
  const made = prepare(drive);
  if (made.kind !== 'ready') throw new Error(JSON.stringify(made, null, 1));
  const { candidates } = made.prepared;
  const found = { list: new Set(assumptionsOf(candidates).map(keyOf)), rules: rulesOf(candidates.map(({ data }) => data)) };
  assumed.set(drive, found);
  return found;
}

/** Of a key by its path, lists by `[]`; nothing where no drive has it. */
export function leftOut(path: string): LeftOut | undefined {
  const keys = path.replaceAll('[]', '').split('.');
  const asked = new Set<string>();
  const refused = new Set<string>();
  const sure = new Set<string>();
  let runs = false;
  const numbers = new Map<string, AssumedNumber>();
  const choices = new Map<string, AssumedChoice>();
  const having = Object.values(DRIVES).filter((drive) => placesOf(drive, keys).length > 0);
  if (having.length === 0) return undefined;
  for (const drive of having) {
    const made = prepare(placesOf(drive, keys).reduce<Drive>((less, place) => without(less, place) as Drive, drive));
    if (made.kind === 'needs') throw new Error(`${path}: names a file`);
    if (made.kind === 'problems') {
      // what is asked for is asked for here; another objection is to what else the drive has
      for (const { kind, expected, hint } of made.problems) (kind === 'missing-datum' ? asked : refused).add(hint ?? expected);
      continue;
    }
    runs = true;
    const before = assumedIn(drive);
    const { candidates } = made.prepared;
    for (const rule of rulesOf(candidates.map(({ data }) => data))) if (!before.rules.has(rule)) sure.add(RULES[rule].words);
    for (const each of assumptionsOf(candidates)) {
      if (before.list.has(keyOf(each))) continue;
      if (each.kind === 'choice') choices.set(`${each.origin}|${each.value}`, each);
      else if (each.kind !== 'given') numbers.set(`${each.origin}|${each.kind === 'default' ? each.value : ''}`, each);
    }
  }
  if (!runs && asked.size === 0) for (const each of refused) asked.add(each);
  return { asked: [...asked], numbers: [...numbers.values()], choices: [...choices.values()], sure: [...sure] };
}

/** What ranks candidates where nothing is said. */
export function usualObjective(): string {
  const made = prepare(DRIVES['boat']);
  if (made.kind !== 'ready') throw new Error(JSON.stringify(made, null, 1));
  return `**${made.prepared.scenario.objective}**`;
}

/** As people write it: 4 mΩ, not 4.00 mΩ. */
export const plain = (text: string): string => text.replace(/(\d)\.0+(?=\D|$)/, '$1').replace(/(\.\d*?)0+(?=\D|$)/, '$1');

/** "−50 to +100 %" of a value, kelvin of a temperature, an amount about nothing. */
function intervalText({ value, low, high, dimension }: AssumedNumber): string {
  if (low === high || !Number.isFinite(low) || !Number.isFinite(high)) return '';
  if (value === 0) return `± ${plain(formatQuantity(high, dimension, { significant: 2, space: ' ' }))}`;
  const [of, unit, scale] = dimension === 'temperature' ? [(x: number) => x - value, 'K', 1] : [(x: number) => x / value - 1, '%', 100];
  const [down, up] = [low, high].map((end) => scale * of(end));
  const shown = (x: number): string => formatNumber(Math.abs(x), { significant: 2 });
  if (Math.abs(down + up) < 0.02 * up) return `± ${shown(up)} ${unit}`;
  return `${down < 0 ? '−' : '+'}${shown(down)} to +${shown(up)} ${unit}`;
}

function numberText(each: AssumedNumber): string {
  const value =
    each.kind === 'default' && each.value !== 0
      ? `: ${plain(formatQuantity(each.value, each.dimension, { significant: 3, space: ' ' }))}`
      : '';
  const none = each.kind === 'default' && each.value === 0 ? ': none' : '';
  const interval = intervalText(each);
  return `${each.words.replace(/,\s*$/, '')}${interval !== '' && none !== '' ? '' : none}${value}${interval === '' ? '' : ` (${interval})`}`;
}

/** The cell of the reference. */
export function leftOutText({ asked, numbers, choices, sure }: LeftOut): string {
  const several = choices.length > 1;
  const known = [...choices.map(({ value, words }) => `**${value}**${several ? ` (${words})` : ''}`), ...numbers.map(numberText)];
  const parts = [
    ...(known.length === 0 && asked.length === 0 ? sure : known),
    ...(asked.length === 0 ? [] : [`asked for: ${asked.join(' · ')}`]),
  ];
  return [...new Set(parts)].join('; ');
}
