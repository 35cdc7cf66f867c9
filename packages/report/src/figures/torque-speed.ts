/**
 * Torque over speed at the motor shaft, a panel for each candidate: the motor at several throttles, the load, and where they meet.
 *
 * @module
 */

import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import { toUnit } from '@shaftwork/sim-core/quantities';
import { channelPrinting, quantityText } from '@shaftwork/sim-core/words';
import type { Drawing, Part } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { curve, dots, type Frame, inPixels, type Layer, panel, pixelY, shape, strokes, type Words, words } from '../drawing/panel.js';
import { panelRow } from '../drawing/panel-row.js';
import { type Box, clearBox } from '../drawing/place-labels.js';
import { openScale, roundScale } from '../drawing/round-ticks.js';
import { textWidth, wrapText } from '../drawing/text-width.js';
import type { DrawnPoint } from '../drawing/thin-trace.js';
import { beyondPlace, hatchedPlace, hatching } from './torque-regions.js';

const SPEED = channelPrinting('shaftSpeed');
const TORQUE = { ...channelPrinting('motorTorque'), decimals: 2 };
const LEFT = 36;
/** Throttles nearer than this share an end of the axis: one of them is named. */
const CLOSEST_THROTTLES = 0.08;
/** Braking torque less than this share of the height needs no room. */
const SEEN = 0.03;

export const hasTorqueSpeed = ({ torqueSpeed }: CandidateResult): boolean => torqueSpeed.speed.length > 1 && torqueSpeed.lines.length > 0;

/** The crossing at the greatest throttle, which the panel names. */
export const topCrossing = ({ torqueSpeed }: CandidateResult) =>
  torqueSpeed.crossings.reduce<CandidateResult['torqueSpeed']['crossings'][number] | undefined>(
    (best, crossing) => (best === undefined || crossing.throttle > best.throttle ? crossing : best),
    undefined,
  );

/** Motors behind gears of their own are comparable at the shaft that all of them turn. */
export const atOutput = (shown: readonly CandidateResult[]): boolean =>
  new Set(shown.map(({ facts }) => facts.gearRatio.toPrecision(4))).size > 1;

interface Chart {
  readonly look: Look;
  readonly top: Line;
  readonly lines: readonly Line[];
  readonly load: readonly DrawnPoint[];
  readonly forEver: readonly DrawnPoint[];
  readonly dots: readonly Dot[];
  readonly held: boolean;
}
interface Line {
  readonly throttle: number;
  readonly points: readonly DrawnPoint[];
}
interface Dot extends DrawnPoint {
  readonly throttle: number;
  readonly texts: readonly string[];
}

/** Points in rpm and N·m, at the motor's shaft or at that which its gears turn. */
function chartOf({ torqueSpeed, rating, facts }: CandidateResult, look: Look, output: boolean): Chart {
  const gear = output ? facts.gearRatio : 1;
  const point = (speed: number, torque: number): DrawnPoint => ({ x: toUnit(speed / gear, SPEED.unit), y: torque * gear });
  const points = (torque: readonly number[], speed = torqueSpeed.speed): readonly DrawnPoint[] =>
    speed.map((w, index) => point(w, torque[index])).filter(({ y }) => Number.isFinite(y));
  const lines = [...torqueSpeed.lines]
    .sort((a, b) => a.throttle - b.throttle)
    .map(({ throttle, torque }) => ({ throttle, points: points(torque) }));
  return {
    look,
    top: lastOf(lines),
    lines,
    load: points(torqueSpeed.load),
    forEver: rating === undefined ? [] : points(rating.continuousTorque.torque, rating.continuousTorque.shaftSpeed),
    dots: torqueSpeed.crossings.map(({ throttle, speed, torque }) => ({
      ...point(speed, torque),
      throttle,
      texts: [quantityText(speed / gear, SPEED), quantityText(torque * gear, TORQUE)],
    })),
    held: torqueSpeed.held,
  };
}

export function torqueSpeedDrawing(result: RunResult, looks: readonly Look[], size: Size): Drawing {
  const shown = result.candidates
    .map((candidate, index) => ({ candidate, look: looks[index] }))
    .filter(({ candidate }) => hasTorqueSpeed(candidate));
  const output = atOutput(shown.map(({ candidate }) => candidate));
  const charts = shown.map(({ candidate, look }) => chartOf(candidate, look, output));
  const height = size === 'narrow' ? 200 : 250;
  const { width } = panelRow(shown.length, size, height, LEFT, 0, 0);
  const frame: Frame = { width, height, ...commonScales(charts, width) };
  const nameLines = Math.max(1, ...shown.map(({ look }) => wrapText(look.name, width, 13.5, 600).length));
  const head = nameLines * 17 + 24;
  const titles = output
    ? { x: 'speed of the output shaft, rpm', y: 'torque at the output shaft, N·m' }
    : { x: 'motor speed, rpm', y: 'torque at the motor shaft, N·m' };
  const row = panelRow(shown.length, size, height, LEFT, head, 52);
  const parts: Part[] = charts.map((chart, index) => {
    const { x, y, first } = row.place(index);
    const own = first ? frame : { ...frame, y: { ...frame.y, label: () => '' } };
    return { x, y, spec: { panel: panel(own, layersOf(chart, frame, first, head, titles)) } };
  });
  return { width: FIGURE_WIDTH[size], height: row.height(shown.length) - 4, parts };
}

