/**
 * How sure a number is: its distribution about the nominal value.
 *
 * (1) normal:      drawn = x + sd·z
 * (2) log-normal:  drawn = x·exp(σ·z), which keeps the sign of x and is never zero
 *
 * A written `± p` is the 95 % interval. Log-normal is fixed by its upper end, exp(z₉₅·σ) = 1 + p, so that a half-width of 8 % reaches from
 * x/1.08 to x·1.08; the nominal value is the median. A quantity and its reciprocal then have one and the same σ.
 *
 * *Source*: z₉₅, the 97.5 % quantile of the standard normal distribution: M. Abramowitz & I.A. Stegun, Handbook of Mathematical Functions,
 * section 26.2.
 *
 * @module
 */

/** How a drawn number lies about its nominal value. */
export type Spread =
  | { readonly shape: 'none' }
  | {
      readonly shape: 'normal';
      /** Standard deviation [SI, as the number]. */
      readonly sd: number;
    }
  | {
      readonly shape: 'log-normal';
      /** Standard deviation of the logarithm [1]. */
      readonly sigma: number;
    };

/** z₉₅ — half-width of the 95 % interval in standard deviations. */
export const STANDARD_DEVIATIONS_95 = 1.959963984540054;

/** Exactly known. */
export const NO_SPREAD: Spread = { shape: 'none' };

/** Normal spread whose 95 % interval is ± halfWidth, in the quantity's own unit; throws RangeError unless 0 ≤ halfWidth < ∞. */
export function normal95(halfWidth: number): Spread {
  if (!(halfWidth >= 0 && halfWidth < Infinity)) throw new RangeError(`a half-width is zero or positive, not ${halfWidth}`);
  return halfWidth === 0 ? NO_SPREAD : { shape: 'normal', sd: halfWidth / STANDARD_DEVIATIONS_95 };
}

/** Log-normal spread whose 95 % interval reaches up to (1 + share) times the value; throws RangeError unless 0 ≤ share < ∞. */
export function logNormal95(share: number): Spread {
  if (!(share >= 0 && share < Infinity)) throw new RangeError(`a half-width is zero or positive, not ${share}`);
  return share === 0 ? NO_SPREAD : { shape: 'log-normal', sigma: Math.log1p(share) / STANDARD_DEVIATIONS_95 };
}

/** Equations 1 and 2: the value at z standard deviations from nominal; z = 0 gives the nominal value itself. */
export function drawn(value: number, spread: Spread, z: number): number {
  switch (spread.shape) {
    case 'none':
      return value;
    case 'normal':
      return value + spread.sd * z;
    case 'log-normal':
      return value * Math.exp(spread.sigma * z);
  }
}

/** The value moved by an amount in the spread's own scale: a logarithm of a log-normal one. */
export const shifted = (value: number, spread: Spread, offset: number): number =>
  spread.shape === 'log-normal' ? value * Math.exp(offset) : value + offset;

/** The same shape with another deviation. */
export const ofDeviation = (spread: Spread, deviation: number): Spread =>
  spread.shape === 'none'
    ? spread
    : spread.shape === 'normal'
      ? { shape: 'normal', sd: deviation }
      : { shape: 'log-normal', sigma: deviation };

/** Standard deviation of a normal spread, σ of a log-normal one, 0 of none. */
export const deviationOf = (spread: Spread): number => (spread.shape === 'none' ? 0 : spread.shape === 'normal' ? spread.sd : spread.sigma);

/** Two independent errors of one number together, in the shape of the first that is one. */
export function together(a: Spread, b: Spread): Spread {
  const deviation = Math.hypot(deviationOf(a), deviationOf(b));
  if (deviation === 0) return NO_SPREAD;
  const { shape } = a.shape === 'none' ? b : a;
  return shape === 'normal' ? { shape, sd: deviation } : { shape: 'log-normal', sigma: deviation };
}

/** The 95 % interval about a value, lower end first. Both ends [SI]. */
export function interval95(value: number, spread: Spread): { readonly low: number; readonly high: number } {
  const a = drawn(value, spread, -STANDARD_DEVIATIONS_95);
  const b = drawn(value, spread, STANDARD_DEVIATIONS_95);
  return a <= b ? { low: a, high: b } : { low: b, high: a };
}

/** What was written after `±`: p for log-normal (a share of the value), the half-width in SI for normal, 0 for none. */
export function halfWidth95(spread: Spread): number {
  switch (spread.shape) {
    case 'none':
      return 0;
    case 'normal':
      return spread.sd * STANDARD_DEVIATIONS_95;
    case 'log-normal':
      return Math.expm1(spread.sigma * STANDARD_DEVIATIONS_95);
  }
}
