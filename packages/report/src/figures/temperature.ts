/** The figure that decides: winding temperature over the run for all candidates with its limits, the can beneath. @module */

import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import { toUnit } from '@shaftwork/sim-core/quantities';
import { besideLimit, channelPrinting, clock, printed, quantityText } from '@shaftwork/sim-core/words';
import type { Drawing, Part } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { band, curve, dots, type Frame, inPixels, type Layer, panel, pixelX, pixelY, rules, words } from '../drawing/panel.js';
import { type Box, clearBox } from '../drawing/place-labels.js';
import { roundScale, timeScale } from '../drawing/round-ticks.js';
import { textWidth, wrapText } from '../drawing/text-width.js';
import { type DrawnPoint, thinTrace } from '../drawing/thin-trace.js';
import {
  type EndLabel,
  endLabelHeight,
  endLabels,
  endLabelWidth,
  type StepHead,
  stepColumns,
  stepHead,
  timeTitle,
  tintedSteps,
} from '../drawing/time-panels.js';

const LAYOUT = {
  wide: { winding: 302, can: 92, left: 32, name: 150, timeSteps: 8 },
  narrow: { winding: 250, can: 76, left: 32, name: 92, timeSteps: 4 },
} as const;
const PRINTING = channelPrinting('windingTemperature');
const shown = (kelvin: number): number => toUnit(kelvin, PRINTING.unit);

const HEADLINES = { windingTemperature: 'peakWindingTemperature', canTemperature: 'peakCanTemperature' } as const;

interface Line {
  readonly look: Look;
  readonly channel: keyof typeof HEADLINES;
  readonly candidate: CandidateResult;
  readonly points: readonly DrawnPoint[];
  readonly peak: DrawnPoint;
  /** 5 to 95 % over time, where tolerances were drawn. */
  readonly doubt?: { readonly time: readonly number[]; readonly low: readonly number[]; readonly high: readonly number[] };
}

export interface TemperatureDrawing {
  readonly drawing: Drawing;
  readonly head: StepHead;
}

export function temperatureDrawing(result: RunResult, looks: readonly Look[], size: Size): TemperatureDrawing {
  const layout = LAYOUT[size];
  const winding = linesOf(result, looks, 'windingTemperature', layout.winding);
  const can = linesOf(result, looks, 'canTemperature', layout.can);
  const brief = winding.length > 5;
  const { duration } = result.scenario;
  const labelsOf = (lines: readonly Line[], times: boolean): readonly Omit<EndLabel, 'at'>[] =>
    lines.map((line) => endLabel(line, layout.name, times && !brief, duration, size));
  const windingLabels = labelsOf(winding, true);
  const canLabels = labelsOf(can, false);
  const right = Math.ceil(Math.max(58, ...[...windingLabels, ...canLabels].map(endLabelWidth)) + 12);
  const width = FIGURE_WIDTH[size] - layout.left - right;
  const room = (labels: readonly Omit<EndLabel, 'at'>[]): number => labels.reduce((sum, label) => sum + endLabelHeight(label), 0);
  const x = timeScale(duration, layout.timeSteps);

  const limits = windingLimits(result);
  const windingFrame: Frame = {
    width,
    height: Math.max(layout.winding, room(windingLabels)),
    x,
    y: heatScale(
      winding,
      limits.map(({ bound }) => shown(bound)),
      5,
    ),
  };
  const canFrame: Frame = { width, height: Math.max(layout.can, room(canLabels)), x, y: heatScale(can, [], 3) };
  const columns = tintedSteps(result);
  const head = stepHead(result.scenario.steps, windingFrame);
  const title = (text: string, y: number): Layer => words([{ x: -layout.left, y, text }]);
  const placed = (frame: Frame, lines: readonly Line[], labels: readonly Omit<EndLabel, 'at'>[]): readonly EndLabel[] =>
    labels.map((label, index) => ({ ...label, at: pixelY(frame, lastOf(lines[index].points).y) }));

  const top = 14 + head.height + 8;
  const parts: Part[] = [
    {
      x: layout.left,
      y: top,
      channel: 'windingTemperature',
      title: -head.height - 10,
      spec: {
        panel: panel(windingFrame, [
          stepColumns(columns, windingFrame),
          title('winding temperature, °C', -head.height - 10),
          ...head.layers,
          ...bands(winding),
          ...curves(winding, size === 'wide' ? 2.1 : 1.8),
          ...limitLayers(windingFrame, limits, winding, size, duration),
          ...winding.map(({ peak, look }) => dots([peak], look.colour)),
          ...endLabels(windingFrame, placed(windingFrame, winding, windingLabels)),
        ]),
      },
    },
  ];
  const canTop = top + windingFrame.height + 58;
  parts.push({
    x: layout.left,
    y: canTop,
    channel: 'canTemperature',
    title: -14,
    spec: {
      panel: panel(canFrame, [
        stepColumns(columns, canFrame),
        title('can temperature, °C', -14),
        ...bands(can),
        ...curves(can, 1.5),
        ...endLabels(canFrame, placed(canFrame, can, canLabels)),
        words([{ x: width, y: canFrame.height + 38, text: timeTitle(result) }], { fill: 'var(--soft)', align: 'right' }),
      ]),
    },
  });
  return { drawing: { width: FIGURE_WIDTH[size], height: canTop + canFrame.height + 44, parts }, head };
}

