/**
 * Peak temperature draw by draw: a row of dots for each candidate, stacked where they fall together, those past the limit filled.
 * Counts can be read, nothing is smoothed, and it needs no colour. (Quantile dot plots: M. Kay, T. Kola, J. R. Hullman, S. A. Munson, "When (ish) is
 * my bus?", CHI 2016.)
 *
 * @module
 */

import type { PeakDraws } from '@shaftwork/sim-core';
import { named } from '@shaftwork/sim-core/problems';
import { formatNumber, toUnit } from '@shaftwork/sim-core/quantities';
import type { Drawing } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { dots, type Frame, type Layer, panel, pixelX, rules, strokes, words } from '../drawing/panel.js';
import { openScale } from '../drawing/round-ticks.js';
import { textWidth, wrapText } from '../drawing/text-width.js';

/** Up to so many draws each is a dot; of more, so many quantiles are. */
const MOST_DOTS = 100;
const QUANTILES = 50;
const LAYOUT = { wide: { left: 150, right: 18 }, narrow: { left: 8, right: 10 } } as const;
const LINE = 14;
/** Rows are lower where they are many [px]. */
const rowHeight = (count: number): number => (count <= 3 ? 70 : count <= 5 ? 54 : 42);
const LARGEST_DOT = 9;
const SMALLEST_DOT = 2.5;
/** Draws farther past the highest limit than its way from the lowest draw are gathered at the edge. */
const FARTHEST = 2;
/** Room for those behind the end of the axis [px]. */
const BEYOND = { wide: 64, narrow: 60 } as const;

interface DotRow {
  readonly look: Look;
  /** [°C], rising. */
  readonly values: readonly number[];
  readonly bound: number | undefined;
  readonly soft: readonly string[];
}

const degrees = (kelvin: number): number => toUnit(kelvin, '°C');

/** One dot for each draw, or for each of fifty equal shares of them. */
export const dotValues = (draws: readonly number[]): readonly number[] =>
  draws.length <= MOST_DOTS
    ? draws
    : Array.from({ length: QUANTILES }, (_, index) => draws[Math.floor(((index + 0.5) / QUANTILES) * draws.length)]);

export const dotMeaning = (draws: number): string =>
  draws <= MOST_DOTS ? 'Each dot is one draw' : `Each dot stands for ${100 / QUANTILES}\u202f% of the ${draws} draws`;

const span = (values: readonly number[]): string =>
  `${formatNumber(quantile(values, 0.05), { decimals: 0 })} to ${formatNumber(quantile(values, 0.95), { decimals: 0 })}\u202f°C`;

/** Between the two nearest of rising values. */
function quantile(values: readonly number[], share: number): number {
  const place = share * (values.length - 1);
  const low = Math.floor(place);
  const high = Math.min(values.length - 1, low + 1);
  return values[low] + (values[high] - values[low]) * (place - low);
}

function rowsOf({ candidates }: PeakDraws, looks: readonly Look[]): readonly DotRow[] {
  return candidates.map(({ name, draws, bound }) => {
    const values = draws.map(degrees);
    const limit = bound === undefined ? undefined : degrees(bound);
    const past = limit === undefined ? undefined : values.filter((value) => value > limit).length;
    const told = past === undefined ? [] : [`${past === 0 ? 'none' : past} of ${values.length} past`];
    return { look: named(looks, name), values, bound: limit, soft: [span(values), ...told] };
  });
}

interface Stacked {
  /** Centre of the dot from the frame's left edge, and its place in the stack. */
  readonly x: number;
  readonly place: number;
}

/** Dots in columns of their own width, a column's edge at the limit, so that none stands across it. */
function stacked(values: readonly number[], bound: number | undefined, frame: Frame, dot: number): readonly Stacked[] {
  const origin = bound === undefined ? 0 : pixelX(frame, bound);
  const columns = new Map<number, number>();
  return values.map((value) => {
    const column = Math.ceil((pixelX(frame, value) - origin) / dot - 1e-9) - 1;
    const place = columns.get(column) ?? 0;
    columns.set(column, place + 1);
    return { x: origin + (column + 0.5) * dot, place };
  });
}

