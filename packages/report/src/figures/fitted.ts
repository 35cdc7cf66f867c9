/** What was read and what the laws say, over one axis, and below it what is left; one colour a group. @module */
import type { FittedPoint, ReadingFit } from '@shaftwork/sim-core';
import { type Dimension, handyUnit, toUnit, unitSign } from '@shaftwork/sim-core/quantities';
import type { Drawing } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import { CANDIDATE_COLOURS } from '../drawing/palette.js';
import { curve, dots, type Frame, type Layer, panel, rules, words } from '../drawing/panel.js';
import { roundScale, type Scale, timeScale } from '../drawing/round-ticks.js';
import { textWidth } from '../drawing/text-width.js';
import type { DrawnPoint } from '../drawing/thin-trace.js';

const LEFT = 58;
const TOP = 48;
const BETWEEN = 44;
/** More dots than this are a smear: every so many is drawn, and all count. */
const MOST_DOTS = 400;
/** A law is a line where its neighbours on the axis are one motion; for points in any order it is a hollow dot each. */
const COLOUR = (index: number): string => `var(--c${(index % CANDIDATE_COLOURS.length) + 1})`;

export interface FittedAxis {
  readonly words: string;
  readonly dimension: Dimension;
}

export const groupsOf = (points: readonly FittedPoint[]): readonly string[] => [...new Set(points.map(({ group }) => group))];

export function fittedDrawing(
  { dimension, words: name, points }: ReadingFit,
  along: FittedAxis,
  all: readonly string[],
  size: Size,
): Drawing {
  const width = FIGURE_WIDTH[size] - LEFT - 14;
  const height = size === 'wide' ? 250 : 210;
  const small = size === 'wide' ? 84 : 74;
  const unit = handyUnit(points[0]?.read ?? 1, dimension);
  const ofAxis = handyUnit(Math.max(...points.map((point) => point.along)), along.dimension);
  const x = (point: FittedPoint): number => (along.dimension === 'time' ? point.along : toUnit(point.along, ofAxis));
  const y = (value: number): number => toUnit(value, unit);
  const stride = Math.max(1, Math.ceil(points.length / MOST_DOTS));
  const shown = points.filter((_, k) => k % stride === 0);
  const span = (values: readonly number[], count: number): Scale => roundScale(Math.min(...values), Math.max(...values), count);
  const xs = shown.map(x);
  const steps = size === 'wide' ? 8 : 4;
  const scaleX: Scale = along.dimension === 'time' ? timeScale(Math.max(...xs), steps) : span(xs, steps);
  const upper: Frame = {
    width,
    height,
    x: scaleX,
    y: span(
      shown.flatMap(({ read, law }) => [y(read), y(law)]),
      5,
    ),
  };
  const most = Math.max(...shown.map(({ read, law }) => Math.abs(y(read) - y(law)))) || 1;
  const lower: Frame = { width, height: small, x: scaleX, y: roundScale(-most, most, 2) };
  const groups = groupsOf(points);
  const colours = groups.map((group) => COLOUR(all.indexOf(group)));
  const [above, below]: [Layer[], Layer[]] = [[], []];
  groups.forEach((group, index) => {
    const own = shown.filter((point) => point.group === group);
    const laws: DrawnPoint[] = own.map((point) => ({ x: x(point), y: y(point.law) })).sort((a, b) => a.x - b.x);
    const colour = colours[index];
    const read = dots(
      own.map((point) => ({ x: x(point), y: y(point.read) })),
      colour,
      { size: own.length > 120 ? 10 : 26 },
    );
    above.push(
      ...(along.dimension === 'time'
        ? [read, curve(laws, { stroke: 'var(--ink)', width: 1.4 })]
        : [dots(laws, 'var(--ink)', { hollow: true, size: 90, rim: 1.1 }), read]),
    );
    below.push(
      dots(
        own.map((point) => ({ x: x(point), y: y(point.read) - y(point.law) })),
        colour,
        { size: own.length > 120 ? 8 : 20 },
      ),
    );
  });
  const title = `${name}${unitSign(unit) === '' ? '' : `, ${unitSign(unit)}`}`;
  above.unshift(words([{ x: -LEFT, y: -14, text: title }]));
  if (groups.length > 1) above.push(...legend(groups, colours, width));
  below.unshift(
    words([{ x: -LEFT, y: -10, text: 'read less law' }]),
    rules([{ x: scaleX.domain[0], y: 0, x2: scaleX.domain[1], y2: 0 }], { stroke: 'var(--soft)', width: 0.8 }),
  );
  const foot = `${along.words}${along.dimension === 'time' ? ', m:ss' : `, ${unitSign(ofAxis)}`}`;
  below.push(words([{ x: width, y: small + 36, text: foot }], { fill: 'var(--soft)', align: 'right' }));
  return {
    width: FIGURE_WIDTH[size],
    height: TOP + height + BETWEEN + small + 52,
    parts: [
      { x: LEFT, y: TOP, spec: { panel: panel(upper, above, { xLabels: false }) } },
      { x: LEFT, y: TOP + height + BETWEEN, spec: { panel: panel(lower, below) } },
    ],
  };
}

/** Names in their colours, in one line from the right. */
function legend(groups: readonly string[], colours: readonly string[], width: number): Layer[] {
  let right = width;
  return [...groups].reverse().map((group, back) => {
    const text = group.length > 18 ? `${group.slice(0, 17)}…` : group;
    const layer = words([{ x: right, y: -14, text }], { fill: colours[groups.length - 1 - back], align: 'right', weight: 600 });
    right -= textWidth(text, 12, 600) + 14;
    return layer;
  });
}
