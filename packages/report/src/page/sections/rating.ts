/** What each drive may do for ever, and for how long it may do more. @module */

import type { AllowedTime, RatingResult } from '@shaftwork/sim-core';
import { channelPrinting, clock, listed, numberText, quantityText, throttleText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { allowedTimeDrawing, rated } from '../../figures/allowed-time.js';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

const CURRENT = channelPrinting('motorCurrent');
const SPEED = channelPrinting('vehicleSpeed');
const ROWS = 12;

/** What lasts for ever: at the speed of the hardest step where the rating has one, which is what a pilot asks; else at the speed the throttle gives. */
const lastingOf = ({ continuous, hardest }: RatingResult): RatingResult['continuous'] => hardest?.continuous ?? continuous;

const whereOf = ({ hardest }: RatingResult): string =>
  hardest === undefined ? '' : ` at the ${quantityText(hardest.vehicleSpeed, SPEED)} of “${hardest.label}”`;

const allowedText = (allowed: AllowedTime): string => (allowed.kind === 'for-ever' ? 'for ever' : clock(allowed.time));

function continuousText(name: string, rating: RatingResult): string {
  const where = whereOf(rating);
  const lasting = lastingOf(rating);
  if (lasting.kind === 'none') return `${name} may run at no throttle for ever${where}`;
  const current = quantityText(lasting.point.motorCurrent, CURRENT);
  return lasting.kind === 'full-throttle'
    ? `${name} may run at full throttle for ever${where} (${current})`
    : `${name} may run at ${throttleText(lasting.point.throttle)} throttle for ever${where} (${current} once hot)`;
}

/** More of them stand in the figure alone. */
const FEW = 3;

/** The leader, then the others beside it, those that the figure has no line for, since all their currents last, among them. */
export function ratingHeading({ result, best }: ReportView): string {
  const all = result.candidates.flatMap(({ name, rating }) => (rating === undefined ? [] : [{ name, rating }]));
  const lead = all.find(({ name }) => name === best?.name) ?? all[0];
  const others = all
    .filter((one) => one !== lead)
    .map(({ name, rating }) => {
      const lasting = lastingOf(rating);
      const throttle =
        lasting.kind === 'none' ? 'none' : lasting.kind === 'full-throttle' ? 'full throttle' : throttleText(lasting.point.throttle);
      return `${name} at ${throttle}${lead.rating.hardest === undefined ? whereOf(rating) : ''}`;
    });
  return `${continuousText(lead.name, lead.rating)}${others.length === 0 || others.length > FEW ? '' : `, ${listed(others)}`}`;
}

export async function ratingSection(view: ReportView): Promise<Section | undefined> {
  const shown = rated(view.result.candidates, view.looks);
  if (shown.length === 0) return undefined;
  const drawn = await figure({
    id: 'figure-allowed-time',
    number: view.nextFigure(),
    label: 'Allowed time against motor current',
    description: `${shown.map(({ candidate, rating }) => continuousText(candidate.name, rating)).join('; ')}.`,
    drawings: { wide: allowedTimeDrawing(shown, 'wide'), narrow: allowedTimeDrawing(shown, 'narrow') },
    caption: html`How long a motor current, taken cold, may last until a temperature limit is met, along the scenario’s own load at the steady speed the throttle gives on the level. Broad: from the start temperatures; fine: from the mean temperatures of the run. Each line ends on the left where the current may last for ever.`,
    data: dataTable(
      'Allowed time',
      ['candidate', 'motor current, A', 'from cold, m:ss', 'from warm, m:ss'],
      shown.flatMap(({ candidate, rating: { shortTime } }) =>
        shortTime.fromCold.slice(0, ROWS).map((cold) => {
          const warm = shortTime.fromWarm.find((one) => one.throttle === cold.throttle);
          return [candidate.name, numberText(cold.motorCurrent, CURRENT), allowedText(cold), warm === undefined ? '–' : allowedText(warm)];
        }),
      ),
    ),
  });
  return { id: 'rating', word: 'For how long', heading: ratingHeading(view), body: drawn };
}
