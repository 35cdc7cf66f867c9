/** Units of numbers that leave as JSON: by the type of each, key by key. What must not compile stands in `refused-units.ts`. */
import { each, inUnits, type Units } from '@shaftwork/sim-core/json/in-units';
import type { Si } from '@shaftwork/sim-core/quantities';
import { describe, expect, it } from 'vitest';

interface Sample {
  readonly name: string;
  readonly speed: Si<'angularSpeed'>;
  readonly heat: Readonly<Record<'a' | 'b', Si<'temperature'>>>;
  readonly lasting?: Si<'time'>;
  readonly account: { readonly work: Si<'energy'>; readonly share: number };
  readonly points: readonly { readonly at: Si<'time'>; readonly words?: string }[];
  readonly rows: readonly (readonly Si<'length'>[])[];
}
const UNITS: Units<Sample> = {
  speed: 'angularSpeed',
  heat: each('temperature'),
  lasting: 'time',
  account: { work: 'joules', share: 'plain' },
  points: { at: 'time' },
  rows: 'length',
};
const sample: Sample = {
  name: 'n',
  speed: Math.PI,
  heat: { a: 273.15, b: 373.15 },
  account: { work: 7200, share: 0.25 },
  points: [{ at: 1, words: 'w' }, { at: 2 }],
  rows: [[0.001], [0.002, 0.003]],
};

describe('inUnits', () => {
  it('shows each number in its unit, says it in the key, and keeps the order, the texts and the lists', () => {
    expect(JSON.stringify(inUnits(sample, UNITS))).toBe(
      JSON.stringify({
        name: 'n',
        speed_rpm: 30,
        heat: { a_degC: 0, b_degC: 100 },
        account: { work_J: 7200, share: 0.25 },
        points: [{ at_s: 1, words: 'w' }, { at_s: 2 }],
        rows_mm: [[1], [2, 3]],
      }),
    );
  });

  it('shows the energy of an account in joules and that of a pack in watt hours', () => {
    expect(inUnits({ work: 7200 as Si<'energy'> }, { work: 'energy' })).toEqual({ work_Wh: 2 });
  });

  it('has the unit in the key where a list has no numbers', () => {
    expect(inUnits({ times: [] as readonly Si<'time'>[] }, { times: 'time' })).toEqual({ times_s: [] });
  });
});
