/** What was measured on the run, over what is predicted for it, and what explains the difference. @module */

import { type MeasuredChannel, type MeasuredResult, measurableOf } from '@shaftwork/sim-core';
import { formatNumber, unitSign } from '@shaftwork/sim-core/quantities';
import { capital, clock, differenceOf, measurablePrinting, numberText, quantityText, signedText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { measuredDrawing } from '../../figures/measured.js';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

const share = (value: number): string => `${formatNumber(100 * value, { decimals: 0 })}\u202f%`;

/** The finding in one line. */
export function measuredHeading({ channels, explanation, candidate }: MeasuredResult): string {
  if (explanation.kind === 'nothing-to-explain')
    return `What was measured on ${candidate} is what was predicted, as far as instruments tell`;
  if (explanation.kind === 'one')
    return `One number would explain ${share(explanation.best.explains)} of what parts the log from the prediction for ${candidate}`;
  const [worst] = [...channels].sort((a, b) => apart(b) - apart(a));
  const printing = measurablePrinting(worst.id);
  return `No single number explains the log: mean ${measurableOf(worst.id).words} ${quantityText(worst.meanMeasured, printing)} measured, ${quantityText(worst.meanPredicted, printing)} predicted`;
}

/** A bias in deviations of its instrument [1]. */
const apart = ({ bias, deviation }: MeasuredChannel): number => Math.abs(bias) / deviation;

const residuals = (channels: readonly MeasuredChannel[]) =>
  dataTable(
    'Residuals',
    ['measured less predicted', 'mean of the log', 'mean predicted', 'bias', 'RMS', 'in 5 to 95 %'],
    channels.map(({ id, meanMeasured, meanPredicted, bias, rms, inside }) => {
      const printing = measurablePrinting(id);
      return [
        `${measurableOf(id).words}, ${unitSign(measurableOf(id).shown)}`,
        numberText(meanMeasured, printing),
        numberText(meanPredicted, printing),
        signedText(bias, printing),
        differenceOf(rms, printing),
        inside === undefined ? '–' : share(inside),
      ];
    }),
  );

const MOST_ROWS = 16;
/** Some of the samples of a channel, evenly. */
function overTime({ id, time, measured, predicted, bands }: MeasuredChannel) {
  const count = Math.min(MOST_ROWS, time.length);
  const rows = Array.from({ length: count }, (_, k) => (count === 1 ? 0 : Math.round((k * (time.length - 1)) / (count - 1))));
  const text = (value: number): string => numberText(value, measurablePrinting(id));
  return dataTable(
    `Log and prediction: ${measurableOf(id).words}`,
    [`${measurableOf(id).words}, ${unitSign(measurableOf(id).shown)}`, 'log', 'predicted', ...(bands === undefined ? [] : ['5 %', '95 %'])],
    rows.map((k) => [
      clock(time[k]),
      text(measured[k]),
      text(predicted[k]),
      ...(bands === undefined ? [] : [text(bands.p05[k]), text(bands.p95[k])]),
    ]),
  );
}

export async function measuredSection(view: ReportView): Promise<Section | undefined> {
  const { result, looks } = view;
  const { measured } = result;
  const look = looks.find(({ name }) => name === measured?.candidate);
  if (measured === undefined || look === undefined) return undefined;
  const { candidate, named, file, rows, channels, sentences, taken, driven } = measured;
  const several = result.candidates.length > 1;
  const whose = !several ? '' : named ? ` on ${candidate}` : ` on ${candidate}, which leads: nobody said whose run it was`;
  const sampled = channels.some(({ bands }) => bands !== undefined) && result.doubt !== undefined;
  const warm = channels.some(({ id }) => measurableOf(id).place !== undefined);
  const drawn = await figure({
    id: 'figure-measured',
    number: view.nextFigure(),
    label: `Curves over time: what ${file} measured, and what is predicted for ${candidate}`,
    description: sentences.join(' '),
    drawings: { wide: measuredDrawing(result, measured, look, 'wide'), narrow: measuredDrawing(result, measured, look, 'narrow') },
    caption: html`Thin: ${driven ? `what ${file} has besides what is driven` : `${file}, ${rows} rows`}, measured${whose}; in colour what the data as written predict${sampled ? html`, with 5 to 95\u202f% of the draws as a band` : ''}.${warm ? ' Temperatures are what a thermometer at that place would show: a share of the warmth, late.' : ''}`,
    data: html`${channels.map(overTime)}`,
  });
  const notes = taken.length === 0 ? '' : html`<p class="note">${taken.map((words) => `${capital(words)}.`).join(' ')}</p>`;
  return {
    id: 'measured',
    word: 'Measured',
    heading: measuredHeading(measured),
    body: html`${sentences.map((sentence) => html`<p>${sentence}</p>\n`)}${drawn}
<h3>Residuals</h3>
${residuals(channels)}${notes}`,
  };
}
