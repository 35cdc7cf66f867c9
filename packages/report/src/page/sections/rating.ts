/** What each drive may do for ever, and for how long it may do more. */
import type { RatingResult } from '@shaftwork/sim-core';
import { allowedTimeDrawing, rated } from '../../figures/allowed-time.js';
import { figure } from '../../figures/figure.js';
import { dataTable } from '../../tables/data-table.js';
import { html } from '../html.js';
import { channelPrinting, clock, listed, numberText, quantityText } from '../numbers.js';
import type { ReportView, Section } from '../report-view.js';

const CURRENT = channelPrinting('motorCurrent');
const THROTTLE = channelPrinting('throttle');
const SPEED = channelPrinting('vehicleSpeed');
const ROWS = 12;

/** What lasts for ever: at the speed of the hardest step where the rating has one, which is what a pilot asks; else at the speed the throttle gives. */
function continuousText(name: string, { continuous, hardest }: RatingResult): string {
  const where = hardest === undefined ? '' : ` at the ${quantityText(hardest.vehicleSpeed, SPEED)} of “${hardest.label}”`;
  const rating = hardest?.continuous ?? continuous;
  if (rating.kind === 'none') return `${name} may run at no throttle for ever${where}`;
  const current = quantityText(rating.point.motorCurrent, CURRENT);
  return rating.kind === 'full-throttle'
    ? `${name} may run at full throttle for ever${where} (${current})`
    : `${name} may run at ${quantityText(rating.point.throttle, THROTTLE)} throttle for ever${where} (${current} once hot)`;
}

export async function ratingSection(view: ReportView): Promise<Section | undefined> {
  const shown = rated(view.result.candidates, view.looks);
  if (shown.length === 0) return undefined;
  const lead = shown.find(({ candidate }) => candidate.name === view.best?.name) ?? shown[0]!;
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
        shortTime.fromCold.slice(0, ROWS).map(({ motorCurrent, time, throttle }) => {
          const warm = shortTime.fromWarm.find((one) => one.throttle === throttle);
          return [
            candidate.name,
            numberText(motorCurrent, CURRENT),
            time === undefined ? 'for ever' : clock(time),
            warm === undefined ? '–' : warm.time === undefined ? 'for ever' : clock(warm.time),
          ];
        }),
      ),
    ),
  });
  const lasting = ({ rating }: (typeof shown)[number]) => rating.hardest?.continuous ?? rating.continuous;
  const others = shown.filter((one) => one !== lead && lasting(one).kind === 'limited');
  const more =
    others.length === 0 || others.length > 3
      ? ''
      : `, ${listed(
          others.map((one) => {
            const each = lasting(one);
            return `${one.candidate.name} ${each.kind === 'limited' ? `at ${quantityText(each.point.throttle, THROTTLE)}` : ''}`;
          }),
        )}`;
  return {
    id: 'rating',
    word: 'For how long',
    heading: `${continuousText(lead.candidate.name, lead.rating)}${more}`,
    body: drawn,
  };
}