function linesOf(result: RunResult, looks: readonly Look[], channel: keyof typeof HEADLINES, height: number): readonly Line[] {
  return result.candidates.flatMap((candidate, index) => {
    const { trace, limits, headline } = candidate;
    const points = thinTrace(trace.time, trace[channel].map(shown), height);
    if (points.length < 2) return [];
    const highest = points.reduce((best, point) => (point.y > best.y ? point : best));
    // The run may have found its peak between two points of the trace; figure and table print the same one.
    const found = shown(headline[HEADLINES[channel]].nominal);
    const peak = {
      x: limits.find(({ id }) => id === channel)?.worstTime ?? highest.x,
      y: Number.isFinite(found) ? found : highest.y,
    };
    const curves = result.doubt?.candidates.find(({ name }) => name === candidate.name)?.curves;
    const doubt = curves && {
      time: curves.time,
      low: curves.channels[channel].p05.map(shown),
      high: curves.channels[channel].p95.map(shown),
    };
    return [{ look: looks[index], channel, candidate, points, peak, ...(doubt === undefined ? {} : { doubt }) }];
  });
}

const bands = (lines: readonly Line[]): readonly Layer[] =>
  lines.flatMap(({ look, doubt }) => (doubt === undefined ? [] : [band(doubt.time, doubt.low, doubt.high, look.colour, 0.13)]));

const curves = (lines: readonly Line[], width: number): readonly Layer[] =>
  lines.map(({ look, points }) => curve(points, { stroke: look.colour, width, dash: look.dash }));

function heatScale(lines: readonly Line[], bounds: readonly number[], count: number) {
  const values = lines.flatMap(({ points, doubt }) => [
    ...points.map(({ y }) => y),
    ...[...(doubt?.low ?? []), ...(doubt?.high ?? [])].filter(Number.isFinite),
  ]);
  const low = Math.min(...values, ...bounds);
  const high = Math.max(...values, ...bounds);
  // Zero is kept in view only when it is near: temperatures have no zero worth starting from.
  return roundScale(low > 0 && low < (high - low) / 2 && bounds.length > 0 ? 0 : low, high, count);
}

/** As it is told everywhere: closely where it is close to its limit. */
const peakText = ({ peak, channel, candidate: { headline, limits } }: Line): string => {
  const value = headline[HEADLINES[channel]].nominal;
  const bound = limits.find(({ id }) => id === channel)?.bound;
  return Number.isFinite(value)
    ? quantityText(value, besideLimit(value, bound, PRINTING))
    : `${peak.y.toFixed(0).replace('-', '\u2212')}\u202f°C`;
};
/** A peak in this last share of the run is told at the line's end; an earlier one where it is. */
const LATE = 0.9;
const peaksLate = ({ peak }: Line, duration: number): boolean => peak.x >= LATE * duration;

function endLabel(line: Line, room: number, times: boolean, duration: number, size: Size): Omit<EndLabel, 'at'> {
  const { look, candidate, peak } = line;
  const own = { colour: look.colour, name: wrapText(look.name, room, 12, 600), room: room + 10 };
  const end = lastOf(candidate.trace.time);
  const early = end < duration * 0.999 ? [`ends at ${clock(end)}`] : [];
  if (times && !peaksLate(line, duration)) return { ...own, soft: early };
  const value = peaksLate(line, duration) ? peakText(line) : `peak ${peakText(line)}`;
  return { ...own, value, soft: times ? [`${size === 'wide' ? 'peak at' : 'at'} ${clock(peak.x)}`, ...early] : [] };
}

interface WindingLimit {
  readonly bound: number;
  readonly names: readonly string[];
}

