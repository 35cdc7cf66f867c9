/** How the plan changed: the headline numbers of the reports that stood here before. @module */

import { HEADLINES } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import { NO_NUMBER, numberText, printedDifference } from '@shaftwork/sim-core/words';
import { counted } from '../../drawing/step-at.js';
import type { Headline } from '../../history/headline.js';
import { movedBetween } from '../../history/moved.js';
import { type Html, html } from '../../html/html.js';
import { scrolling } from '../../tables/data-table.js';
import type { Section } from '../report-view.js';

const SHOWN = ['peakWindingTemperature', 'peakMotorCurrent', 'topSpeed', 'chargeLeft'] as const;
const HEADS = ['choice', 'winding, °C', 'motor current, A', 'top speed, m/s', 'charge left, %'];

export function historySection(earlier: readonly Headline[], now: Headline): Section | undefined {
  if (earlier.length === 0) return undefined;
  const all = [...earlier, now];
  const [first] = earlier;
  const winding = HEADLINES.peakWindingTemperature;
  const lead = (headline: Headline) => headline.candidates.find(({ name }) => name === headline.choice) ?? headline.candidates[0];
  const [from, to] = [lead(first)?.figures.peakWindingTemperature, lead(now)?.figures.peakWindingTemperature];
  const change = from === undefined || to === undefined ? Number.NaN : printedDifference(to, from, winding);
  const heat =
    Number.isFinite(change) && change !== 0 ? `, and its winding is ${Math.abs(change)}\u202fK ${change < 0 ? 'cooler' : 'hotter'}` : '';
  const heading =
    first.choice === now.choice
      ? `Since the first of ${counted(all.length, 'plan')} the choice stayed${heat}`
      : `The choice went from ${first.choice ?? 'none'} to ${now.choice ?? 'none'} over ${counted(all.length, 'plan')}`;
  const rows = all.map((headline, index) => {
    const best = lead(headline);
    const values = SHOWN.map((id) => {
      const value = best?.figures[id];
      return value === undefined ? NO_NUMBER : numberText(value, HEADLINES[id]);
    });
    return html`<tr><th scope="row">${index === all.length - 1 ? 'now' : (headline.date ?? `plan ${index + 1}`)} <span class="hash">${headline.hash}</span></th><td class="o">${headline.choice ?? 'none'}</td>${values.map((value) => html`<td>${value}</td>`)}</tr>\n`;
  });
  const last = movedBetween(lastOf(earlier), now);
  const told: Html = html`${last.sentences.map((sentence) => html`<li>${sentence}</li>\n`)}${last.moves.map(({ candidate, words, from: old, to: next }) => html`<li><b>${candidate}</b>, ${words}: ${old} before, now ${next}.</li>\n`)}`;
  return {
    id: 'history',
    word: 'How it changed',
    heading,
    body: html`${scrolling('How the plan changed', html`<table class="plain"><thead><tr><th scope="col">report, scenario</th>${HEADS.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead><tbody>${rows}</tbody></table>`)}
${told.html === '' ? '' : html`<details class="data"><summary>What moved since the report before</summary><ul class="list">${told}</ul></details>`}`,
  };
}
