/** Short names for the tolerances that rules give. @module */

import { logNormal95, NO_SPREAD, normal95, type Spread } from '../../quantities/index.js';

export const SURE: Spread = NO_SPREAD;
/** ± a share in % as the 95 % interval of a positive scale quantity. */
export const percent = (share: number): Spread => logNormal95(share / 100);
/** ± an amount in the quantity's own SI unit as a 95 % interval. */
export const points = (amount: number): Spread => normal95(amount);
export const PRACTICE = 'common practice, no published source';
