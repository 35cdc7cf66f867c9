/** Peak temperature against diameter over length: the family scaled from one motor, and the candidates as they are. @module */

import type { ShapeResult } from '@shaftwork/sim-core';
import { toUnit } from '@shaftwork/sim-core/quantities';
import type { Drawing } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { curve, dots, type Frame, inPixels, type Layer, panel, pixelX, pixelY, words } from '../drawing/panel.js';
import { type Box, clearBox } from '../drawing/place-labels.js';
import { openScale, roundScale } from '../drawing/round-ticks.js';
import { textWidth } from '../drawing/text-width.js';

const LEFT = 32;

export function shapeDrawing({ family, real }: ShapeResult, looks: readonly Look[], size: Size): Drawing {
  const height = size === 'wide' ? 240 : 200;
  const width = FIGURE_WIDTH[size] - LEFT - 12;
  const place = ({ ratio, peakWindingTemperature }: { readonly ratio: number; readonly peakWindingTemperature: number }) => ({
    x: ratio,
    y: toUnit(peakWindingTemperature, '°C'),
  });
  const line = family.map(place).sort((a, b) => a.x - b.x);
  const all = [...line, ...real.map(place)];
  const high = Math.max(...all.map(({ x }) => x));
  const frame: Frame = {
    width,
    height,
    x: openScale(0, high * 1.06, size === 'wide' ? 8 : 5),
    y: roundScale(Math.min(...all.map(({ y }) => y)), Math.max(...all.map(({ y }) => y)), 4),
  };
  const drawn = [inPixels(frame, line)];
  const taken: Box[] = [];
  const layers: Layer[] = [
    words([{ x: -LEFT, y: -12, text: 'peak winding temperature, °C' }]),
    curve(line, { stroke: 'var(--ink)', width: 1.4 }),
  ];
  for (const one of real) {
    const look = looks.find(({ name }) => name === one.name);
    if (look === undefined) continue;
    const point = place(one);
    layers.push(dots([point], look.colour, { size: 48 }));
    const [x, y, textual] = [pixelX(frame, point.x), pixelY(frame, point.y), textWidth(look.name, 12, 600)];
    const places = [
      [9, -7],
      [-textual - 9, -7],
      [-textual / 2, -24],
      [-textual / 2, 10],
      [9, -22],
      [9, 8],
    ]
      .map(([dx, dy]) => ({ x: x + dx, y: y + dy, width: textual, height: 14 }))
      .filter((box) => box.x > 0 && box.x + box.width < width && box.y > -8 && box.y < height - 12);
    const box = clearBox(places, drawn, taken) ?? clearBox(places, [], taken);
    if (box === undefined) continue;
    taken.push(box);
    layers.push(words([{ x: box.x, y: box.y + 11, text: look.name }], { fill: look.colour, weight: 600, halo: true }));
  }
  layers.push(
    words([{ x: 0, y: height + 38, text: 'long' }], { fill: 'var(--soft)' }),
    words([{ x: width, y: height + 38, text: 'can diameter over length; wide' }], { fill: 'var(--soft)', align: 'right' }),
  );
  return { width: FIGURE_WIDTH[size], height: height + 74, parts: [{ x: LEFT, y: 28, spec: { panel: panel(frame, layers) } }] };
}
