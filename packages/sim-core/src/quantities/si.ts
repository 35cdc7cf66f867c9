/** Numbers in SI that say in their type what they measure. @module */

import type { Dimension } from './units.js';

/** What a number can measure: a dimension, or a motor constant [N·m/√W], which is a unit of none of them. */
export type Measure = Dimension | 'motorConstant';

/** Nothing at run time: what a type carries beside its number. */
declare const measures: unique symbol;

/**
 * A number in the SI unit of what it measures. It is a plain number at run time, and a plain number is taken for one; but a number of one measure
 * is not taken for one of another, and what leaves as JSON gets its unit by it.
 */
export type Si<M extends Measure> = number & { readonly [measures]?: M };

/** What a number measures; `none` of a plain one: a count, a share, a ratio, or one whose unit stands beside it. */
export type MeasureOf<N extends number> = typeof measures extends keyof N ? Exclude<N[typeof measures], undefined> : 'none';
