/** Scales from a unit to SI and their products. @module */

import { areaOfGauge, gaugeOfArea } from './wire-gauge.js';

/** How a number in some unit becomes SI, as data. */
export type Scale =
  /** SI = x·times/over + zero. */
  | { readonly kind: 'linear'; readonly times: number; readonly over: number; readonly zero: number }
  /** SI = over/(x·times): a conductance written as a resistance. */
  | { readonly kind: 'reciprocal'; readonly times: number; readonly over: number }
  /** SI = the area of gauge number x. */
  | { readonly kind: 'wire-gauge' };

export function toSi(scale: Scale, value: number): number {
  switch (scale.kind) {
    case 'linear':
      return (value * scale.times) / scale.over + scale.zero;
    case 'reciprocal':
      return reciprocal(scale.times, scale.over, value);
    case 'wire-gauge':
      return areaOfGauge(value);
  }
}

export function fromSi(scale: Scale, value: number): number {
  switch (scale.kind) {
    case 'linear':
      return ((value - scale.zero) * scale.over) / scale.times;
    case 'reciprocal':
      return reciprocal(scale.times, scale.over, value);
    case 'wire-gauge':
      return gaugeOfArea(value);
  }
}

function reciprocal(times: number, over: number, value: number): number {
  if (value === 0)
    throw new RangeError('zero has no reciprocal: a conductance of 0 W/K is an infinite resistance, and the other way about');
  return over / (value * times);
}
