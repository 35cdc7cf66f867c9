/** What every section of the report is made from, and what it becomes. @module */

import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { named } from '@shaftwork/sim-core/problems';
import { type Look, looksOf } from '../drawing/palette.js';
import { type Html, html } from '../html/html.js';

export interface ReportView {
  readonly result: RunResult;
  readonly looks: readonly Look[];
  /** The first of the ranking; undefined when nobody could be ranked. */
  readonly best: CandidateResult | undefined;
  readonly second: CandidateResult | undefined;
  /** The day given by the caller. */
  readonly date?: string;
  /** Figures are numbered in the order in which sections ask. */
  readonly nextFigure: () => number;
}

export interface Section {
  readonly id: string;
  /** The word in the contents. */
  readonly word: string;
  /** A sentence that says what was found. */
  readonly heading: string;
  readonly body: Html;
}

export function viewOf(result: RunResult, date?: string): ReportView {
  const [best, second] = result.ranking.map((name) => result.candidates.find((candidate) => candidate.name === name));
  let figures = 0;
  return { result, looks: looksOf(result.candidates), best, second, ...(date === undefined ? {} : { date }), nextFigure: () => ++figures };
}

export const lookOf = ({ looks }: ReportView, { name }: CandidateResult): Look => named(looks, name);

/** Text with the candidates' names in their colours; longer names are looked for first, and only as whole words. */
export function withNames(text: string, looks: readonly Look[]): Html {
  const byName = new Map(looks.map((look) => [look.name, look]));
  const names = [...byName.keys()].filter((name) => name !== '').sort((a, b) => b.length - a.length);
  if (names.length < 2) return html`${text}`;
  const quoted = names.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  const pattern = new RegExp(`(?<![\\p{L}\\p{N}])(${quoted.join('|')})(?![\\p{L}\\p{N}])`, 'u');
  const pieces = text.split(pattern);
  return html`${pieces.map((piece) => {
    const look = byName.get(piece);
    return look === undefined ? piece : html`<span class="${look.className}">${piece}</span>`;
  })}`;
}