export function doubtDrawing(peaks: PeakDraws, looks: readonly Look[], size: Size): Drawing {
  const rows = rowsOf(peaks, looks);
  const bounds = [...new Set(rows.flatMap(({ bound }) => (bound === undefined ? [] : [bound])))];
  const shown = rows.map(({ values }) => dotValues(values));
  const all = shown.flat();
  const low = Math.min(...all, ...bounds);
  const most = Math.max(...bounds);
  const edge = bounds.length === 0 ? Number.POSITIVE_INFINITY : most + FARTHEST * (most - low);
  const outside = shown.map((values) => values.filter((value) => value > edge).length);
  const tall = rowHeight(rows.length);
  const { left, right } = LAYOUT[size];
  const width = FIGURE_WIDTH[size] - left - right - (Math.max(...outside) > 0 ? BEYOND[size] : 0);
  const high = Math.max(...bounds, ...all.filter((value) => value <= edge));
  const pad = (high - low) * 0.03;
  const x = openScale(low - pad, high + pad, size === 'wide' ? 8 : 4);
  // On a narrow page the names stand over their rows.
  const names = rows.map(({ look }) => wrapText(look.name, size === 'narrow' ? FIGURE_WIDTH.narrow - 150 : left - 14, 12.5, 600));
  const heights = rows.map(({ soft }, index) => {
    const lines = names[index].length;
    return size === 'narrow' ? tall + lines * LINE + 8 : Math.max(tall, (lines + soft.length) * LINE + 8);
  });
  const height = heights.reduce((sum, one) => sum + one, 0);
  const frame: Frame = { width, height, x, y: { domain: [0, height], ticks: [], label: String } };
  const inside = shown.map((values) => values.filter((value) => value <= edge));
  const tallest = (dot: number): number =>
    Math.max(1, ...inside.flatMap((values, index) => stacked(values, rows[index].bound, frame, dot).map(({ place }) => place + 1)));
  let dot = LARGEST_DOT;
  while (dot > SMALLEST_DOT && tallest(dot) * dot > tall - 8) dot -= 0.25;
  const toX = (pixel: number): number => x.domain[0] + (pixel / width) * (x.domain[1] - x.domain[0]);
  const stackHeight = Math.max(1, Math.floor((tall - 24) / dot));
  const layers: Layer[] = [];
  let top = 0;
  for (const [index, { look, bound, soft }] of rows.entries()) {
    const foot = top + heights[index];
    const up = (place: number): number => height - foot + (place + 0.5) * dot + 1;
    const own = inside[index];
    const points = stacked(own, bound, frame, dot).map(({ x: pixel, place }, each) => ({ value: own[each], x: toX(pixel), y: up(place) }));
    const past = ({ value }: { readonly value: number }): boolean => bound !== undefined && value > bound;
    // Those too far out for the axis stand in a block behind its end.
    const gathered = Array.from({ length: outside[index] }, (_, each) => ({
      x: toX(width + 16 + Math.floor(each / stackHeight) * dot),
      y: up(each % stackHeight),
    }));
    const area = (dot - 1) ** 2;
    layers.push(
      dots(
        points.filter((point) => !past(point)),
        look.colour,
        { hollow: true, size: area, rim: 1 },
      ),
      dots([...points.filter(past), ...gathered], look.colour, { size: (dot - 0.4) ** 2, rim: 0.4 }),
      strokes([{ x: 0, y: foot, x2: width, y2: foot }], { stroke: 'var(--grid)' }),
      ...(bound === undefined ? [] : [rules([{ x: bound, x2: bound, y: height - foot, y2: height - top }])]),
      ...rowWords(names[index], soft, look, size, top, foot, left),
    );
    if (gathered.length > 0) {
      const text = `beyond ${formatNumber(edge, { decimals: 0 })}\u202f°C`;
      layers.push(
        words([{ x: width + right + BEYOND[size], y: foot - Math.min(stackHeight, gathered.length) * dot - 7, text }], {
          fill: 'var(--soft)',
          size: 11.5,
          align: 'right',
        }),
      );
    }
    top = foot;
  }
  layers.push(
    ...limitWords(frame, bounds),
    words([{ x: width, y: height + 38, text: `${peaks.words}, °C` }], { fill: 'var(--soft)', align: 'right' }),
  );
  return { width: FIGURE_WIDTH[size], height: height + 70, parts: [{ x: left, y: 22, spec: { panel: panel(frame, layers) } }] };
}

function rowWords(
  name: readonly string[],
  soft: readonly string[],
  look: Look,
  size: Size,
  top: number,
  foot: number,
  left: number,
): readonly Layer[] {
  const narrow = size === 'narrow';
  const first = narrow ? top + 15 : foot - (name.length + soft.length) * LINE + 9;
  const row = (text: string, line: number) => ({ x: narrow ? 0 : -left, y: first + line * LINE, text });
  return [
    words(name.map(row), { fill: look.colour, weight: 600, size: 12.5, halo: narrow }),
    ...(narrow
      ? [
          words([{ x: FIGURE_WIDTH.narrow - left, y: first, text: soft.join(', ') }], {
            fill: 'var(--soft)',
            size: 11.5,
            align: 'right',
            halo: true,
          }),
        ]
      : [
          words(
            soft.map((text, line) => row(text, name.length + line)),
            { fill: 'var(--soft)', size: 11.5 },
          ),
        ]),
  ];
}

/** The limit over its rule; only where all share it, or where several leave room for one another. */
function limitWords(frame: Frame, bounds: readonly number[]): readonly Layer[] {
  const taken: number[] = [];
  return bounds.flatMap((bound) => {
    const text = `limit ${formatNumber(bound, { decimals: 0 })}\u202f°C`;
    const half = textWidth(text, 12, 600) / 2;
    const x = Math.min(frame.width - half, Math.max(half, pixelX(frame, bound)));
    if (taken.some((other) => Math.abs(other - x) < 2 * half + 8)) return [];
    taken.push(x);
    return [words([{ x, y: -8, text }], { weight: 600, align: 'center' })];
  });
}
