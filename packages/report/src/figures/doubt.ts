/** Peak temperature as a distribution for each candidate, laid over one another, with the limits as rules. */
import type { PeakDistribution } from '@shaftwork/sim-core';
import { formatQuantity, toUnit } from '@shaftwork/sim-core/quantities';
import type { Drawing } from './draw.js';
import { FIGURE_WIDTH, type Size } from './figure.js';
import type { Look } from './palette.js';
import { curve, type Frame, type Layer, panel, pixelX, pixelY, rules, shape, words } from './panel.js';
import { spreadApart } from './place-labels.js';
import { openScale } from './round-ticks.js';
import { textWidth, wrapText } from './text-width.js';

const LAYOUT = { wide: { height: 220, right: 16 }, narrow: { height: 190, right: 14 } } as const;
/** Room for the half of a tick’s text that stands before the axis begins [px]. */
const LEFT = 14;
/** A density below this share of the highest is not seen. */
const UNSEEN = 0.004;

export function doubtDrawing({ at, candidates, words: what }: PeakDistribution, looks: readonly Look[], size: Size): Drawing {
  const { height, right } = LAYOUT[size];
  const width = FIGURE_WIDTH[size] - right - LEFT;
  const degrees = at.map((kelvin) => toUnit(kelvin, '°C'));
  const top = Math.max(...candidates.flatMap(({ density }) => density));
  const seen = degrees.filter((_, index) => candidates.some(({ density }) => density[index]! > top * UNSEEN));
  const bounds = [
    ...new Set(candidates.flatMap(({ bound }) => (bound === undefined || !Number.isFinite(bound) ? [] : [toUnit(bound, '°C')]))),
  ];
  const low = Math.min(...seen, ...bounds);
  const high = Math.max(...seen, ...bounds);
  const pad = (high - low) * 0.04;
  const frame: Frame = {
    width,
    height,
    x: openScale(low - pad, high + pad, size === 'wide' ? 8 : 4),
    y: { domain: [0, top * 1.3], ticks: [], label: String },
  };
  const layers: Layer[] = [];
  const peaks = candidates.map(({ name, density }) => {
    const look = looks.find((one) => one.name === name)!;
    const points = degrees.map((x, index) => ({ x, y: density[index]! }));
    const first = points.findIndex(({ y }) => y > top * UNSEEN);
    const drawn = points.slice(Math.max(0, first - 1), points.findLastIndex(({ y }) => y > top * UNSEEN) + 2);
    layers.push(
      shape([{ x: drawn[0]!.x, y: 0 }, ...drawn, { x: drawn.at(-1)!.x, y: 0 }], look.colour, 0.16),
      curve(drawn, { stroke: look.colour, width: 1.8, dash: look.dash }),
    );
    return { look, peak: drawn.reduce((best, point) => (point.y > best.y ? point : best)) };
  });
  layers.push(rules(bounds.map((x) => ({ x, x2: x, y: 0, y2: top * 1.3 }))));
  layers.push(...bounds.map((bound) => limitWords(frame, bound)));
  layers.push(...names(frame, peaks));
  layers.push(
    words([{ x: width, y: height + 38, text: `${what}, °C` }], { fill: 'var(--soft)', align: 'right' }),
    words([{ x: -LEFT, y: -10, text: 'how often, as area' }]),
  );
  return { width: FIGURE_WIDTH[size], height: height + 72, parts: [{ x: LEFT, y: 24, spec: { panel: panel(frame, layers) } }] };
}

function limitWords(frame: Frame, bound: number): Layer {
  const text = `limit ${formatQuantity(bound, 'ratio', { decimals: 0 })}\u202f°C`;
  const x = pixelX(frame, bound);
  const after = x + 6 + textWidth(text) < frame.width;
  return words([{ x: after ? x + 6 : x - 6, y: 11, text }], { align: after ? 'left' : 'right', halo: true });
}

/** Each name over its peak; names that would meet stand one above the other. */
function names(
  frame: Frame,
  peaks: readonly { readonly look: Look; readonly peak: { readonly x: number; readonly y: number } }[],
): readonly Layer[] {
  const boxes = peaks.map(({ look, peak }) => {
    const lines = wrapText(look.name, 120, 12, 600);
    const half = Math.max(...lines.map((line) => textWidth(line, 12, 600))) / 2;
    const x = Math.min(frame.width - half, Math.max(half, pixelX(frame, peak.x)));
    return { look, lines, half, x, y: pixelY(frame, peak.y) - 8 - lines.length * 7 };
  });
  const groups: (typeof boxes)[] = [];
  for (const box of [...boxes].sort((a, b) => a.x - b.x)) {
    const group = groups.find((one) => one.some((other) => Math.abs(other.x - box.x) < other.half + box.half + 6));
    if (group === undefined) groups.push([box]);
    else group.push(box);
  }
  return groups.flatMap((group) => {
    const tops = spreadApart(
      group.map(({ y, lines }) => ({ wanted: y, height: lines.length * 14 + 1 })),
      18,
      frame.height,
    );
    return group.map(({ look, lines, x }, index) =>
      words(
        lines.map((text, line) => ({ x, y: tops[index]! + line * 14 + 11, text })),
        { fill: look.colour, weight: 600, align: 'center', halo: true },
      ),
    );
  });
}
