/** For each limit the way from the value at the start to the worst value, scaled so that all limits are one upright rule. @module */

import type { LimitId, LimitResult, RunResult } from '@shaftwork/sim-core';
import { besideLimit, limitPrinting, quantityText, roundText } from '@shaftwork/sim-core/words';
import type { Drawing } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { curve, dots, type Frame, type Layer, panel, pixelX, rules, strokes, words } from '../drawing/panel.js';
import { textWidth, wrapText } from '../drawing/text-width.js';

const LEFT: { readonly [S in Size]: number } = { wide: 170, narrow: 104 };
const LINE = 14;
/** Between the longest bar and the values [px]. */
const GAP = 14;
/** Farther past the limit than this, as a share of the way, a bar is cut and says so. */
export const FARTHEST = 1.8;

interface Bar {
  readonly look: Look;
  readonly limit: LimitResult;
  /** Share of the way from start to limit that was used. */
  readonly used: number;
}

interface Group {
  readonly id: LimitId;
  readonly bars: readonly Bar[];
}

export function marginGroups(result: RunResult, looks: readonly Look[]): readonly Group[] {
  const groups = new Map<LimitId, Bar[]>();
  result.candidates.forEach((candidate, index) => {
    for (const limit of candidate.limits) {
      const used = 1 - limit.marginShare;
      if (![limit.bound, limit.start, limit.worst, used].every(Number.isFinite)) continue;
      groups.set(limit.id, [...(groups.get(limit.id) ?? []), { look: looks[index], limit, used }]);
    }
  });
  const worst = (bars: readonly Bar[]): number => Math.max(...bars.map(({ used }) => used));
  return [...groups].map(([id, bars]) => ({ id, bars })).sort((a, b) => worst(b.bars) - worst(a.bars));
}

export function marginDrawing(result: RunResult, looks: readonly Look[], size: Size): Drawing {
  const left = LEFT[size];
  const groups = marginGroups(result, looks);
  const most = Math.max(0, ...groups.flatMap(({ bars }) => bars.map(({ used }) => used)));
  const end = Math.max(1.04, Math.min(FARTHEST, most));
  // All values stand in one column behind the longest bar: what stands past the rule is past the limit.
  const right =
    Math.ceil(Math.max(40, ...groups.flatMap(({ bars }) => bars.map((bar) => textWidth(barText(bar, size, bars), 12, 600))))) + GAP;
  const width = FIGURE_WIDTH[size] - left - right;
  const titles = groups.map((group) => titleOf(group, left - 12));
  const heights = groups.map(({ bars }, index) =>
    Math.max(bars.length * LINE + 14, (titles[index].bold.length + titles[index].soft.length) * LINE + 14),
  );
  const height = heights.reduce((sum, value) => sum + value, 0);
  const frame: Frame = {
    width,
    height,
    x: { domain: [0, end], ticks: [], label: String },
    y: { domain: [height, 0], ticks: [], label: String },
  };
  const flipped: Frame = { ...frame, y: { ...frame.y, domain: [0, height] } };
  const down = (y: number): number => height - y;
  const layers: Layer[] = [];
  let y = 0;
  for (const [index, { bars }] of groups.entries()) {
    const { bold, soft } = titles[index];
    const tall = heights[index];
    const base = y + (tall - (bold.length + soft.length) * LINE) / 2 + 11;
    layers.push(
      words(
        bold.map((text, line) => ({ x: -left, y: base + line * LINE, text })),
        { weight: 600 },
      ),
      words(
        soft.map((text, line) => ({ x: -left, y: base + (bold.length + line) * LINE, text })),
        { fill: 'var(--soft)', size: 11.5 },
      ),
    );
    if (index > 0) layers.push(strokes([{ x: -left, y, x2: width + right, y2: y }], { stroke: 'var(--grid)' }));
    const first = y + (tall - bars.length * LINE) / 2 + LINE / 2;
    bars.forEach((bar, place) => {
      layers.push(...barLayers(bar, first + place * LINE, width + GAP, down, size, bars));
    });
    y += tall;
  }
  const rule = pixelX(frame, 1);
  layers.push(
    rules([{ x: 1, x2: 1, y: 0, y2: height }]),
    words([{ x: 0, y: -9, text: 'start' }], { fill: 'var(--soft)' }),
    words([{ x: width + GAP, y: -9, text: 'worst' }], { fill: 'var(--soft)' }),
    words([{ x: rule, y: -9, text: 'limit' }], { weight: 600, align: 'center' }),
  );
  const top = 28;
  return {
    width: FIGURE_WIDTH[size],
    height: top + height + 8,
    parts: [{ x: left, y: top, spec: { panel: panel(flipped, layers, { axes: false }) } }],
  };
}

function titleOf({ bars }: Group, room: number): { readonly bold: readonly string[]; readonly soft: readonly string[] } {
  const { limit } = bars[0];
  const printing = limitPrinting(limit);
  const text = (value: number): string => roundText(value, printing);
  const bounds = new Set(bars.map((bar) => text(bar.limit.bound)));
  const starts = new Set(bars.map((bar) => text(bar.limit.start)));
  const range =
    bounds.size > 1 ? 'each its own limit' : starts.size > 1 ? `to ${[...bounds][0]}` : `${[...starts][0]} to ${[...bounds][0]}`;
  return { bold: wrapText(limit.words, room, 12, 600), soft: wrapText(range, room, 11.5) };
}

function barText({ look, limit, used }: Bar, size: Size, bars: readonly Bar[]): string {
  const printing = limitPrinting(limit);
  const own = new Set(bars.map((bar) => quantityText(bar.limit.bound, printing))).size > 1;
  const value = quantityText(limit.worst, besideLimit(limit.worst, limit.bound, printing));
  const name = size === 'wide' && bars.length > 1 && look.name.length <= 24 ? ` ${look.name}` : '';
  return `${value}${own && size === 'wide' ? ` of ${roundText(limit.bound, printing)}` : ''}${name}${used > FARTHEST ? ' »' : ''}`;
}

const reachOf = ({ used }: Bar): number => Math.max(0, Math.min(used, FARTHEST));

function barLayers(bar: Bar, y: number, x: number, down: (y: number) => number, size: Size, bars: readonly Bar[]): readonly Layer[] {
  const { look, limit } = bar;
  const reach = reachOf(bar);
  return [
    curve(
      [
        { x: 0, y: down(y) },
        { x: reach, y: down(y) },
      ],
      { stroke: look.colour, width: 1.8, dash: look.dash },
    ),
    dots([{ x: reach, y: down(y) }], look.colour, { size: 30 }),
    words([{ x, y: y + 4, text: barText(bar, size, bars) }], { fill: look.colour, weight: limit.passed === undefined ? 400 : 600 }),
  ];
}
