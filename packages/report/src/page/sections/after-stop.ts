/** What a thermometer will read after the stop, beside what it cannot reach. */
import type { AfterStopResult } from '@shaftwork/sim-core';
import { afterStopDrawing } from '../../figures/after-stop.js';
import { figure } from '../../figures/figure.js';
import { dataTable } from '../../tables/data-table.js';
import { html } from '../html.js';
import { channelPrinting, clock, numberText, quantityText } from '../numbers.js';
import { lookOf, type ReportView, type Section } from '../report-view.js';

const HEAT = channelPrinting('canTemperature');
const SURFACES = ['can', 'end', 'controller', 'cells'] as const;
const WORDS = { can: 'can', end: 'end bell', controller: 'controller', cells: 'cells' } as const;

function headingOf(name: string, { later, hiddenPeak, readings }: AfterStopResult): string {
  const { value, after } = later.can;
  const hidden = quantityText(hiddenPeak.value, HEAT);
  if (after > 0 && quantityText(value, HEAT) !== quantityText(readings[0]?.can ?? value, HEAT))
    return `The can of ${name} reads most, ${quantityText(value, HEAT)}, ${clock(after)} after the stop; its winding was at ${hidden}`;
  return `A thermometer on the can of ${name} reads at most ${quantityText(value, HEAT)} where the winding was at ${hidden}`;
}

export async function afterStopSection(view: ReportView): Promise<Section | undefined> {
  const { candidates } = view.result;
  const lead = [view.best, ...candidates].find((one) => one?.afterStop !== undefined);
  if (lead?.afterStop === undefined) return undefined;
  const stop = lead.afterStop;
  const look = lookOf(view, lead);
  const several = candidates.length > 1;
  const rows = candidates.flatMap(({ name, afterStop }) =>
    (afterStop?.readings ?? []).map((reading) => [
      `${several ? `${name}, ` : ''}${clock(reading.after)}`,
      ...SURFACES.map((surface) => numberText(reading[surface], HEAT)),
    ]),
  );
  const drawn = await figure({
    id: 'figure-after-stop',
    number: view.nextFigure(),
    label: 'Temperatures over the time after the stop',
    description: stop.readings
      .map((reading) => `${clock(reading.after)} after the stop the can reads ${quantityText(reading.can, HEAT)}`)
      .join('; '),
    drawings: { wide: afterStopDrawing(stop, look, 'wide'), narrow: afterStopDrawing(stop, look, 'narrow') },
    caption: html`${lead.name}, switched off at ${clock(stop.stoppedAt)} of the run and standing still. Circles: what a thermometer on the can reads at ${stop.readings.map(({ after }) => clock(after)).join(', ')}. The winding cannot be reached.`,
    data: dataTable(
      'Readings after the stop',
      [several ? 'candidate, time' : 'time', ...SURFACES.map((surface) => `${WORDS[surface]}, °C`)],
      rows,
    ),
  });
  return { id: 'after-stop', word: 'After the stop', heading: headingOf(lead.name, stop), body: drawn };
}
