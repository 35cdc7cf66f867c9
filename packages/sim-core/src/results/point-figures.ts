/** Figures of a steady point that are no channel of a run. @module */

import type { Term } from '../problems/index.js';

/** Figures made from a steady point beside its channels: words, key and how they are shown. */
export const POINT_FIGURES = {
  advanceRatio: { words: 'advance ratio J', suffix: '', decimals: 3, share: false },
  thrustCoefficient: { words: 'thrust coefficient', suffix: '', decimals: 4, share: false },
  powerCoefficient: { words: 'power coefficient', suffix: '', decimals: 4, share: false },
  figureOfMerit: { words: 'figure of merit at rest', suffix: '', decimals: 2, share: false },
  propellerEfficiency: { words: 'efficiency of the propeller', suffix: '_percent', decimals: 0, share: true },
  motorEfficiency: { words: 'efficiency of the motor', suffix: '_percent', decimals: 0, share: true },
  driveEfficiency: { words: 'efficiency, cells to motion', suffix: '_percent', decimals: 0, share: true },
} as const satisfies Record<string, { readonly words: Term; readonly [fact: string]: unknown }>;

/** One of `POINT_FIGURES`. */
export type PointFigureId = keyof typeof POINT_FIGURES;
/** Keys of `POINT_FIGURES`, in their order. */
export const POINT_FIGURE_IDS = Object.keys(POINT_FIGURES) as readonly PointFigureId[];

/** A figure's 5 to 95 % of the draws, and the half-width of its 95 % interval, 1.96 standard deviations [SI]. */
export interface PointBand {
  readonly p05: number;
  readonly p95: number;
  readonly halfWidth: number;
}
