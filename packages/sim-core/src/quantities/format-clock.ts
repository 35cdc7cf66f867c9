/** Times as on a stopwatch. @module */

import { SECONDS_PER_HOUR, SECONDS_PER_MINUTE } from './constants.js';

const two = (count: number): string => String(count).padStart(2, '0');

/** A time [s] as on a stopwatch, to the whole second: 7:12, 1:02:05, −0:30. Throws RangeError for NaN and infinities. */
export function formatClock(seconds: number): string {
  if (!Number.isFinite(seconds)) throw new RangeError(`${seconds} is not a time to show`);
  // Rounded before it is split, so that 59.7 s is 1:00 and never 0:60.
  const whole = Math.round(Math.abs(seconds));
  const hours = Math.floor(whole / SECONDS_PER_HOUR);
  const minutes = Math.floor((whole % SECONDS_PER_HOUR) / SECONDS_PER_MINUTE);
  const rest = two(whole % SECONDS_PER_MINUTE);
  const sign = seconds < 0 && whole > 0 ? '\u2212' : '';
  return hours > 0 ? `${sign}${hours}:${two(minutes)}:${rest}` : `${sign}${minutes}:${rest}`;
}
