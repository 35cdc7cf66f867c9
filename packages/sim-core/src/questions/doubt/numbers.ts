/** The uncertain numbers of a scenario as people speak of them: an unknown, or a rule with the common and the own part of its error. @module */
import { summed, type UnknownEntry } from '../../provenance/unknowns.js';
import { ofDeviation, type Spread } from '../../quantities/index.js';

/** One unknown, or a rule with its common and own parts. */
export interface Number95 {
  readonly subject: string;
  readonly first: UnknownEntry;
  /** Deviate of every key for one standard deviation of the whole [1]. */
  readonly direction: ReadonlyMap<string, number>;
  /** The whole's spread: common and own errors together. */
  readonly spread: Spread;
  readonly candidates: readonly string[];
}

const groupOfEntry = ({ group }: UnknownEntry): string => group.replace(/@own$/, '');
/** What tells a number from the others of its scenario. */
export const groupOf = ({ first }: Number95): string => groupOfEntry(first);

export function numbersOf(unknowns: readonly UnknownEntry[]): Number95[] {
  const groups = new Map<string, UnknownEntry[]>();
  for (const entry of unknowns) {
    const group = groupOfEntry(entry);
    groups.set(group, [...(groups.get(group) ?? []), entry]);
  }
  return [...groups.values()].map((entries) => {
    const first = entries.find(({ key }) => !key.includes('@')) ?? entries[0];
    const own = entries.find(({ key }) => key.includes('@'));
    const whole = own === undefined || own === first ? [first] : [first, own];
    const size = Math.hypot(...summed(whole).values());
    return {
      subject: first.subject,
      first,
      direction: new Map([...summed(entries)].map(([key, deviation]) => [key, deviation / size])),
      spread: ofDeviation(first.spread, size),
      candidates: [...new Set(entries.flatMap(({ candidates }) => candidates))],
    };
  });
}
