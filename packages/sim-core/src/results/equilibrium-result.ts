/** What `equilibriumAt` finds. @module */

import type { Body } from '../heat/heat-paths.js';
import type { HeatByWay } from '../heat/heat-ways.js';

export interface Equilibrium {
  /** [K] */
  readonly temperatures: Readonly<Record<Body, number>>;
  /** What leaves each way [W]; of the cells one drive's share. */
  readonly leaves: HeatByWay;
}
