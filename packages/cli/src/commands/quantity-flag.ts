/** A quantity as the value of an option. @module */

import { type Dimension, readQuantity } from '@shaftwork/sim-core/quantities';
import { InputFault } from '../hands/exit.js';

/** Reads an option's quantity [SI]; an InputFault names the flag, what was expected and what was found. */
export function quantityFlag(flag: string, text: string, dimension: Dimension): number {
  const reading = readQuantity(text, dimension);
  if (reading.ok) return reading.value;
  throw new InputFault(
    `${flag}: expected ${reading.expected}; found ${reading.found}.${reading.hint === undefined ? '' : ` ${reading.hint}`}`,
  );
}
