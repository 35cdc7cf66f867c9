/** What `equilibriumAt` finds. */
import type { Body } from '../heat/heat-paths.js';

/** Ways out of one drive, and what leaves there at the equilibrium [W]; cells as one drive's share. */
export const HEAT_WAYS = ['canSide', 'canEnds', 'throughFlow', 'mount', 'water', 'sink', 'controller', 'cells'] as const;
export type HeatWay = (typeof HEAT_WAYS)[number];

export interface Equilibrium {
  /** [K] */
  readonly temperatures: Readonly<Record<Body, number>>;
  /** [W] */
  readonly leaves: Readonly<Record<HeatWay, number>>;
}
