/** What a thermometer will read after the stop, beside what it cannot reach. @module */

import { type AfterStopResult, type CandidateResult, STOP_THERMOMETERS, THERMOMETER_PLACES } from '@shaftwork/sim-core';
import { channelPrinting, clock, listed, numberText, quantityText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { stepAt } from '../../drawing/step-at.js';
import { afterStopDrawing, type StopReading, stopReading } from '../../figures/after-stop.js';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

const HEAT = channelPrinting('canTemperature');
const SURFACES = ['can', 'end', 'controller', 'cells'] as const;
const WORDS = { can: 'can', end: 'end bell', controller: 'controller', cells: 'cells' } as const;

const MOST_SPOKEN = 3;

const degrees = (kelvin: number): string => quantityText(kelvin, HEAT);
const bandText = ({ band }: StopReading): string => (band === undefined ? '' : ` (${numberText(band.p05, HEAT)} to ${degrees(band.p95)})`);

/** Two moments, each with its own figures: the reading after the stop, and the winding when it was hottest. */
export function afterStopHeading(
  { result }: ReportView,
  { name }: CandidateResult,
  { hiddenPeak, stoppedAt }: AfterStopResult,
  reading: StopReading,
): string {
  const step = stepAt(result, hiddenPeak.time);
  const when =
    hiddenPeak.time > stoppedAt
      ? `reaches ${degrees(hiddenPeak.value)}, ${clock(hiddenPeak.time - stoppedAt)} after it`
      : `had been at ${degrees(hiddenPeak.value)}, ${step === undefined ? `at ${clock(hiddenPeak.time)} of the run` : `in “${step}”`}`;
  return `One minute after the stop the can of ${name} reads ${degrees(reading.value)}; its winding ${when}`;
}

/** What the copper of the candidate that leads has when thermometers at the usual places show 60 °C. */
function copperText({ name, afterStop }: CandidateResult): string {
  const told = STOP_THERMOMETERS.flatMap((place) => {
    const at60 = afterStop?.thermometers[place].at60;
    return at60 === undefined ? [] : [`${degrees(at60.winding)} if the thermometer is ${THERMOMETER_PLACES[place].words}`];
  });
  return told.length === 0
    ? ''
    : ` When a thermometer on ${name} shows 60\u202f°C a minute after the stop, the winding has ${told.join(', ')}.`;
}

export async function afterStopSection(view: ReportView): Promise<Section | undefined> {
  const { result, looks } = view;
  const { candidates } = result;
  const lead = [view.best, ...candidates].find((one) => one?.afterStop !== undefined);
  const reading = lead === undefined ? undefined : stopReading(lead, result);
  if (lead?.afterStop === undefined || reading === undefined) return undefined;
  const several = candidates.length > 1;
  // Of many, the two that the verdict is about.
  const spoken = candidates.length <= MOST_SPOKEN ? candidates : [lead, view.second].filter((one) => one !== undefined);
  const told = spoken.flatMap((candidate) => {
    const own = stopReading(candidate, result);
    return own === undefined ? [] : [`${degrees(own.value)}${bandText(own)}${several ? ` on ${candidate.name}` : ''}`];
  });
  const rows = candidates.flatMap(({ name, afterStop }) =>
    (afterStop?.readings ?? []).map((reading) => [
      `${several ? `${name}, ` : ''}${clock(reading.after)}`,
      ...SURFACES.map((surface) => numberText(reading[surface], HEAT)),
    ]),
  );
  const drawn = await figure({
    id: 'figure-after-stop',
    number: view.nextFigure(),
    label: 'Temperature of can and winding over the first five minutes after the stop',
    description: `One minute after the stop the can reads ${told.join('; ')}.`,
    drawings: { wide: afterStopDrawing(result, looks, 'wide'), narrow: afterStopDrawing(result, looks, 'narrow') },
    caption: html`From the last minute of the run to five minutes after everything is switched off and stands still.${result.doubt === undefined ? '' : ` The bars beside the rule hold 5 to 95\u202f% of ${result.doubt.samples} draws.`}${copperText(lead)}`,
    data: dataTable(
      'Readings after the stop',
      [several ? 'candidate, time' : 'time', ...SURFACES.map((surface) => `${WORDS[surface]}, °C`)],
      rows,
    ),
  });
  return {
    id: 'after-stop',
    word: 'After the stop',
    heading: afterStopHeading(view, lead, lead.afterStop, reading),
    body: html`<p>Read the can one minute after stopping: ${listed(told)} ${told.length === 1 ? 'agrees' : 'agree'} with this calculation.${reading.band === undefined ? '' : ` A reading on ${lead.name} outside ${numberText(reading.band.p05, HEAT)} to ${degrees(reading.band.p95)} means that some value here is wrong.`}</p>
${drawn}`,
  };
}
