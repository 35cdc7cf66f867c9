/** Where one number alone would change the answer. */
import { costlyName, costlyValue, measureFirst, tipWords } from '@shaftwork/sim-core';
import { dataTable } from '../../tables/data-table.js';
import { html } from '../html.js';
import { capital, listed } from '../numbers.js';
import type { ReportView, Section } from '../report-view.js';

export function tippingSection({ result, best }: ReportView): Section | undefined {
  const { costly } = result;
  if (costly === undefined || costly.numbers.length === 0 || best === undefined) return undefined;
  const soonest = costly.numbers.find(({ tips }) => tips.length > 0);
  const body = html`${dataTable(
    'What one number alone would change',
    ['number', 'as written', '95 % interval', 'beyond', 'to be written as'],
    costly.numbers.map((number) => [
      capital(costlyName(number)),
      costlyValue(number, number.value),
      `${costlyValue(number, number.low)} to ${costlyValue(number, number.high)}`,
      number.tips.length === 0 ? 'nothing changes' : tipWords(number).join('; '),
      number.advice?.key ?? '–',
    ]),
  )}
<p class="note">The ${costly.numbers.length} numbers that cost the answer most, each moved alone over its interval and the run driven again; lines that the sheet lacks come first, then what tips the answer soonest.${measureFirst(costly) === undefined ? '' : html` How to measure the first of them: ${measureFirst(costly)!.advice!.how}.`}</p>`;
  const heading =
    soonest === undefined
      ? `No single number, within its interval, changes the answer`
      : `The ${costlyName(soonest)} alone would change the answer: ${listed(tipWords(soonest))}`;
  return { id: 'tipping', word: 'What would change it', heading, body };
}
