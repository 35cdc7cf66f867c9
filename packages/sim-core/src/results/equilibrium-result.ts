/** What `equilibriumAt` finds. */
import type { HeatOutlets } from '../heat/heat-network.js';
import type { Body } from '../heat/heat-paths.js';

/** Ways out of one drive, as they are told. */
export const HEAT_WAYS = [
  'canSide',
  'canEnds',
  'throughFlow',
  'mount',
  'water',
  'sink',
  'controller',
  'cells',
] as const satisfies readonly (keyof HeatOutlets)[];

export interface Equilibrium {
  /** [K] */
  readonly temperatures: Readonly<Record<Body, number>>;
  /** What leaves each way [W]; of the cells one drive's share. */
  readonly leaves: Readonly<HeatOutlets>;
}