/** Wide enough for where the full-throttle lines end, high enough for what is met or driven, from the lowest of it. */
function commonScales(charts: readonly Chart[], width: number): Pick<Frame, 'x' | 'y'> {
  const all = charts.flatMap(({ dots }) => dots);
  const unloaded = Math.max(...charts.map(({ top }) => top.points.findLast(({ y }) => y > 0)?.x ?? 0));
  // a long run has more dots than a call takes arguments
  const turned = all.reduce((most, { x }) => Math.max(most, x), unloaded);
  // of a drive that nothing turns, all that was looked at
  const speed = turned > 0 ? turned : Math.max(...charts.map(({ top }) => lastOf(top.points).x));
  const met = all.reduce((most, { y }) => Math.max(most, y), 0);
  const lowest = all.reduce((least, { y }) => Math.min(least, y), 0);
  // Without a crossing the height is that of what the weakest line gives.
  const high =
    met > 0 ? met * 1.7 : Math.max(...charts.flatMap(({ lines }) => lines.map(({ points }) => Math.max(...points.map(({ y }) => y)))));
  return {
    x: openScale(0, speed * 1.22, width > 300 ? 6 : width > 200 ? 5 : 4),
    y: roundScale(lowest < -SEEN * high ? lowest : 0, high || 1, 4),
  };
}

function layersOf(
  { look, top, lines, load, forEver, dots: met, held }: Chart,
  frame: Frame,
  first: boolean,
  head: number,
  titles: { readonly x: string; readonly y: string },
): readonly Layer[] {
  const [floor, ceiling] = frame.y.domain;
  const drawn = [...lines.map(({ points }) => points), load].map((line) => inPixels(frame, line));
  const heat = inPixels(frame, forEver);
  const taken: Box[] = [];
  // Beyond the full-throttle line the pack, its resistance or the current limit gives no more.
  const beyond = [
    ...top.points.map(({ x, y }) => ({ x, y: Math.min(ceiling, Math.max(floor, y)) })),
    { x: frame.x.domain[1], y: Math.max(floor, Math.min(0, lastOf(top.points).y)) },
    { x: frame.x.domain[1], y: ceiling },
    { x: frame.x.domain[0], y: ceiling },
  ];
  const inside = met.filter(({ x, y }) => x >= frame.x.domain[0] && x <= frame.x.domain[1] && y >= floor && y <= ceiling);
  const named = inside.reduce<Dot | undefined>((best, dot) => (best === undefined || dot.throttle > best.throttle ? dot : best), undefined);
  const layers: Layer[] = [
    shape(beyond, 'var(--step)'),
    strokes(hatching(heat, drawn[lines.length - 1], frame), { stroke: 'var(--hair)', width: 0.6 }),
    ...(forEver.length > 1 ? [curve(forEver, { stroke: 'var(--soft)', width: 1.6, dash: [1.5, 2.5] })] : []),
    ...lines.map((line) =>
      curve(line.points, line === top ? { stroke: look.colour, width: 2.1, dash: look.dash } : { stroke: look.colour, width: 0.9 }),
    ),
    curve(load, { stroke: 'var(--ink)', width: 1.5 }),
    dots(
      inside.filter((dot) => dot !== named),
      'var(--ink)',
      { size: 20 },
    ),
    ...throttleLabels(
      lines.map(({ throttle }) => throttle),
      drawn,
      look,
      frame,
      taken,
      held ? named?.throttle : undefined,
    ),
  ];
  if (named !== undefined) {
    const at = inPixels(frame, [named])[0];
    const box = besides(at, named.texts, drawn, taken, frame);
    taken.push(box);
    layers.push(
      dots([named], look.colour),
      words([{ x: box.x, y: box.y + 12, text: named.texts[0] }], { fill: look.colour, weight: 600, halo: true }),
      words([{ x: box.x, y: box.y + 26, text: named.texts[1] }], { fill: look.colour, halo: true }),
    );
  }
  const alongLoad = labelAlong('load', lastOf(drawn), drawn, taken, frame);
  if (alongLoad !== undefined) layers.push(words([alongLoad], { halo: true }));
  const tooHot = hatchedPlace(heat, [...drawn, heat], taken, frame);
  if (tooHot !== undefined) layers.push(words(tooHot, { fill: 'var(--soft)', align: 'center', halo: true }));
  const outside = beyondPlace(drawn[lines.length - 1], [...drawn, heat], taken, frame);
  if (outside !== undefined) layers.push(words(outside, { fill: 'var(--soft)', align: 'right' }));
  const name = wrapText(look.name, frame.width, 13.5, 600);
  layers.push(
    words(
      name.map((text, line) => ({ x: first ? -LEFT : 0, y: -head + 12 + line * 17, text })),
      { fill: look.colour, weight: 600, size: 13.5 },
    ),
    ...(first ? [words([{ x: -LEFT, y: -12, text: titles.y }])] : []),
    words([{ x: frame.width, y: frame.height + 38, text: titles.x }], { fill: 'var(--soft)', align: 'right' }),
  );
  return layers;
}

