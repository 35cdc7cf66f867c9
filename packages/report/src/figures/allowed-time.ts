/**
 * How long each motor current, named as it is taken cold, may last from cold and from the run's mean warmth; time on a scale of tenfold steps.
 *
 * @module
 */

import type { CandidateResult, RatingResult } from '@shaftwork/sim-core';
import { formatClock, SECONDS_PER_HOUR, SECONDS_PER_MINUTE } from '@shaftwork/sim-core/quantities';
import type { Drawing } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { curve, type Frame, type Layer, panel, pixelX, pixelY, words } from '../drawing/panel.js';
import { type Box, clearBox } from '../drawing/place-labels.js';
import { openScale, type Scale } from '../drawing/round-ticks.js';
import { textWidth } from '../drawing/text-width.js';
import type { DrawnPoint } from '../drawing/thin-trace.js';

export interface Rated {
  readonly candidate: CandidateResult;
  readonly rating: RatingResult;
  readonly look: Look;
}

const LEFT = 52;
/** Times that a clock shows roundly [s]. */
const TICKS = [
  1,
  3,
  10,
  30,
  SECONDS_PER_MINUTE,
  3 * SECONDS_PER_MINUTE,
  10 * SECONDS_PER_MINUTE,
  30 * SECONDS_PER_MINUTE,
  SECONDS_PER_HOUR,
  2 * SECONDS_PER_HOUR,
];

export function rated(candidates: readonly CandidateResult[], looks: readonly Look[]): readonly Rated[] {
  return candidates.flatMap((candidate, index) => {
    const { rating } = candidate;
    return rating === undefined || !rating.shortTime.fromCold.some(({ kind }) => kind === 'until')
      ? []
      : [{ candidate, rating, look: looks[index] }];
  });
}

/** One throttle has one place: the current it takes cold, whichever warmth its time is for. */
function linePoints(times: RatingResult['shortTime']['fromCold'], cold: RatingResult['shortTime']['fromCold']) {
  const currents = new Map(cold.map(({ throttle, motorCurrent }) => [throttle, motorCurrent]));
  return times.flatMap((allowed) => {
    const x = currents.get(allowed.throttle);
    return x === undefined || allowed.kind === 'for-ever' || !(allowed.time > 0) ? [] : [{ x, y: Math.log10(allowed.time) }];
  });
}

export function allowedTimeDrawing(shown: readonly Rated[], size: Size): Drawing {
  const height = size === 'wide' ? 240 : 200;
  const width = FIGURE_WIDTH[size] - LEFT - 12;
  const lines = shown.map(({ look, rating: { shortTime } }) => ({
    look,
    cold: linePoints(shortTime.fromCold, shortTime.fromCold),
    warm: linePoints(shortTime.fromWarm, shortTime.fromCold),
  }));
  const all = lines.flatMap(({ cold, warm }) => [...cold, ...warm]);
  const [low, high] = [Math.min(...all.map(({ y }) => y)), Math.max(...all.map(({ y }) => y))];
  const span = Math.max(high - low, 0.5);
  const domain = [low - 0.14 * span, low + 1.12 * span] as const;
  const ticks = TICKS.map((seconds) => Math.log10(seconds)).filter((tick) => tick >= domain[0] && tick <= domain[1]);
  const y: Scale = { domain, ticks, label: (tick) => formatClock(Math.round(10 ** tick)) };
  const right = Math.max(...all.map((point) => point.x));
  const left = Math.min(...all.map((point) => point.x));
  const frame: Frame = { width, height, x: openScale(Math.max(0, left - (right - left) * 0.15), right * 1.04, size === 'wide' ? 8 : 5), y };
  const taken: Box[] = [];
  const layers: Layer[] = [words([{ x: -LEFT, y: -12, text: 'allowed time, m:ss' }])];
  for (const { look, cold, warm } of lines) {
    layers.push(
      curve(cold, { stroke: look.colour, width: 2, dash: look.dash }),
      curve(warm, { stroke: look.colour, width: 0.9, dash: look.dash }),
    );
    const textual = textWidth(look.name, 12, 600);
    const places = cold.map((point) => ({ x: pixelX(frame, point.x) + 8, y: pixelY(frame, point.y) - 14, width: textual, height: 14 }));
    const inside = places.filter((box) => box.x + box.width < width && box.y > 0);
    const box = clearBox(inside, [], taken) ?? inside[0];
    if (box === undefined) continue;
    taken.push(box);
    layers.push(words([{ x: box.x, y: box.y + 11, text: look.name }], { fill: look.colour, weight: 600, halo: true }));
  }
  layers.push(...warmthWords(lines, frame, taken));
  layers.push(words([{ x: width, y: height + 38, text: 'motor current, A' }], { fill: 'var(--soft)', align: 'right' }));
  return { width: FIGURE_WIDTH[size], height: height + 74, parts: [{ x: LEFT, y: 28, spec: { panel: panel(frame, layers) } }] };
}

type Line = { readonly look: Look; readonly cold: readonly DrawnPoint[]; readonly warm: readonly DrawnPoint[] };
/** Nearer ends have no room for a word each [px]. */
const APART = 6;

const farEnd = (line: readonly DrawnPoint[]): DrawnPoint | undefined =>
  line.reduce<DrawnPoint | undefined>((best, point) => (best !== undefined && best.x >= point.x ? best : point), undefined);

/** "from cold" and "from warm" at the ends of the two lines that lie farthest apart. */
function warmthWords(lines: readonly Line[], frame: Frame, taken: readonly Box[]): readonly Layer[] {
  const ends = lines.flatMap(({ look, cold, warm }) => {
    const [a, b] = [farEnd(cold), farEnd(warm)];
    return a === undefined || b === undefined ? [] : [{ look, cold: a, warm: b, apart: pixelY(frame, b.y) - pixelY(frame, a.y) }];
  });
  const widest = ends.reduce<(typeof ends)[number] | undefined>(
    (best, one) => (best !== undefined && best.apart >= one.apart ? best : one),
    undefined,
  );
  if (widest === undefined || widest.apart < APART) return [];
  const width = textWidth('from warm', 12);
  const boxOf = (end: DrawnPoint, down: number): Box => ({
    x: Math.min(pixelX(frame, end.x), frame.width) - width,
    y: pixelY(frame, end.y) + down,
    width,
    height: 14,
  });
  const [above, beneath] = [boxOf(widest.cold, -20), boxOf(widest.warm, 4)];
  if (clearBox([above], [], taken) === undefined || clearBox([beneath], [], taken) === undefined) return [];
  const text = (box: Box, what: string) => ({ x: box.x + width, y: box.y + 11, text: what });
  return [words([text(above, 'from cold'), text(beneath, 'from warm')], { fill: widest.look.colour, align: 'right', halo: true })];
}
