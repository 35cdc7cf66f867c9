/** What stands for a quantity of each dimension in a part: a plain number, or one that knows its origin. @module */

import type { Dimension } from './units.js';

/** A family of types, one for each dimension. */
export type Quantities = { readonly [D in Dimension]: unknown };
/** The family of plain SI numbers. */
export type PlainNumbers = { readonly [D in Dimension]: number };
