/**
 * The list of what was not given: every estimated or assumed datum once, and every given one whose interval was not, with its 95 % interval,
 * origin and source; at the end all that is no number and was taken where nothing was said.
 *
 * @module
 */

import { type Datum, isDatum } from '../../provenance/datum.js';
import { CHOICES, type Chosen } from '../../provenance/rules/choices.js';
import { RULES } from '../../provenance/rules/rules.js';
import { writtenWords } from '../../provenance/written.js';
import { interval95, together } from '../../quantities/index.js';
import type { AssumedChoice, AssumedNumber, Assumption } from '../../results/assumption.js';

function leaves(x: unknown, path: string, out: [string, Datum][]): void {
  if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x)) return;
  if (isDatum(x)) {
    out.push([path, x]);
    if (x.origin.kind !== 'given')
      x.origin.inputs.forEach((input, k) => {
        leaves(input, `${path} (input ${k + 1})`, out);
      });
    return;
  }
  for (const key in x) leaves((x as Record<string, unknown>)[key], path === '' ? key : `${path}.${key}`, out);
}

/** 95 % interval of a datum; of one that follows from others theirs too, each moved alone, the logarithms added by squares. */
function intervalOf(datum: Datum): { readonly low: number; readonly high: number } {
  const { value, origin, unknown, own } = datum;
  const itself = interval95(value, own === undefined ? unknown.spread : together(unknown.spread, own.spread));
  if (origin.kind !== 'derived') return itself;
  const { law } = RULES[origin.rule];
  const inputs = origin.inputs.map((input) => input.value);
  const moved = origin.inputs.map((input, k) => {
    const { low, high } = intervalOf(input);
    return [low, high].map((end) => Math.log(law(inputs.with(k, end)) / value));
  });
  const far = (side: -1 | 1, own95: number): number =>
    value * Math.exp(side * Math.hypot(Math.log(own95 / value), ...moved.map((both) => Math.max(0, ...both.map((shift) => side * shift)))));
  return { low: far(-1, itself.low), high: far(1, itself.high) };
}

/** What the list says of a datum beside its numbers; nothing where there was nothing to assume. */
function toldOf({ origin, unknown, own }: Datum): Pick<AssumedNumber, 'words' | 'kind' | 'origin' | 'source'> | undefined {
  if (origin.kind === 'given') {
    const { subject, usual } = origin;
    return usual === undefined ? undefined : { words: writtenWords(subject), kind: 'given', origin: subject, source: usual };
  }
  const { kind, rule: id } = origin;
  const { words, source } = RULES[id];
  const sure = unknown.spread.shape === 'none' && (own === undefined || own.spread.shape === 'none');
  if (sure && (kind === 'derived' || source === 'definition')) return undefined;
  return { words, kind, origin: id, source };
}

interface Assuming {
  readonly name: string;
  readonly data: object;
  readonly choices?: readonly Chosen[];
}

/** Numbers of all candidates, then their choices; what several share stands once. */
export const assumptionsOf = (candidates: readonly Assuming[]): Assumption[] => [
  ...assumedNumbers(candidates),
  ...assumedChoices(candidates),
];

function assumedChoices(candidates: readonly Assuming[]): AssumedChoice[] {
  const found = new Map<string, AssumedChoice & { candidates: string[] }>();
  for (const { name, choices = [] } of candidates) {
    for (const { choice, value } of choices) {
      const known = found.get(choice);
      if (known !== undefined) {
        known.candidates.push(name);
        continue;
      }
      const { key, words, source } = CHOICES[choice];
      const text = typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
      found.set(choice, { candidates: [name], path: key, words, kind: 'choice', value: text, origin: choice, source });
    }
  }
  return [...found.values()];
}

/** Every number that was estimated or assumed, or given without an interval. */
export function assumedNumbers(candidates: readonly Assuming[]): AssumedNumber[] {
  const found = new Map<string, AssumedNumber & { candidates: string[] }>();
  for (const { name, data } of candidates) {
    const list: [string, Datum][] = [];
    leaves(data, '', list);
    for (const [path, datum] of list) {
      if (!Number.isFinite(datum.value)) continue;
      const told = toldOf(datum);
      if (told === undefined) continue;
      const key = `${told.origin}|${datum.value}`;
      const known = found.get(key);
      if (known !== undefined) {
        if (!known.candidates.includes(name)) known.candidates.push(name);
        continue;
      }
      const { low, high } = intervalOf(datum);
      found.set(key, {
        candidates: [name],
        path,
        dimension: datum.dimension,
        value: datum.value,
        low,
        high,
        ...told,
      });
    }
  }
  return [...found.values()];
}
