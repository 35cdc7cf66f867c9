/** The stack length of a candidate's motor. @module */

import { RULES } from '../../provenance/rules/rules.js';
import type { RunInput } from '../candidate.js';

/** The stack of a candidate [m]: given, or by the rule of its layout, as the gap's conductance was calculated with. */
export function stackOf({ given, data }: RunInput): number {
  const own = given.motor?.stackLength?.value;
  if (own !== undefined) return own;
  const length = data.motor.canLength;
  return RULES[`${data.motor.layout}-stack`].law({ can: length.value });
}
