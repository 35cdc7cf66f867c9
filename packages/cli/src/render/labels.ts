/** What may stand at a row or a column of a table: words that `explain` knows, or what somebody named. @module */

import type { Term } from '@shaftwork/sim-core/problems';

declare const isLabel: unique symbol;
/** Text for the head of a row or a column. */
export type Label = string & { readonly [isLabel]: true };

/** Words that `explain` knows; behind them a unit, a time, what is in brackets. */
export const label = (term: Term, behind = ''): Label => `${term}${behind}` as Label;
/** The same, below another row. */
export const under = (term: Term, behind = ''): Label => `  ${term}${behind}` as Label;
/** The name of a candidate, a number or a run, or a value: nothing that wants a meaning. */
export const own = (name: string): Label => name as Label;
/** A corner, or a column of marks. */
export const BARE = own('');

/** A row: its label, and cells. */
export type Row = readonly [Label, ...string[]];
