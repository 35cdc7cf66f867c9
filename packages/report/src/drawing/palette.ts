/**
 * One colour and one dash per candidate, the same in every figure and told apart without colour too.
 * Hues after Okabe and Ito, "Color Universal Design" (2008), darkened for white paper and lightened for the dark
 * until text in them reaches a contrast of 4.5 : 1. From the fifth on chosen by distance from those before, also as the colour-blind see them:
 * lightness parts them where hue does not.
 *
 * @module
 */

import type { CandidateResult } from '@shaftwork/sim-core';

export const CANDIDATE_COLOURS = [
  { light: '#004f82', dark: '#8accf4', dash: [] },
  { light: '#c05300', dark: '#ef8848', dash: [8, 3] },
  { light: '#93487f', dark: '#d899c9', dash: [2, 2.5] },
  { light: '#00694d', dark: '#4cc79f', dash: [9, 3, 2, 3] },
  { light: '#691e00', dark: '#5a87d2', dash: [5, 2.5] },
  { light: '#4b003c', dark: '#b4e196', dash: [14, 4] },
  { light: '#87693c', dark: '#b4785a', dash: [7, 2.5, 1.5, 2.5, 1.5, 2.5] },
  { light: '#6969b4', dark: '#788796', dash: [3, 5] },
] as const satisfies readonly { readonly light: string; readonly dark: string; readonly dash: readonly number[] }[];

/** How one candidate is drawn and coloured everywhere. */
export interface Look {
  readonly name: string;
  /** CSS class that gives text the colour. */
  readonly className: string;
  readonly colour: string;
  readonly dash: readonly number[];
}

/** Colour follows the order in the scenario, not the rank. */
export function looksOf(candidates: readonly CandidateResult[]): readonly Look[] {
  return candidates.map((candidate, index) => {
    const place = index % CANDIDATE_COLOURS.length;
    return {
      name: candidate.name,
      className: `k${place + 1}`,
      colour: `var(--c${place + 1})`,
      dash: CANDIDATE_COLOURS[place].dash,
    };
  });
}
