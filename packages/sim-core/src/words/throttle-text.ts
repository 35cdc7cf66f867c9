/** A throttle in words. @module */

import { formatQuantity } from '../quantities/index.js';

/** In whole per cent; just below full in tenths, rounded down, since what lasts only there does not last at full throttle. Shares [1]. */
export function throttleText(throttle: number): string {
  const nearlyFull = throttle < 1 && throttle >= 0.995;
  const shown = nearlyFull ? Math.floor(1000 * throttle) / 1000 : throttle;
  return formatQuantity(shown, 'fraction', { unit: '%', decimals: nearlyFull ? 1 : 0 });
}
