/** Long or wide at equal mass. @module */

import { channelPrinting, listed, numberText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { shapeDrawing } from '../../figures/shape.js';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

export async function shapeSection(view: ReportView): Promise<Section | undefined> {
  const { shape } = view.result;
  if (shape === undefined || shape.family.length < 2) return undefined;
  const [first = 'Long or wide at equal mass', ...rest] = shape.sentences;
  const millimetres = (value: number): string => numberText(value, { dimension: 'length', unit: 'mm', decimals: 1 });
  const drawn = await figure({
    id: 'figure-shape',
    number: view.nextFigure(),
    label: 'Peak winding temperature against can diameter over length',
    description: shape.sentences.join(' '),
    drawings: { wide: shapeDrawing(shape, view.looks, 'wide'), narrow: shapeDrawing(shape, view.looks, 'narrow') },
    caption: html`Line: motors of one mass and Kv scaled from ${shape.reference}. Dots: the candidates as they are. Scaled by ${listed(shape.laws)}.`,
    data: dataTable(
      'Shapes',
      ['motor', 'diameter, mm', 'length, mm', 'peak winding, °C'],
      [...shape.real, ...shape.family].map(({ name, ratio, diameter, length, peakWindingTemperature }) => [
        name ?? `D : L ${ratio.toFixed(2)}`,
        millimetres(diameter),
        millimetres(length),
        numberText(peakWindingTemperature, channelPrinting('windingTemperature')),
      ]),
    ),
  });
  return {
    id: 'shape',
    word: 'Long or wide',
    heading: first.replace(/\.$/, ''),
    body: html`${rest.length === 0 ? '' : html`<p>${rest.join(' ')}</p>`}${drawn}`,
  };
}
