/**
 * The list of what was not given: every estimated or assumed datum once, and every given one whose interval was not, with its 95 % interval,
 * origin and source; at the end all that is no number and was taken where nothing was said.
 *
 * @module
 */

import { type Datum, isDatum, type Unknown, valuesOf } from '../../provenance/datum.js';
import { drawer } from '../../provenance/realise.js';
import { CHOICES, type Chosen } from '../../provenance/rules/choices.js';
import { ruleOf } from '../../provenance/rules/rules.js';
import { summed, unknownsOf } from '../../provenance/unknowns.js';
import { writtenWords } from '../../provenance/written.js';
import { deviationOf, interval95, ofDeviation, STANDARD_DEVIATIONS_95, together } from '../../quantities/index.js';
import type { AssumedChoice, AssumedNumber, Assumption } from '../../results/assumption.js';

function leaves(x: unknown, path: string, out: [string, Datum][]): void {
  if (isDatum(x)) {
    out.push([path, x]);
    if (x.origin.kind !== 'given')
      Object.values(x.origin.inputs).forEach((input, k) => {
        leaves(input, `${path} (input ${k + 1})`, out);
      });
    return;
  }
  if (typeof x !== 'object') return;
  for (const key in x as Record<string, unknown>) leaves((x as Record<string, unknown>)[key], path === '' ? key : `${path}.${key}`, out);
}

/** Whether readings tied it, or what it follows from, to anything. */
const isTied = ({ unknown, own, origin }: Datum): boolean =>
  unknown.mix !== undefined || own?.mix !== undefined || (origin.kind === 'derived' && Object.values(origin.inputs).some(isTied));

/** 95 % interval of what is tied: its own error whole; of what follows from others every independent deviate alone, the logarithms added by squares. */
function tiedInterval(datum: Datum): { readonly low: number; readonly high: number } {
  const { value, origin, unknown, own } = datum;
  if (origin.kind !== 'derived') {
    const errors = [unknown, own].filter((each) => each !== undefined && deviationOf(each.spread) > 0) as readonly Unknown[];
    return errors.length === 0
      ? { low: value, high: value }
      : interval95(value, ofDeviation(errors[0].spread, Math.hypot(...summed(errors).values())));
  }
  const drawnValue = drawer(datum);
  const keys = unknownsOf([{ name: '', data: datum }]).map(({ key }) => key);
  const shifts = keys.map((moved) =>
    [-1, 1].map((side) => Math.log((drawnValue((key) => (key === moved ? side * STANDARD_DEVIATIONS_95 : 0)) as number) / value)),
  );
  const far = (side: -1 | 1): number =>
    value * Math.exp(side * Math.hypot(...shifts.map((both) => Math.max(0, ...both.map((shift) => side * shift)))));
  return { low: far(-1), high: far(1) };
}

/** 95 % interval of a datum; of one that follows from others theirs too, each moved alone, the logarithms added by squares. */
function intervalOf(datum: Datum): { readonly low: number; readonly high: number } {
  if (isTied(datum)) return tiedInterval(datum);
  const { value, origin, unknown, own } = datum;
  const itself = interval95(value, own === undefined ? unknown.spread : together(unknown.spread, own.spread));
  if (origin.kind !== 'derived') return itself;
  const { law } = ruleOf(origin.rule);
  const values = valuesOf(origin.inputs);
  const moved = Object.entries(origin.inputs).map(([name, input]) => {
    const { low, high } = intervalOf(input);
    return [low, high].map((end) => Math.log(law({ ...values, [name]: end }) / value));
  });
  const far = (side: -1 | 1, own95: number): number =>
    value * Math.exp(side * Math.hypot(Math.log(own95 / value), ...moved.map((both) => Math.max(0, ...both.map((shift) => side * shift)))));
  return { low: far(-1, itself.low), high: far(1, itself.high) };
}

/** Narrowed to less than this share, or moved by more than that share of its half-width, it is told. */
const NARROWED = 0.9;
const MOVED = 0.25;

function narrowedOf(datum: Datum): AssumedNumber['narrowed'] {
  const { learnt, value } = datum;
  if (learnt === undefined) return undefined;
  const [now, before] = [intervalOf(datum), intervalOf(learnt.before)];
  const width = before.high - before.low;
  const little = now.high - now.low > NARROWED * width && Math.abs(value - learnt.before.value) < 0.5 * MOVED * width;
  return little ? undefined : { by: learnt.by, value: learnt.before.value, ...before };
}

/** What the list says of a datum beside its numbers; nothing where there was nothing to assume. */
function toldOf(
  { origin, unknown, own, source }: Datum,
  narrowed: boolean,
): Pick<AssumedNumber, 'words' | 'kind' | 'origin' | 'source'> | undefined {
  if (origin.kind === 'given') {
    const { subject, usual } = origin;
    if (usual === undefined && !narrowed) return undefined;
    return usual === undefined
      ? { words: writtenWords(subject), kind: 'narrowed', origin: subject, source: source ?? 'as written' }
      : { words: writtenWords(subject), kind: 'given', origin: subject, source: usual };
  }
  const { kind, rule: id } = origin;
  const { words, source: ruleSource, made } = ruleOf(id);
  const sure = unknown.spread.shape === 'none' && (own === undefined || own.spread.shape === 'none');
  if (made !== undefined || (sure && (kind === 'derived' || ruleSource === 'definition'))) return undefined;
  return { words, kind, origin: id, source: ruleSource };
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
      const narrowed = narrowedOf(datum);
      const told = toldOf(datum, narrowed !== undefined);
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
        ...(narrowed === undefined ? {} : { narrowed }),
      });
    }
  }
  return [...found.values()];
}
