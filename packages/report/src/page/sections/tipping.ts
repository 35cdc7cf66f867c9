/** Where one number alone would change the answer; one sentence where none changes the choice. @module */

import { type CostlyNumber, costlyName, costlyValue, measureFirst, tipWords, withoutTips } from '@shaftwork/sim-core';
import { capital, listed } from '@shaftwork/sim-core/words';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

const interval = (number: CostlyNumber): string => `${costlyValue(number, number.low)} to ${costlyValue(number, number.high)}`;

export function tippingSection({ result, best }: ReportView): Section | undefined {
  const { costly } = result;
  if (costly === undefined || costly.numbers.length === 0 || best === undefined) return undefined;
  const tipping = costly.numbers.filter(({ tips }) => tips.length > 0);
  const staying = withoutTips(costly).map((number) => `${costlyName(number)} (${interval(number)})`);
  const first = measureFirst(costly);
  const table =
    tipping.length === 0
      ? ''
      : dataTable(
          'What one number alone would change',
          ['number', 'as written', '95 % interval', 'what changes', 'to be written as'],
          tipping.map((number) => [
            capital(costlyName(number)),
            costlyValue(number, number.value),
            interval(number),
            html`<span class="long">${capital(tipWords(number).join('; '))}</span>`,
            number.advice?.key ?? '–',
          ]),
        );
  const body = html`${table}<p class="note">${[
    ...(tipping.length === 0
      ? []
      : [
          'Each moved alone over its interval and the run driven again; lines that the sheet lacks come first, then what tips the answer soonest.',
        ]),
    ...(staying.length === 0
      ? []
      : [
          `Moved alone over ${staying.length === 1 ? 'its' : 'their'} 95 % interval, ${staying.length === 1 ? 'this leaves' : 'these leave'} the choice as it is: ${staying.join('; ')}.`,
        ]),
    ...(first === undefined ? [] : [`How to measure the ${costlyName(first)}: ${first.advice.how}.`]),
  ].join(' ')}</p>`;
  const heading =
    tipping.length === 0
      ? 'No single number, within its interval, changes the choice'
      : `The ${costlyName(tipping[0])} alone would change the answer: ${listed(tipWords(tipping[0]))}`;
  return { id: 'tipping', word: 'What would change it', heading, body };
}