function windingLimits({ candidates }: RunResult): readonly WindingLimit[] {
  const limits: { bound: number; names: string[] }[] = [];
  for (const { name, limits: own } of candidates) {
    const limit = own.find(({ id }) => id === 'windingTemperature');
    if (limit === undefined) continue;
    const same = limits.find(({ bound }) => printed(bound, PRINTING) === printed(limit.bound, PRINTING));
    if (same === undefined) limits.push({ bound: limit.bound, names: [name] });
    else same.names.push(name);
  }
  return limits;
}

/** The rule of each limit with its name and value, and where a line first passes it. */
function limitLayers(
  frame: Frame,
  limits: readonly WindingLimit[],
  lines: readonly Line[],
  size: Size,
  duration: number,
): readonly Layer[] {
  const drawn = lines.map(({ points }) => inPixels(frame, points));
  const edges = limits.map(({ bound }) => {
    const y = pixelY(frame, shown(bound));
    return [
      { x: 0, y },
      { x: frame.width, y },
    ];
  });
  const taken: Box[] = [];
  const layers: Layer[] = [
    rules(limits.map(({ bound }) => ({ x: frame.x.domain[0], x2: frame.x.domain[1], y: shown(bound), y2: shown(bound) }))),
  ];
  for (const { bound, names } of limits) {
    const own =
      limits.length > 1
        ? ` of ${names.length > 2 ? `${names.length} candidates` : names.join(', ')}`
        : size === 'wide'
          ? ' of the winding'
          : '';
    const text = `limit${own} ${quantityText(bound, PRINTING)}`;
    const width = textWidth(text);
    const y = pixelY(frame, shown(bound));
    const places = [0.01, 0.25, 0.5, 0.75, 1].flatMap((share) =>
      [y - 17, y + 3].map((top) => ({ x: Math.max(4, share * (frame.width - width) - 2), y: top, width, height: 14 })),
    );
    const box = clearBox(places, drawn, taken) ?? places[0];
    taken.push(box);
    layers.push(words([{ x: box.x, y: box.y + 11, text }], { halo: true }));
  }
  for (const line of lines) {
    if (peaksLate(line, duration)) continue;
    const { peak, look } = line;
    const [x, y] = [pixelX(frame, peak.x), pixelY(frame, peak.y)];
    const texts = [peakText(line), clock(peak.x)];
    const [bold, soft] = [textWidth(texts[0], 12, 600), textWidth(` ${texts[1]}`)];
    const width = bold + soft;
    const places = [-9, -22, 6, -36, 20].flatMap((dy) =>
      [x + 8, x - width - 8, x - width / 2].map((left) => ({
        x: Math.min(frame.width - width - 2, Math.max(2, left)),
        y: y + dy,
        width,
        height: 14,
      })),
    );
    const inside = places.filter((place) => place.y > -4 && place.y < frame.height - 14);
    const box = clearBox(inside, [...drawn, ...edges], taken) ?? clearBox(inside, edges, taken) ?? clearBox(inside, [], taken);
    if (box === undefined) continue;
    taken.push(box);
    layers.push(
      words([{ x: box.x, y: box.y + 11, text: texts[0] }], { fill: look.colour, weight: 600, halo: true }),
      words([{ x: box.x + bold + 4, y: box.y + 11, text: texts[1] }], { fill: look.colour, halo: true }),
    );
  }
  for (const { candidate, look } of lines) {
    const limit = candidate.limits.find(({ id }) => id === 'windingTemperature');
    if (limit?.passed === undefined) continue;
    const point = { x: limit.passed.at, y: shown(limit.bound) };
    layers.push(dots([point], look.colour, { hollow: true, size: 42 }));
    const text = size === 'wide' ? `${look.name} passes the limit at ${clock(limit.passed.at)}` : `passes at ${clock(limit.passed.at)}`;
    const width = textWidth(text);
    const at = { x: pixelX(frame, point.x), y: pixelY(frame, point.y) };
    const places = [26, 44, 62, 80, -30, -48].flatMap((rise) =>
      [at.x - width - 6, at.x - width / 2, at.x + 8]
        .filter((x) => x > 2 && x + width < frame.width - 2)
        .map((x) => ({ x, y: at.y - rise - 7, width, height: 15 })),
    );
    const box = clearBox(
      places.filter(({ y }) => y > 0 && y < frame.height - 16),
      [...drawn, ...edges],
      taken,
    );
    if (box === undefined) continue;
    taken.push(box);
    layers.push(words([{ x: box.x, y: box.y + 12, text }], { fill: look.colour, halo: true }));
  }
  return layers;
}
