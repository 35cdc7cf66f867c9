/** How a run ended, in a word or two for the cell of a table. @module */

import type { RunEnd } from '../results/run-result.js';

/** Each way of ending. */
export const RUN_ENDS = {
  finished: 'at its end',
  'cut-off': 'at the cut-off',
  empty: 'empty',
  burnt: 'burnt out',
  failed: 'failed',
} as const satisfies Record<RunEnd, string>;
