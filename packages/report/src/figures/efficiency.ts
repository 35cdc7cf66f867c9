/** Lines of equal efficiency over speed and torque, a panel for each candidate, and dots where the run has been. @module */

import type { CandidateResult, EfficiencyMap } from '@shaftwork/sim-core';
import { toUnit } from '@shaftwork/sim-core/quantities';
import type { Drawing } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { curve, dots, type Frame, inPixels, type Layer, panel, words } from '../drawing/panel.js';
import { panelRow } from '../drawing/panel-row.js';
import { type Box, clearBox } from '../drawing/place-labels.js';
import { openScale, roundScale } from '../drawing/round-ticks.js';
import { textWidth, wrapText } from '../drawing/text-width.js';
import { atOutput } from './torque-speed.js';

export interface Mapped {
  readonly candidate: CandidateResult;
  readonly map: EfficiencyMap;
  readonly look: Look;
  /** By which speed is divided and torque multiplied: 1, or the gear where gears differ. */
  readonly gear: number;
}

const LEFT = 36;
const rpm = (speed: number): number => toUnit(speed, 'rpm');
/** More dots than this only cover one another. */
const MOST_DOTS = 40;
const LARGEST_DOT = 150;

export function mapped(candidates: readonly CandidateResult[], looks: readonly Look[]): readonly Mapped[] {
  const output = atOutput(candidates);
  return candidates.flatMap((candidate, index) => {
    const map = candidate.efficiencyMap;
    return map === undefined || map.contours.length === 0 || map.visits.length === 0
      ? []
      : [{ candidate, map, look: looks[index], gear: output ? candidate.facts.gearRatio : 1 }];
  });
}

export function efficiencyDrawing(shown: readonly Mapped[], size: Size): Drawing {
  const height = size === 'narrow' ? 190 : 230;
  const places = panelRow(shown.length, size, height, LEFT, 0, 0);
  const nameLines = Math.max(1, ...shown.map(({ look }) => wrapText(look.name, places.width, 13.5, 600).length));
  const head = nameLines * 17 + 24;
  const row = panelRow(shown.length, size, height, LEFT, head, 52);
  const torque = Math.max(...shown.flatMap(({ map, gear }) => map.visits.map((visit) => visit.torque * gear)));
  const speed = Math.max(...shown.flatMap(({ map, gear }) => map.visits.map((visit) => visit.speed / gear)));
  const shaft = shown.some(({ gear }) => gear !== 1) ? 'output' : 'motor';
  const frame: Frame = {
    width: row.width,
    height,
    x: openScale(0, rpm(speed) * 1.3, row.width > 300 ? 6 : row.width > 200 ? 5 : 4),
    y: roundScale(0, torque * 1.5, 4),
  };
  const parts = shown.map((one, index) => {
    const { x, y, first } = row.place(index);
    const own = first ? frame : { ...frame, y: { ...frame.y, label: () => '' } };
    return { x, y, spec: { panel: panel(own, layersOf(one, own, first, head, shaft)) } };
  });
  return { width: FIGURE_WIDTH[size], height: row.height(shown.length) - 4, parts };
}

function layersOf({ map, look, gear }: Mapped, frame: Frame, first: boolean, head: number, shaft: string): readonly Layer[] {
  const lines = map.contours.map(({ efficiency, speed, torque }) => {
    const points = speed.map((value, index) => ({ x: rpm(value / gear), y: torque[index] * gear }));
    // Far outside the frame a line is not drawn; a little outside it is clipped.
    return { efficiency, points: points.filter(({ y }) => y < frame.y.domain[1] * 1.4) };
  });
  const taken: Box[] = [];
  const labels = lines.flatMap(({ efficiency, points }) => {
    const text = `${Math.round(efficiency * 100)}`;
    const width = textWidth(text) + 2;
    // Where the line leaves on the right or bends: whichever place is free.
    const places = inPixels(frame, points)
      .filter(({ x, y }) => x > 10 && x < frame.width - 6 && y > 8 && y < frame.height - 6)
      .map(({ x, y }) => ({ x: x - width / 2, y: y - 7, width, height: 14 }));
    const box = clearBox([...places.slice(-3).reverse(), ...places.filter((_, index) => index % 5 === 0)], [], taken);
    if (box === undefined) return [];
    taken.push({ ...box, x: box.x - 4, width: box.width + 8 });
    return [{ x: box.x + width / 2, y: box.y + 11, text }];
  });
  const most = map.visits[0].time;
  const name = wrapText(look.name, frame.width, 13.5, 600);
  return [
    ...lines.map(({ points }) => curve(points, { stroke: 'var(--hair)', width: 1 })),
    ...map.visits
      .slice(0, MOST_DOTS)
      .map(({ speed, torque, time }) =>
        dots([{ x: rpm(speed / gear), y: torque * gear }], look.colour, { size: Math.max(9, (LARGEST_DOT * time) / most) }),
      ),
    words(labels, { fill: 'var(--soft)', align: 'center', halo: true }),
    words(
      name.map((text, line) => ({ x: first ? -LEFT : 0, y: -head + 12 + line * 17, text })),
      { fill: look.colour, weight: 600, size: 13.5 },
    ),
    ...(first ? [words([{ x: -LEFT, y: -12, text: `torque at the ${shaft} shaft, N·m` }])] : []),
    words([{ x: frame.width, y: frame.height + 38, text: shaft === 'motor' ? 'motor speed, rpm' : 'speed of the output shaft, rpm' }], {
      fill: 'var(--soft)',
      align: 'right',
    }),
  ];
}
