/** Temperatures after everything is switched off: the hidden winding falls while what a thermometer reaches goes on warming. */
import type { AfterStopResult, StopBody } from '@shaftwork/sim-core';
import { toUnit } from '@shaftwork/sim-core/quantities';
import type { Drawing } from './draw.js';
import { FIGURE_WIDTH, type Size } from './figure.js';
import type { Look } from './palette.js';
import { curve, dots, type Frame, panel, pixelY, words } from './panel.js';
import { roundScale, timeScale } from './round-ticks.js';
import { textWidth } from './text-width.js';
import { thinTrace } from './thin-trace.js';
import { endLabels } from './time-panels.js';

const LINES: readonly { readonly body: StopBody; readonly words: string; readonly width: number; readonly dash: readonly number[] }[] = [
  { body: 'winding', words: 'winding', width: 2.1, dash: [] },
  { body: 'can', words: 'can', width: 1.7, dash: [7, 3] },
  { body: 'controller', words: 'controller', width: 1.4, dash: [2, 2.5] },
  { body: 'cells', words: 'cells', width: 1.4, dash: [9, 3, 2, 3] },
];
const LEFT = 32;

export function afterStopDrawing({ trace, readings }: AfterStopResult, look: Look, size: Size): Drawing {
  const height = size === 'wide' ? 220 : 190;
  const right = Math.ceil(Math.max(...LINES.map((line) => textWidth(`${line.words} 000\u202f°C`, 12, 600)))) + 12;
  const degrees = (values: readonly number[]): readonly number[] => values.map((value) => toUnit(value, '°C'));
  const lines = LINES.map((line) => ({
    ...line,
    points: thinTrace(trace.after, degrees(trace[line.body]), height),
  })).filter(({ points }) => points.length > 1);
  const all = lines.flatMap(({ points }) => points.map(({ y }) => y));
  const width = FIGURE_WIDTH[size] - LEFT - right;
  const frame: Frame = {
    width,
    height,
    x: timeScale(trace.after.at(-1)!, size === 'wide' ? 10 : 5),
    y: roundScale(Math.min(...all), Math.max(...all), 4),
  };
  const colour = (body: StopBody): string => (body === 'winding' || body === 'can' ? look.colour : 'var(--soft)');
  const layers = [
    words([{ x: -LEFT, y: -12, text: 'temperature, °C' }]),
    ...lines.map(({ body, points, width: broad, dash }) => curve(points, { stroke: colour(body), width: broad, dash })),
    dots(
      readings.map((reading) => ({ x: reading.after, y: toUnit(reading.can, '°C') })),
      look.colour,
      { hollow: true, size: 34 },
    ),
    ...endLabels(
      frame,
      lines.map(({ body, words: name, points }) => {
        const last = points.at(-1)!.y;
        return {
          at: pixelY(frame, last),
          colour: colour(body),
          name: [name],
          value: `${last.toFixed(0).replace('-', '\u2212')}\u202f°C`,
          soft: [],
          room: right,
        };
      }),
    ),
    words([{ x: width, y: height + 38, text: 'time after the stop, m:ss' }], { fill: 'var(--soft)', align: 'right' }),
  ];
  return { width: FIGURE_WIDTH[size], height: height + 74, parts: [{ x: LEFT, y: 28, spec: { panel: panel(frame, layers) } }] };
}
