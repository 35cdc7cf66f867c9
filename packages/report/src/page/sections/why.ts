/** Why the leader differs from the runner-up: the difference shared out over what differs between them. @module */

import type { WhySplit } from '@shaftwork/sim-core';
import { capital, differenceText, listed, type Printing, quantityText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { partBars } from '../../figures/part-bars.js';
import { type Html, html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

const PRINTINGS: { readonly [dimension: string]: Printing } = {
  temperature: { dimension: 'temperature', unit: '°C', decimals: 0 },
  time: { dimension: 'time', unit: 's', decimals: 0 },
};
/** Smaller parts than this share of the largest are left to the table. */
const SEEN = 0.01;

export async function whySection(view: ReportView): Promise<Section | undefined> {
  const { why } = view.result;
  const splits =
    why?.splits.filter(({ dimension, parts }) => PRINTINGS[dimension] !== undefined && parts.some(({ value }) => value !== 0)) ?? [];
  if (why === undefined || splits.length === 0) return undefined;
  const figures: Html[] = [];
  for (const [index, { words, dimension, from, to, difference, parts, interactionsExceedParts }] of splits.entries()) {
    const printing = PRINTINGS[dimension];
    // Whole kelvins would make small parts of one size; a difference is read more closely than a temperature.
    const fine: Printing = dimension === 'temperature' ? { ...printing, decimals: 1 } : printing;
    const signed = (value: number): string => `${value < 0 ? '\u2212' : '+'}${differenceText(value, fine)}`;
    const largest = Math.max(...parts.map(({ value }) => Math.abs(value)));
    const bars = parts
      .filter(({ value }) => Math.abs(value) >= SEEN * largest)
      .map((part) => ({ words: part.words, value: part.value, text: signed(part.value), fill: 'var(--loss-motor)' }));
    const ends = dimension === 'time' ? { less: 'shorter', more: 'longer' } : { less: 'cooler', more: 'hotter' };
    figures.push(
      await figure({
        id: index === 0 ? 'figure-why' : `figure-why-${index + 1}`,
        number: view.nextFigure(),
        label: `Bars: parts of the difference in ${words} between ${why.from} and ${why.to}`,
        description: `${parts.map((part) => `${capital(part.words)} ${signed(part.value)}`).join('; ')}.`,
        drawings: { wide: partBars(bars, 'wide', ends), narrow: partBars(bars, 'narrow', ends) },
        caption: html`${capital(words)}: ${why.from} ${quantityText(from, printing)}, ${why.to} ${quantityText(to, printing)}, ${signed(difference)}. Each part is the mean effect of taking it from ${why.to} over every order of taking (Shapley value); the parts sum to the difference.${interactionsExceedParts ? ' Joint effects exceed the parts here: the split says little.' : ''}`,
        data: dataTable(
          'Parts of the difference',
          ['what differs', 'part'],
          parts.flatMap((part) => [
            [part.words, signed(part.value)],
            ...(part.ways ?? []).map((way) => [`of it by ${way.words}`, signed(way.value)]),
          ]),
        ),
      }),
    );
  }
  return { id: 'why', word: 'Why', heading: whyHeading(why.from, why.to, splits), body: html`${figures}` };
}

/** The difference and its two largest causes; the others stand in the figure. */
export function whyHeading(from: string, to: string, splits: readonly WhySplit[]): string {
  const split = splits[0];
  const printing = PRINTINGS[split.dimension];
  const size = (value: number): string => differenceText(value, printing);
  const more = split.difference > 0;
  const compared = split.dimension === 'time' ? (more ? 'longer' : 'shorter') : more ? 'hotter' : 'cooler';
  const causes = split.parts
    .filter(({ value }) => value !== 0 && value > 0 === more)
    .sort((a, b) => Math.abs(b.value) - Math.abs(a.value))
    .slice(0, 2);
  const told = causes.map(({ words, value }) => `${words} (${size(value)})`);
  return `${to} is ${size(split.difference)} ${compared} than ${from}${told.length === 0 ? '' : `, ${told.length < split.parts.length ? 'chiefly ' : ''}by ${listed(told)}`}`;
}
