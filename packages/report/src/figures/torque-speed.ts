/** Torque over speed at the motor shaft, a panel for each candidate: the motor at several throttles, the load, and where they meet. */
import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { toUnit } from '@shaftwork/sim-core/quantities';
import { channelPrinting, quantityText } from '../page/numbers.js';
import type { Drawing, Part } from './draw.js';
import { FIGURE_WIDTH, type Size } from './figure.js';
import type { Look } from './palette.js';
import { curve, dots, type Frame, inPixels, type Layer, panel, shape, words } from './panel.js';
import { type Box, clearBox } from './place-labels.js';
import { openScale, roundScale } from './round-ticks.js';
import { textWidth, wrapText } from './text-width.js';
import type { DrawnPoint } from './thin-trace.js';

const SPEED = channelPrinting('shaftSpeed');
const TORQUE = { ...channelPrinting('motorTorque'), decimals: 2 };
const rpm = (speed: number): number => toUnit(speed, SPEED.unit);
const LEFT = 36;
const GUTTER = 30;

export const hasTorqueSpeed = ({ torqueSpeed }: CandidateResult): boolean => torqueSpeed.speed.length > 1 && torqueSpeed.lines.length > 0;

/** The crossing at the greatest throttle, which the panel names. */
export const topCrossing = ({ torqueSpeed }: CandidateResult) =>
  torqueSpeed.crossings.reduce<CandidateResult['torqueSpeed']['crossings'][number] | undefined>(
    (best, crossing) => (best === undefined || crossing.throttle > best.throttle ? crossing : best),
    undefined,
  );

export function torqueSpeedDrawing(result: RunResult, looks: readonly Look[], size: Size): Drawing {
  const shown = result.candidates
    .map((candidate, index) => ({ candidate, look: looks[index]! }))
    .filter(({ candidate }) => hasTorqueSpeed(candidate));
  const columns = size === 'narrow' ? 1 : shown.length === 4 ? 2 : Math.min(3, shown.length);
  const full = FIGURE_WIDTH[size] - LEFT - 10;
  const width = Math.min(size === 'narrow' ? full : 480, Math.floor((full - GUTTER * (columns - 1)) / columns));
  const height = size === 'narrow' ? 200 : columns === 3 ? 250 : 270;
  const scales = commonScales(
    shown.map(({ candidate }) => candidate),
    width,
  );
  const frame: Frame = { width, height, ...scales };
  const nameLines = Math.max(1, ...shown.map(({ look }) => wrapText(look.name, width, 13.5, 600).length));
  const head = nameLines * 17 + 24;
  const parts: Part[] = shown.map(({ candidate, look }, index) => ({
    x: LEFT + (index % columns) * (width + GUTTER),
    y: head + Math.floor(index / columns) * (height + head + 52),
    spec: {
      panel: panel(
        index % columns === 0 ? frame : { ...frame, y: { ...frame.y, label: () => '' } },
        layersOf(candidate, look, frame, index % columns === 0, head),
      ),
    },
  }));
  const rows = Math.ceil(shown.length / columns);
  return { width: FIGURE_WIDTH[size], height: rows * (height + head + 52) - 4, parts };
}

function commonScales(candidates: readonly CandidateResult[], width: number): Pick<Frame, 'x' | 'y'> {
  let torque = 0;
  let speed = 0;
  for (const { torqueSpeed } of candidates) {
    for (const crossing of torqueSpeed.crossings) torque = Math.max(torque, crossing.torque);
    const top = torqueSpeed.lines.reduce((best, line) => (line.throttle > best.throttle ? line : best));
    const stop = torqueSpeed.speed.findLastIndex((_, index) => top.torque[index]! > 0);
    speed = Math.max(speed, torqueSpeed.speed[Math.max(stop, 0)]!, ...torqueSpeed.crossings.map((crossing) => crossing.speed));
  }
  // Without a crossing the height is that of what the weakest line gives.
  if (torque === 0)
    torque = Math.max(...candidates.flatMap(({ torqueSpeed }) => torqueSpeed.lines.map((line) => Math.max(...line.torque)))) / 1.7;
  return { x: openScale(0, rpm(speed) * 1.22, width > 300 ? 6 : 5), y: roundScale(0, torque * 1.7 || 1, 4) };
}

