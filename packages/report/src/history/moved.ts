/** What moved between two runs, as a person would read it: only what prints differently. @module */

import { HEADLINES } from '@shaftwork/sim-core';
import { listed, numberText, quantityText } from '@shaftwork/sim-core/words';
import { type Headline, KEPT_IDS } from './headline.js';

/** One figure that moved. */
export interface Move {
  readonly candidate: string;
  readonly words: string;
  readonly from: string;
  readonly to: string;
}

/** Sentences first (choice, candidates that came and went), then numbers. */
export function movedBetween(
  before: Headline,
  after: Headline,
): { readonly sentences: readonly string[]; readonly moves: readonly Move[] } {
  const sentences: string[] = [];
  if (before.choice !== after.choice) sentences.push(`The choice was ${before.choice ?? 'none'} and is now ${after.choice ?? 'none'}.`);
  const names = (headline: Headline): readonly string[] => headline.candidates.map(({ name }) => name);
  const came = names(after).filter((name) => !names(before).includes(name));
  const went = names(before).filter((name) => !names(after).includes(name));
  if (came.length > 0) sentences.push(`New: ${listed(came)}.`);
  if (went.length > 0) sentences.push(`No longer there: ${listed(went)}.`);
  const moves: Move[] = [];
  for (const { name, feasible, figures } of after.candidates) {
    const old = before.candidates.find((one) => one.name === name);
    if (old === undefined) continue;
    if (old.feasible !== feasible) sentences.push(`${name} ${feasible ? 'now meets' : 'no longer meets'} every limit.`);
    for (const id of KEPT_IDS) {
      const { words, ...printing } = HEADLINES[id];
      const [from, to] = [old.figures[id], figures[id]];
      if (from === undefined || to === undefined) continue;
      if (numberText(from, printing) !== numberText(to, printing))
        moves.push({ candidate: name, words, from: numberText(from, printing), to: quantityText(to, printing) });
    }
  }
  return { sentences, moves };
}
