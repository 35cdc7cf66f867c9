/** What `equilibriumAt` finds. @module */

import type { ByBody } from '../heat/heat-paths.js';
import type { HeatByWay } from '../heat/heat-ways.js';

/** Where heat in and heat out are equal. */
export interface Equilibrium {
  /** [K] */
  readonly temperatures: ByBody;
  /** What leaves each way [W]; of the cells one drive's share. */
  readonly leaves: HeatByWay;
  /** Limits of the bodies that are hotter than theirs [K]. */
  readonly beyond: Partial<ByBody>;
}