function layersOf({ torqueSpeed, rating }: CandidateResult, look: Look, frame: Frame, first: boolean, head: number): readonly Layer[] {
  const { speed, lines, load, crossings } = torqueSpeed;
  const ordered = [...lines].sort((a, b) => a.throttle - b.throttle);
  const points = (torque: readonly number[]): readonly DrawnPoint[] =>
    speed.map((value, index) => ({ x: rpm(value), y: torque[index]! })).filter(({ y }) => Number.isFinite(y));
  const top = ordered.at(-1)!;
  const loadPoints = points(load);
  const drawn = [...ordered.map(({ torque }) => points(torque)), loadPoints].map((line) => inPixels(frame, line));
  const taken: Box[] = [];
  const ceiling = frame.y.domain[1];
  const reach = points(top.torque);
  // Beyond the full-throttle line the pack, its resistance or the current limit gives no more.
  const beyond = [
    ...reach.map(({ x, y }) => ({ x, y: Math.min(ceiling, Math.max(0, y)) })),
    { x: frame.x.domain[1], y: 0 },
    { x: frame.x.domain[1], y: ceiling },
  ];
  const forEver =
    rating === undefined
      ? []
      : rating.continuousTorque.shaftSpeed.flatMap((w, index) => {
          const y = rating.continuousTorque.torque[index]!;
          return Number.isFinite(y) ? [{ x: rpm(w), y }] : [];
        });
  const layers: Layer[] = [
    shape(beyond, 'var(--step)'),
    ...(forEver.length > 1 ? [curve(forEver, { stroke: 'var(--soft)', width: 1.6, dash: [1.5, 2.5] })] : []),
    ...ordered.map((line) =>
      curve(points(line.torque), line === top ? { stroke: look.colour, width: 2.1, dash: look.dash } : { stroke: look.colour, width: 0.9 }),
    ),
    curve(loadPoints, { stroke: 'var(--ink)', width: 1.5 }),
    dots(
      crossings.filter(({ throttle }) => throttle !== top.throttle).map((c) => ({ x: rpm(c.speed), y: c.torque })),
      'var(--ink)',
      { size: 20 },
    ),
    ...throttleLabels(
      ordered.map(({ throttle }) => throttle),
      drawn,
      look,
      frame,
      taken,
    ),
  ];
  const crossing = crossings.find(({ throttle }) => throttle === top.throttle);
  if (crossing !== undefined) {
    const at = inPixels(frame, [{ x: rpm(crossing.speed), y: crossing.torque }])[0]!;
    const texts = [quantityText(crossing.speed, SPEED), quantityText(crossing.torque, TORQUE)];
    const box = besides(at, texts, drawn, taken, frame);
    taken.push(box);
    layers.push(
      dots([{ x: rpm(crossing.speed), y: crossing.torque }], look.colour),
      words([{ x: box.x, y: box.y + 12, text: texts[0]! }], { fill: look.colour, weight: 600, halo: true }),
      words([{ x: box.x, y: box.y + 26, text: texts[1]! }], { fill: look.colour, halo: true }),
    );
  }
  const loadLabel = loadPlace(drawn.at(-1)!, drawn, taken, frame);
  if (loadLabel !== undefined) layers.push(words([{ x: loadLabel.x, y: loadLabel.y + 11, text: 'load' }], { halo: true }));
  const name = wrapText(look.name, frame.width, 13.5, 600);
  layers.push(
    words(
      name.map((text, line) => ({ x: first ? -LEFT : 0, y: -head + 12 + line * 17, text })),
      { fill: look.colour, weight: 600, size: 13.5 },
    ),
    ...(first ? [words([{ x: -LEFT, y: -12, text: 'torque at the motor shaft, N·m' }])] : []),
    words([{ x: frame.width, y: frame.height + 38, text: 'motor speed, rpm' }], { fill: 'var(--soft)', align: 'right' }),
  );
  return layers;
}

/** The throttle at the foot of its line, where there is room between two lines. */
function throttleLabels(
  throttles: readonly number[],
  drawn: readonly (readonly DrawnPoint[])[],
  look: Look,
  frame: Frame,
  taken: Box[],
): readonly Layer[] {
  const rows = throttles.flatMap((throttle, index) => {
    const foot = crossingOf(drawn[index]!, frame.height - 9);
    const last = index === throttles.length - 1;
    const text = `${Math.round(throttle * 100)}${last ? '\u202f%' : ''}`;
    const width = textWidth(text, 12, last ? 600 : 400);
    if (foot === undefined) return [];
    const box = clearBox(
      [foot + 4, foot - width - 4].map((x) => ({ x, y: frame.height - 16, width, height: 14 })),
      [],
      taken,
    );
    if (box === undefined || box.x < 0 || box.x + width > frame.width + 8) return [];
    taken.push({ ...box, width: box.width + 3 });
    return [{ x: box.x, y: box.y + 11, text, last }];
  });
  return [
    words(
      rows.filter(({ last }) => !last),
      { fill: look.colour, halo: true },
    ),
    words(
      rows.filter(({ last }) => last),
      { fill: look.colour, weight: 600, halo: true },
    ),
  ];
}

/** Where a falling line passes the height y. */
function crossingOf(line: readonly DrawnPoint[], y: number): number | undefined {
  for (let index = 1; index < line.length; index++) {
    const from = line[index - 1]!;
    const to = line[index]!;
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
  return clearBox(usable, lines, taken) ?? usable[0] ?? leftward[0]!;
}

/** Above the load curve, as far right as it stays clear. */
function loadPlace(
  load: readonly DrawnPoint[],
  lines: readonly (readonly DrawnPoint[])[],
  taken: readonly Box[],
  frame: Frame,
): Box | undefined {
  const width = textWidth('load');
  const inside = load.filter(({ x, y }) => y > 6 && x < frame.width - 4 && y < frame.height - 24).reverse();
  const places = inside.flatMap(({ x, y }) => [
    { x: x - width - 7, y: y - 8, width, height: 14 },
    { x: x + 7, y: y + 1, width, height: 14 },
  ]);
  return clearBox(
    places.filter((box) => box.x > 0 && box.x + width < frame.width),
    lines,
    taken,
  );
}
