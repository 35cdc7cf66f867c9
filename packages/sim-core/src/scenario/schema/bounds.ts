/** Bounds of the numbers in a scenario. @module */

import { type Dimension, expectation, formatQuantity, type UnitOf } from '../../quantities/index.js';

/** What a field's value may be [SI]; a bound itself is allowed unless it is `above` or `below`. */
export interface Bounds {
  readonly above?: number;
  readonly from?: number;
  readonly below?: number;
  readonly to?: number;
}

export const POSITIVE: Bounds = { above: 0 };
/** A part of a model: milliohms, seldom ohms; far below what a capital M would make of them. */
export const WINDING = { above: 0, to: 100 } satisfies Bounds;
/** A motor of a model: grams, at most some kilograms; far below what a k too many would make of them. */
export const MOTOR_MASS = { above: 0, to: 50 } satisfies Bounds;
export const CONDUCTOR = { from: 0, to: 10 } satisfies Bounds;

export const NOT_NEGATIVE: Bounds = { from: 0 };
export const SHARE: Bounds = { from: 0, to: 1 };
export const SHARE_BUT_NONE: Bounds = { above: 0, to: 1 };

export const within = (value: number, { above, from, below, to }: Bounds): boolean =>
  (above === undefined || value > above) &&
  (from === undefined || value >= from) &&
  (below === undefined || value < below) &&
  (to === undefined || value <= to);

/** "a mass in g, kg, oz or lb; here above 0": the bounds in the unit the person used. */
export function expectedWithin<D extends Dimension>(bounds: Bounds, dimension: D, unit: UnitOf<D>): string {
  const shown = (si: number) => (si === 0 && dimension !== 'temperature' ? '0' : formatQuantity(si, dimension, { unit, space: ' ' }));
  return `${expectation(dimension)}; here ${boundsInWords(bounds, shown)}`;
}

export function boundsInWords({ above, from, below, to }: Bounds, shown: (bound: number) => string): string {
  const words: string[] = [];
  if (above !== undefined) words.push(`above ${shown(above)}`);
  if (from !== undefined) words.push(`${shown(from)} or more`);
  if (below !== undefined) words.push(`below ${shown(below)}`);
  if (to !== undefined) words.push(`at most ${shown(to)}`);
  return words.join(' and ');
}
