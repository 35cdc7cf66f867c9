/** What was measured over what is predicted: a strip a column of the log, the prediction with its band in the candidate's colour, the log in ink. @module */

import { type MeasuredChannel, type MeasuredResult, measurableOf, type RunResult } from '@shaftwork/sim-core';
import { formatNumber, showIn, unitSign } from '@shaftwork/sim-core/quantities';
import { differenceOf, measurablePrinting, signedText } from '@shaftwork/sim-core/words';
import type { Drawing, Part } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { band, curve, dots, type Frame, type Layer, panel, pixelY, words } from '../drawing/panel.js';
import { roundScale, type Scale, timeScale } from '../drawing/round-ticks.js';
import { type DrawnPoint, thinTrace } from '../drawing/thin-trace.js';
import { endLabels, endLabelWidth, timeTitle } from '../drawing/time-panels.js';

const LAYOUT = {
  wide: { height: 84, left: 46, timeSteps: 8 },
  narrow: { height: 72, left: 44, timeSteps: 4 },
} as const;
/** So few samples are drawn as dots. */
const FEW = 60;
/** A log that covers most of the run is drawn over all of it. */
const MOST = 0.8;

const LOG = { colour: 'var(--ink)', name: ['log'], soft: [], room: 80 };
const predictedLabel = (look: Look) => ({ colour: look.colour, name: ['predicted'], soft: [], room: 80 });

export function measuredDrawing(result: RunResult, measured: MeasuredResult, look: Look, size: Size): Drawing {
  const { height, left, timeSteps } = LAYOUT[size];
  const right = Math.ceil(Math.max(endLabelWidth(LOG), endLabelWidth(predictedLabel(look)))) + 12;
  const width = FIGURE_WIDTH[size] - left - right;
  const x = timeAxis(result.scenario.duration, measured, timeSteps);
  const parts: Part[] = [];
  let y = 14;
  for (const [index, channel] of measured.channels.entries()) {
    const last = index === measured.channels.length - 1;
    const frame: Frame = { width, height, x, y: scaleOf(channel) };
    y += 12;
    parts.push({
      x: left,
      y,
      spec: {
        panel: panel(
          frame,
          [
            words([{ x: -left, y: -12, text: titleOf(channel) }]),
            words([{ x: width + right, y: -12, text: residualText(channel, size) }], { fill: 'var(--soft)', size: 11.5, align: 'right' }),
            ...stripLayers(channel, frame, look),
            ...(last ? [words([{ x: width, y: height + 38, text: timeTitle(result) }], { fill: 'var(--soft)', align: 'right' })] : []),
          ],
          { xLabels: last },
        ),
      },
    });
    y += height + (last ? 44 : 26);
  }
  return { width: FIGURE_WIDTH[size], height: y, parts };
}

/** All of the run, or the part of it that the log covers. */
function timeAxis(duration: number, { from, to }: MeasuredResult, steps: number): Scale {
  if (to - from >= MOST * duration) return timeScale(duration, steps);
  const { label } = timeScale(to, steps);
  const own = timeScale(to - from, steps);
  const step = own.ticks[1] - own.ticks[0];
  const first = Math.ceil(from / step);
  const ticks = Array.from({ length: Math.floor(to / step) - first + 1 }, (_, k) => (first + k) * step);
  return { domain: [from, to], ticks, label };
}

const shownIn = ({ id }: MeasuredChannel) => showIn(measurableOf(id).shown);
const titleOf = ({ id }: MeasuredChannel): string => `${measurableOf(id).words}, ${unitSign(measurableOf(id).shown)}`;

/** "bias +0.6 A, RMS 0.9 A, 82 % inside". */
function residualText({ id, bias, rms, inside }: MeasuredChannel, size: Size): string {
  const printing = measurablePrinting(id);
  const share = inside === undefined ? '' : `, ${formatNumber(100 * inside, { decimals: 0 })}\u202f% inside`;
  return size === 'wide'
    ? `bias ${signedText(bias, printing)}, RMS ${differenceOf(rms, printing)}${share}`
    : `${signedText(bias, printing)}${share}`;
}

function scaleOf(channel: MeasuredChannel): Scale {
  const show = shownIn(channel);
  const { measured, predicted, bands } = channel;
  const all = [...measured, ...predicted, ...(bands === undefined ? [] : [...bands.p05, ...bands.p95])].filter(Number.isFinite).map(show);
  const [low, high] = [Math.min(...all), Math.max(...all)];
  // what is near nothing is drawn from nothing
  return roundScale(low > 0 && low < 0.4 * high ? 0 : low, high, 3);
}

function stripLayers(channel: MeasuredChannel, frame: Frame, look: Look): readonly Layer[] {
  const show = shownIn(channel);
  const { time, measured, predicted, bands } = channel;
  const points = (values: readonly number[]): readonly DrawnPoint[] => thinTrace(time, values.map(show), frame.height);
  const [log, own] = [points(measured), points(predicted)];
  const edges = bands === undefined ? undefined : finite(time, bands.p05.map(show), bands.p95.map(show));
  return [
    ...(edges === undefined || edges.time.length < 2 ? [] : [band(edges.time, edges.low, edges.high, look.colour, 0.2)]),
    ...(time.length > FEW ? [curve(log, { stroke: 'var(--ink)', width: 0.9 })] : []),
    curve(own, { stroke: look.colour, width: 1.8, dash: look.dash }),
    ...(time.length > FEW ? [] : [dots(log, 'var(--ink)', { size: 16, rim: 0.8 })]),
    ...endLabels(frame, [
      { ...LOG, at: pixelY(frame, log[log.length - 1]?.y ?? 0) },
      { ...predictedLabel(look), at: pixelY(frame, own[own.length - 1]?.y ?? 0) },
    ]),
  ];
}

/** The edges of a band, as many of its points as draws tell, thinned alike. */
function finite(time: readonly number[], low: readonly number[], high: readonly number[]) {
  const kept = time.flatMap((_, k) => (Number.isFinite(low[k]) && Number.isFinite(high[k]) ? [k] : []));
  return { time: kept.map((k) => time[k]), low: kept.map((k) => low[k]), high: kept.map((k) => high[k]) };
}
