/** How sure: the peaks as distributions, chances, what drives them, and what would be worth measuring. @module */

import { type Chance, chanceFigure, type DoubtResult, inDraws, percent } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import { formatNumber, STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { capital, listed } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { dotMeaning, doubtDrawing } from '../../figures/doubt.js';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

/** "91 % (81 to 96)"; at either end the bound itself is the interval. */
const chanceCell = (chance: Chance): string =>
  chance.count === 0 || chance.count === chance.of
    ? chanceFigure(chance)
    : `${percent(chance.probability)} (${Math.round(100 * chance.low)} to ${Math.round(100 * chance.high)})`;

/** "all", "none", "49". */
const counted = ({ count, of }: Chance): string => (count === of ? 'all' : count === 0 ? 'none' : String(count));
/** More of them are told by their range. */
const FEW = 3;

/** "; Wide in 49 and Small in 6". */
function othersOf(others: DoubtResult['candidates']): string {
  if (others.length === 0) return '';
  if (others.length <= FEW) return `; ${listed(others.map(({ name, feasible }) => `${name} in ${counted(feasible)}`))}`;
  const counts = others.map(({ feasible }) => feasible).sort((a, b) => a.count - b.count);
  const [least, most] = [counted(counts[0]), counted(lastOf(counts))];
  return `; the others in ${least === most ? least : `${least} to ${most}`}`;
}

/** The leader's chance, and how often each of the others meets every limit. */
export function doubtHeading(view: ReportView, doubt: DoubtResult): string {
  const lead = view.best ?? view.result.candidates[0];
  const own = doubt.candidates.find(({ name }) => name === lead?.name);
  if (lead === undefined || own === undefined) return 'How sure the figures are';
  return `${lead.name} meets every limit ${inDraws(own.feasible)}${othersOf(doubt.candidates.filter((one) => one !== own))}`;
}

export async function doubtSection(view: ReportView): Promise<Section | undefined> {
  const { doubt } = view.result;
  if (doubt === undefined) return undefined;
  const { looks } = view;
  const limits = [...new Map(doubt.candidates.flatMap((one) => one.limits.map(({ id, words }) => [id, words] as const)))].filter(([id]) =>
    doubt.candidates.some((one) => (one.limits.find((limit) => limit.id === id)?.passed.probability ?? 0) > 0),
  );
  const chances = dataTable(
    'Chances',
    ['chance, and its 95 % interval', ...doubt.candidates.map(({ name }) => name)],
    [
      ['meets every limit', ...doubt.candidates.map(({ feasible }) => chanceCell(feasible))],
      ...(doubt.candidates.length > 1 ? [['comes first', ...doubt.candidates.map(({ first }) => chanceCell(first))]] : []),
      ...limits.map(([id, words]) => [
        `passes: ${words}`,
        ...doubt.candidates.map((one) => {
          const limit = one.limits.find((each) => each.id === id);
          return limit === undefined ? '–' : chanceCell(limit.passed);
        }),
      ]),
    ],
  );
  const { peaks } = doubt;
  const told = doubt.candidates.map(({ name, feasible }) => `${name} meets every limit ${inDraws(feasible)}`).join('; ');
  const drawn = await figure({
    id: 'figure-doubt',
    number: view.nextFigure(),
    label: `Dots: the ${peaks.words} of every draw, a row a candidate`,
    description: `${told}.`,
    drawings: { wide: doubtDrawing(peaks, looks, 'wide'), narrow: doubtDrawing(peaks, looks, 'narrow') },
    caption: html`${capital(peaks.words)} over ${doubt.samples} draws of ${doubt.unknowns} unknowns within their tolerances. ${dotMeaning(doubt.samples)}; filled ones pass the limit. Beside the names: 5 to 95\u202f% of the draws, and how many pass. The model’s own error is among them: ${doubt.modelError.words}.`,
    data: chances,
  });
  const lead = doubt.candidates.find(({ name }) => name === view.best?.name) ?? doubt.candidates[0];
  const sensitivity = lead?.sensitivities.find(({ words }) => words === peaks.words);
  const drivers =
    sensitivity === undefined || sensitivity.shares.length === 0
      ? ''
      : html`<h3>What drives the spread: ${lead.name}, ${sensitivity.words}</h3>
${dataTable(
  'What drives the spread',
  ['number', 'share of the variance, % ± its 95 % interval'],
  sensitivity.shares
    .slice(0, 8)
    .map(({ words, share, error }) => [
      words,
      `${formatNumber(share * 100, { decimals: 0 })} ± ${formatNumber(STANDARD_DEVIATIONS_95 * error * 100, { decimals: 0 })}`,
    ]),
)}
<p class="note">Each share is estimated alone, so that they need not add up to the whole.</p>`;
  return { id: 'doubt', word: 'How sure', heading: doubtHeading(view, doubt), body: html`${drawn}${drivers}` };
}
