/** Parts of a difference as lying bars from one upright rule, each with its words and value. @module */

import type { Drawing } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import { areas, type Frame, type Layer, panel, pixelX, rules, words } from '../drawing/panel.js';
import { textWidth, wrapText } from '../drawing/text-width.js';

export interface PartBar {
  readonly words: string;
  readonly value: number;
  readonly text: string;
  readonly fill: string;
}

const LEFT: { readonly [S in Size]: number } = { wide: 250, narrow: 120 };
const LINE = 14;
const BAR = 12;

export function partBars(bars: readonly PartBar[], size: Size, ends: { readonly less: string; readonly more: string }): Drawing {
  const left = LEFT[size];
  const room = FIGURE_WIDTH[size] - left;
  const label = Math.max(...bars.map(({ text }) => textWidth(text, 12, 600))) + 10;
  const low = Math.min(0, ...bars.map(({ value }) => value));
  const high = Math.max(0, ...bars.map(({ value }) => value));
  const span = high - low || 1;
  const [before, after] = [low < 0 ? label : 2, high > 0 ? label : 2];
  const width = room - before - after;
  const lines = bars.map((bar) => wrapText(bar.words, left - 14, 12));
  const heights = lines.map((rows) => Math.max(rows.length * LINE + 8, BAR + 10));
  const height = heights.reduce((sum, one) => sum + one, 0);
  const frame: Frame = {
    width,
    height,
    x: { domain: [low, low + span], ticks: [], label: String },
    y: { domain: [0, height], ticks: [], label: String },
  };
  const zero = pixelX(frame, 0);
  const layers: Layer[] = [];
  let y = 0;
  bars.forEach(({ value, text, fill }, index) => {
    const middle = y + heights[index] / 2;
    const up = height - middle;
    layers.push(areas([{ x: Math.min(0, value), x2: Math.max(0, value), y: up - BAR / 2, y2: up + BAR / 2 }], fill));
    const right = value >= 0;
    layers.push(
      words([{ x: pixelX(frame, value) + (right ? 7 : -7), y: middle + 4, text }], { weight: 600, align: right ? 'left' : 'right' }),
    );
    layers.push(
      words(
        lines[index].map((line, row) => ({
          x: -left - before + 0,
          y: middle + 4 + (row - (lines[index].length - 1) / 2) * LINE,
          text: line,
        })),
      ),
    );
    y += heights[index];
  });
  layers.push(rules([{ x: 0, x2: 0, y: 0, y2: height }]));
  if (low < 0) layers.push(words([{ x: zero - 8, y: -8, text: ends.less }], { fill: 'var(--soft)', align: 'right' }));
  if (high > 0) layers.push(words([{ x: zero + 8, y: -8, text: ends.more }], { fill: 'var(--soft)' }));
  return {
    width: FIGURE_WIDTH[size],
    height: height + 30,
    parts: [{ x: left + before, y: 22, spec: { panel: panel(frame, layers, { axes: false }) } }],
  };
}
