/** Everything a draw decides: the unknowns of all candidates' data, each once, with words, whose it is, and what it is part of. */
import type { Dimension, Spread } from '../quantities/index.js';
import { type Datum, isDatum, type Unknown } from './datum.js';
import { RULES } from './rules.js';

export interface UnknownEntry {
  readonly key: string;
  readonly spread: Spread;
  /** Nominal value of the first datum that carries it [SI]. */
  readonly value: number;
  readonly dimension: Dimension;
  /** What it belongs to: a rule, the own parts of a rule's error over all candidates ("rule:press-fit@own"), or the place of a given datum. */
  readonly group: string;
  /** The given datum's path of keys without its candidate ("motor.resistance"), or the rule's name. */
  readonly subject: string;
  readonly words: string;
  readonly candidates: readonly string[];
}

const GIVEN_WORDS: Readonly<Record<string, string>> = {
  'motor.kv': 'Kv',
  'motor.resistance': 'winding resistance',
  'motor.mass': 'motor mass',
  'motor.thermal.winding_to_stator': 'heat path from winding to stator',
  'motor.thermal.stator_to_can': 'heat path from stator to can',
  'motor.thermal.can_to_air': 'heat path from can to air',
  'battery.capacity': 'pack capacity',
  'battery.cell_resistance': 'cell resistance',
  'battery.mass': 'pack mass',
  'controller.path_resistance': 'controller path resistance',
  'controller.idle_current': 'controller idle current',
  'cooling.water_jacket.conductance': 'conductance of the water jacket',
  'cooling.water_jacket.at_speed': 'speed the water jacket was rated at',
  'cooling.water_jacket.rest_share': 'share of the water jacket left at rest',
  'cooling.air.speed': 'air speed at the motor',
  'vehicle.mass': 'vehicle mass',
  'vehicle.drag_factor': 'factor on the vehicle’s drag',
  'ambient.air': 'air temperature',
  'ambient.water': 'water temperature',
  'ambient.compartment': 'temperature under the hatch',
};

export const OWN_WORDS = ' (each one’s own part)';

/** Path of keys without candidate and list numbers: "candidates[0].motor.no_load[0].current" → "motor.no_load.current". */
export const subjectOf = (path: string): string => path.replace(/^candidates\[\d+\]\./, '').replace(/\[\d+\]/g, '');

/** Words for a given datum; a path without an entry of its own is read out: "battery.polarisation.time" → "time of the battery’s polarisation". */
export function givenWords(subject: string): string {
  const known = GIVEN_WORDS[subject];
  if (known !== undefined) return known;
  const keys = subject.split('.').map((key) => key.replaceAll('_', ' '));
  return keys.length === 1 ? keys[0]! : `${keys.slice(1).join(' ')} of the ${keys[0]!}`;
}

export function unknownsOf(candidates: readonly { readonly name: string; readonly data: object }[]): UnknownEntry[] {
  const found = new Map<string, UnknownEntry & { candidates: string[] }>();
  for (const { name, data } of candidates) {
    const seen = new Set<object>();
    const note = ({ key, spread }: Unknown, datum: Datum, own: boolean): void => {
      if (spread.shape === 'none' || !Number.isFinite(datum.value)) return;
      const known = found.get(key);
      if (known !== undefined) {
        if (!known.candidates.includes(name)) known.candidates.push(name);
        return;
      }
      const { origin } = datum;
      const given = origin.kind === 'given';
      const subject = given ? subjectOf(origin.place.path) : origin.rule;
      const words = `${given ? givenWords(subject) : RULES[origin.rule].words}${own ? OWN_WORDS : ''}`;
      const group = given ? key : `rule:${origin.rule}${own ? '@own' : ''}`;
      found.set(key, { key, spread, value: datum.value, dimension: datum.dimension, group, subject, words, candidates: [name] });
    };
    const walk = (x: unknown): void => {
      if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x) || seen.has(x)) return;
      seen.add(x);
      if (isDatum(x)) {
        note(x.unknown, x, false);
        if (x.own !== undefined) note(x.own, x, true);
        if (x.origin.kind !== 'given') x.origin.inputs.forEach(walk);
        return;
      }
      for (const key in x) walk((x as Record<string, unknown>)[key]);
    };
    walk(data);
  }
  return [...found.values()];
}