/** The throttle at the foot of its line, where there is room between two lines; full throttle and `first` before the others. */
function throttleLabels(
  throttles: readonly number[],
  drawn: readonly (readonly DrawnPoint[])[],
  look: Look,
  frame: Frame,
  taken: Box[],
  first: number | undefined,
): readonly Layer[] {
  const full = lastOf(throttles);
  const zero = pixelY(frame, 0);
  const order = [...throttles.keys()].reverse().sort((a, b) => Number(throttles[b] === first) - Number(throttles[a] === first));
  const told: number[] = [];
  const rows = order.flatMap((index) => {
    const throttle = throttles[index];
    const last = throttle === full;
    if (!last && told.some((one) => Math.abs(one - throttle) < CLOSEST_THROTTLES)) return [];
    const foot = crossingOf(drawn[index], zero - 9);
    const text = `${Math.round(throttle * 100)}${last ? '\u202f%' : ''}`;
    const width = textWidth(text, 12, last ? 600 : 400);
    if (foot === undefined) return [];
    const box = clearBox([{ x: foot + 4, y: zero - 16, width, height: 14 }], [], taken);
    if (box === undefined || box.x + width > frame.width + 8) return [];
    told.push(throttle);
    taken.push({ ...box, width: box.width + 3 });
    return [{ x: box.x, y: box.y + 11, text, last }];
  });
  return [false, true].map((bold) =>
    words(
      rows.filter(({ last }) => last === bold),
      { fill: look.colour, weight: bold ? 600 : 400, halo: true },
    ),
  );
}

/** Where a falling line passes the height y. */
function crossingOf(line: readonly DrawnPoint[], y: number): number | undefined {
  for (let index = 1; index < line.length; index++) {
    const from = line[index - 1];
    const to = line[index];
    if (from.y <= y && to.y > y) return from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x);
  }
  return undefined;
}

function besides(
  at: DrawnPoint,
  texts: readonly string[],
  lines: readonly (readonly DrawnPoint[])[],
  taken: readonly Box[],
  frame: Frame,
): Box {
  const width = Math.max(...texts.map((text) => textWidth(text, 12, 600)));
  const box = (x: number, y: number): Box => ({ x, y, width, height: 30 });
  const places = [14, 22, 32].flatMap((gap) => [0, 8, -14, 18, -30].map((shift) => box(at.x + gap, at.y + shift)));
  const leftward = [10, 22, 40].flatMap((gap) => [-34, -20, 6].map((shift) => box(at.x - width - gap, at.y + shift)));
  const inside = ({ x, y }: Box): boolean => x > 2 && x + width < frame.width + 8 && y > -6 && y < frame.height - 50;
  const usable = [...places, ...leftward].filter(inside);
  return clearBox(usable, lines, taken) ?? usable[0] ?? leftward[0];
}

/** Above a line, as far right as it stays clear. */
function labelAlong(
  text: string,
  line: readonly DrawnPoint[],
  lines: readonly (readonly DrawnPoint[])[],
  taken: Box[],
  frame: Frame,
): Words | undefined {
  const width = textWidth(text);
  const inside = line.filter(({ x, y }) => y > 6 && x < frame.width - 4 && y < frame.height - 24).reverse();
  const places = inside.flatMap(({ x, y }) => [
    { x: x - width - 7, y: y - 8, width, height: 14 },
    { x: x - width / 2, y: y - 18, width, height: 14 },
    { x: x + 7, y: y + 1, width, height: 14 },
    { x: x - width / 2, y: y + 4, width, height: 14 },
  ]);
  const box = clearBox(
    places.filter((one) => one.x > 0 && one.x + width < frame.width),
    lines,
    taken,
  );
  if (box === undefined) return undefined;
  taken.push(box);
  return { x: box.x, y: box.y + 11, text };
}
