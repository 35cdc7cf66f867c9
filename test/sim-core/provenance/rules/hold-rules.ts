/** Every rule against its source: the value it puts into a drive, worked out by hand beside it, and how far off it says that may be. */
import { type Datum, isDatum } from '@shaftwork/sim-core/provenance/datum';
import { RULES, type RuleId } from '@shaftwork/sim-core/provenance/rules/rules';
import { halfWidth95, type Spread } from '@shaftwork/sim-core/quantities/spread';
import { describe, expect, it } from 'vitest';
import { preparedOf, type Section } from '../drives.js';

export const PRACTICE = 'common practice, no published source';

/** Half-width of a 95 % interval: a share of the value as text, an amount [SI] as a number; absent where it is exact. */
type Off = `${number} %` | number;

export interface Held<Drive extends string = string> {
  /** The drive that the rule is asked for in. */
  readonly in: Drive;
  /** What it puts there [SI]; all of it where one rule stands in several places; `found` where another test holds what a search finds. */
  readonly is: number | readonly number[] | 'found';
  /** How near, as a share, where the source is rounded. */
  readonly within?: number;
  /** Error common to all, and each one's own. */
  readonly off?: Off | 'found';
  readonly own?: Off;
  /** What the source says, at least. */
  readonly source: string;
}

/** What rules made of a drive, each datum once, with all that it was made from. */
export function madeByRule(drive: Section): ReadonlyMap<RuleId, readonly Datum[]> {
  const found = new Map<RuleId, Datum[]>();
  const seen = new Set<object>();
  const walk = (x: unknown): void => {
    if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x) || seen.has(x)) return;
    seen.add(x);
    if (isDatum(x)) {
      if (x.origin.kind === 'given') return;
      found.set(x.origin.rule, [...(found.get(x.origin.rule) ?? []), x]);
      walk(x.origin.inputs);
    } else for (const part of Object.values(x)) walk(part);
  };
  for (const { data } of preparedOf(drive).candidates) walk(data);
  return found;
}

function expectSpread(id: RuleId, spread: Spread | undefined, off: Off | 'found' | undefined): void {
  if (off === 'found') return;
  const { shape } = spread ?? { shape: 'none' };
  if (spread === undefined || off === undefined) expect(shape, id).toBe('none');
  else {
    expect(shape, id).toBe(typeof off === 'number' ? 'normal' : 'log-normal');
    expect(halfWidth95(spread), id).toBeCloseTo(typeof off === 'number' ? off : Number.parseFloat(off) / 100, 9);
  }
}

/** Of what there is none of, the dimension is that of the place. */
const WITHOUT: ReadonlySet<RuleId> = new Set(['no-limit', 'no-wing', 'of-a-supply']);

function hold(id: RuleId, { is, within = 1e-9, off, own, source }: Held, data: readonly Datum[]): void {
  const values = [...new Set(data.map(({ value }) => value))].sort((a, b) => a - b);
  expect(values, id).not.toHaveLength(0);
  const expected = typeof is === 'number' ? [is] : is === 'found' ? values : is;
  expect(values, id).toHaveLength(expected.length);
  values.forEach((value, k) => {
    if (Number.isFinite(expected[k]) && expected[k] !== 0) expect(Math.abs(value / expected[k] - 1), id).toBeLessThanOrEqual(within);
    else expect(value, id).toBe(expected[k]);
  });
  for (const datum of data) {
    if (!WITHOUT.has(id)) expect(datum.dimension, id).toBe(RULES[id].dimension);
    expectSpread(id, datum.unknown.spread, off);
    expectSpread(id, datum.own?.spread, own);
  }
  expect(RULES[id].source, id).toContain(source);
}

/** Holds each of `rows` in its drive, drive by drive. */
export function holdRules<Drive extends string>(
  name: string,
  drives: Readonly<Record<Drive, Section>>,
  rows: Readonly<Partial<Record<RuleId, Held<Drive>>>>,
): void {
  const all = Object.entries(rows) as [RuleId, Held<Drive>][];
  describe(name, () => {
    it.each(Object.keys(drives) as Drive[])('in the drive %s', (drive) => {
      const made = madeByRule(drives[drive]);
      const here = all.filter(([, held]) => held.in === drive);
      expect(here).not.toHaveLength(0);
      for (const [id, held] of here) hold(id, held, made.get(id) ?? []);
    });
  });
}
