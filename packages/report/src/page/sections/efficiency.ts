/** The section on efficiency over speed and torque. @module */

import { channelPrinting, clock, numberText, type Printing, quantityText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { efficiencyDrawing, mapped } from '../../figures/efficiency.js';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

const SHARE: Printing = { dimension: 'fraction', unit: '%', decimals: 0 };
const HEAT = channelPrinting('windingTemperature');
const ROWS = 8;

/** Mechanical over electrical work of the motor while the trace runs. */
function overRun(trace: {
  readonly time: readonly number[];
  readonly shaftPower: readonly number[];
  readonly inputPower: readonly number[];
}): number {
  let [work, spent] = [0, 0];
  for (let index = 1; index < trace.time.length; index++) {
    const span = trace.time[index] - trace.time[index - 1];
    work += Math.max(0, trace.shaftPower[index]) * span;
    spent += Math.max(0, trace.inputPower[index]) * span;
  }
  return spent > 0 ? work / spent : Number.NaN;
}

export async function efficiencySection(view: ReportView): Promise<Section | undefined> {
  const shown = mapped(view.result.candidates, view.looks);
  if (shown.length === 0) return undefined;
  const lead = shown.find(({ candidate }) => candidate.name === view.best?.name) ?? shown[0];
  const share = overRun(lead.candidate.trace);
  const heading = Number.isFinite(share)
    ? `Over the run the motor of ${lead.candidate.name} turns ${quantityText(share, SHARE)} of its electricity into shaft work`
    : 'Where the motors are at their best, and where the run is';
  const told = shown.map(({ candidate }) => `${candidate.name} ${quantityText(overRun(candidate.trace), SHARE)}`).join(', ');
  const drawn = await figure({
    id: 'figure-efficiency',
    number: view.nextFigure(),
    label: 'Lines of equal efficiency of each motor over speed and torque, with dots where the run has been',
    description: `Efficiency of the motor over the run: ${told}.`,
    drawings: { wide: efficiencyDrawing(shown, 'wide'), narrow: efficiencyDrawing(shown, 'narrow') },
    caption: html`Lines of equal efficiency of the motor alone, in per cent, with its winding at ${shown.map(({ candidate, map }) => `${quantityText(map.windingTemperature, HEAT)}${shown.length > 1 ? ` (${candidate.name})` : ''}`).join(', ')}. ${shown.some(({ gear }) => gear !== 1) ? 'Speed divided and torque multiplied by the gear ratio. ' : ''}Dots: where the run was, their area the time spent there.`,
    data: dataTable(
      'Where the run was',
      ['candidate', 'motor speed, rpm', 'torque, N·m', 'time, m:ss'],
      shown.flatMap(({ candidate, map }) =>
        map.visits
          .slice(0, ROWS)
          .map(({ speed, torque, time }) => [
            candidate.name,
            numberText(speed, channelPrinting('shaftSpeed')),
            numberText(torque, channelPrinting('motorTorque')),
            clock(time),
          ]),
      ),
    ),
  });
  return { id: 'efficiency', word: 'Efficiency', heading, body: drawn };
}
