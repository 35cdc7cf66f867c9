/** Short names for the tolerances that rules give. @module */

import { logNormal95, normal95, type Spread } from '../../quantities/index.js';

/** Exactly known. */
export const SURE = { shape: 'none' } as const satisfies Spread;
/** ± a share in % as the 95 % interval of a positive scale quantity. */
export const percent = (share: number): Spread => logNormal95(share / 100);
/** ± an amount in the quantity's own SI unit as a 95 % interval. */
export const points = (amount: number): Spread => normal95(amount);
export const PRACTICE = 'common practice, no published source';
