/**
 * The first minutes after everything is switched off: what a thermometer on the can reads, beside the winding that it cannot reach.
 *
 * @module
 */

import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import { formatNumber, SECONDS_PER_MINUTE, toUnit } from '@shaftwork/sim-core/quantities';
import { clock } from '@shaftwork/sim-core/words';
import type { Drawing, Part } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { areas, curve, dots, type Frame, type Layer, panel, pixelX, pixelY, rules, strokes, words } from '../drawing/panel.js';
import { spreadApart } from '../drawing/place-labels.js';
import { roundScale, type Scale } from '../drawing/round-ticks.js';
import { wrapText } from '../drawing/text-width.js';
import { type DrawnPoint, thinTrace } from '../drawing/thin-trace.js';
import { endLabels, endLabelWidth } from '../drawing/time-panels.js';

/** The moment to read at: late enough to have walked up to it, early enough to be hot [s]. */
export const READ_AT = SECONDS_PER_MINUTE;
const BEFORE = SECONDS_PER_MINUTE;
const AFTER = 5 * SECONDS_PER_MINUTE;
const LEFT = 32;
const LINE = 14;
const LAYOUT = { wide: { height: 210, gap: 44, name: 90 }, narrow: { height: 180, gap: 0, name: 70 } } as const;

/** The can [K], and where 90 of 100 draws have it. */
export interface StopReading {
  readonly value: number;
  readonly band: { readonly p05: number; readonly p95: number } | undefined;
}

/** The can at the moment to read at [K], with its band where tolerances were drawn. */
export function stopReading({ name, afterStop }: CandidateResult, { doubt }: RunResult): StopReading | undefined {
  const reading = afterStop?.readings.find(({ after }) => after === READ_AT);
  if (reading === undefined) return undefined;
  const band = doubt?.candidates.find((one) => one.name === name)?.canAfterStop;
  return { value: reading.can, band };
}

interface Line {
  readonly look: Look;
  readonly candidate: CandidateResult;
  readonly points: readonly DrawnPoint[];
}

const degrees = (kelvin: number): number => toUnit(kelvin, '°C');
const degreesText = (kelvin: number): string => `${formatNumber(degrees(kelvin), { decimals: 0 })}\u202f°C`;
const X: Scale = {
  domain: [-BEFORE, AFTER],
  ticks: Array.from({ length: AFTER / SECONDS_PER_MINUTE + 1 }, (_, minute) => minute * SECONDS_PER_MINUTE),
  label: clock,
};

/** The last minute of the run and the first minutes after it. */
function linesOf(result: RunResult, looks: readonly Look[], body: 'can' | 'winding', height: number): readonly Line[] {
  const channel = `${body}Temperature` as const;
  return result.candidates.flatMap((candidate, index) => {
    const { afterStop, trace } = candidate;
    if (afterStop === undefined) return [];
    const under = trace.time.flatMap((time, place) => {
      const x = time - afterStop.stoppedAt;
      return x >= -BEFORE && x < 0 ? [{ x, y: trace[channel][place] }] : [];
    });
    const after = afterStop.trace.after.flatMap((x, place) => (x <= AFTER ? [{ x, y: afterStop.trace[body][place] }] : []));
    const all = [...under, ...after];
    return [
      {
        look: looks[index],
        candidate,
        points: thinTrace(
          all.map(({ x }) => x),
          all.map(({ y }) => degrees(y)),
          height,
        ),
      },
    ];
  });
}

export function afterStopDrawing(result: RunResult, looks: readonly Look[], size: Size): Drawing {
  const { height, gap, name } = LAYOUT[size];
  const cans = linesOf(result, looks, 'can', height);
  const windings = linesOf(result, looks, 'winding', height);
  const labels = (lines: readonly Line[]) =>
    lines.map(({ look }) => ({ colour: look.colour, name: wrapText(look.name, name, 12, 600), soft: [], room: name }));
  const right = Math.ceil(Math.max(...labels(cans).map(endLabelWidth))) + 12;
  const room = FIGURE_WIDTH[size] - (size === 'wide' ? gap : 0);
  const width = (size === 'wide' ? Math.floor(room / 2) : room) - LEFT - right;
  const readings = cans.map(({ candidate }) => stopReading(candidate, result));
  const bands = readings.flatMap((reading) => (reading?.band === undefined ? [] : [degrees(reading.band.p05), degrees(reading.band.p95)]));
  const limits = [
    ...new Set(
      windings.flatMap(({ candidate }) =>
        candidate.limits.filter(({ id }) => id === 'windingTemperature').map(({ bound }) => degrees(bound)),
      ),
    ),
  ].filter(Number.isFinite);
  const frameOf = (lines: readonly Line[], more: readonly number[]): Frame => {
    const all = [...lines.flatMap(({ points }) => points.map(({ y }) => y)), ...more];
    const [low, high] = [Math.min(...all), Math.max(...all)];
    // Room above for the words at the top.
    return { width, height, x: X, y: roundScale(low, high + 0.1 * (high - low), 4) };
  };
  const can = frameOf(cans, bands);
  const winding = frameOf(windings, []);
  const reachable = limits.filter((limit) => limit <= winding.y.domain[1]);
  const common = (frame: Frame, lines: readonly Line[], title: string): readonly Layer[] => [
    areas([{ x: -BEFORE, x2: 0, y: frame.y.domain[0], y2: frame.y.domain[1] }], 'var(--step)'),
    words([{ x: -LEFT, y: -12, text: title }]),
    words([{ x: 4, y: 12, text: 'under way' }], { fill: 'var(--soft)', size: 11.5 }),
    ...lines.map(({ look, points }) => curve(points, { stroke: look.colour, width: 1.8, dash: look.dash })),
    ...endLabels(
      frame,
      labels(lines).map((label, index) => ({ ...label, at: pixelY(frame, lastOf(lines[index].points).y) })),
    ),
    words([{ x: width, y: height + 38, text: 'time after the stop, m:ss' }], { fill: 'var(--soft)', align: 'right' }),
  ];
  const top = 28;
  const parts: Part[] = [
    {
      x: LEFT,
      y: top,
      spec: { panel: panel(can, [...common(can, cans, 'can, where the thermometer touches, °C'), ...readingLayers(can, cans, readings)]) },
    },
    {
      x: size === 'wide' ? LEFT + width + right + gap + LEFT : LEFT,
      y: size === 'wide' ? top : top + height + 74,
      spec: {
        panel: panel(winding, [
          ...common(winding, windings, 'winding, which it cannot reach, °C'),
          rules(reachable.map((y) => ({ x: -BEFORE, x2: AFTER, y, y2: y }))),
          ...reachable.map((y) =>
            words([{ x: width - 4, y: pixelY(winding, y) - 5, text: `limit ${formatNumber(y, { decimals: 0 })}\u202f°C` }], {
              align: 'right',
              halo: true,
            }),
          ),
        ]),
      },
    },
  ];
  return { width: FIGURE_WIDTH[size], height: size === 'wide' ? height + 74 : 2 * (height + 74), parts };
}

/** The rule to read at; on it each candidate's value with its band, and beside it the numbers. */
function readingLayers(frame: Frame, lines: readonly Line[], readings: readonly (StopReading | undefined)[]): readonly Layer[] {
  const [low, high] = frame.y.domain;
  const at = pixelX(frame, READ_AT);
  const read = lines.flatMap(({ look }, index) => {
    const reading = readings[index];
    return reading === undefined ? [] : [{ look, reading }];
  });
  const texts = read.map(({ reading: { value, band } }) =>
    band === undefined
      ? degreesText(value)
      : `${degreesText(value)} (${formatNumber(degrees(band.p05), { decimals: 0 })} to ${formatNumber(degrees(band.p95), { decimals: 0 })})`,
  );
  // Bands stand beside the rule, one by one, where they hide nothing.
  const shift = (index: number): number => (index + 1) * 5;
  const start = at + shift(read.length) + 6;
  const tops = spreadApart(
    read.map(({ reading }) => ({ wanted: pixelY(frame, degrees(reading.value)), height: LINE })),
    16,
    frame.height - 2,
  );
  return [
    rules([{ x: READ_AT, x2: READ_AT, y: low, y2: high }]),
    words([{ x: at + 5, y: 12, text: `read at ${clock(READ_AT)}` }], { size: 11.5, halo: true }),
    ...read.flatMap(({ look, reading: { value, band } }, index): readonly Layer[] => [
      ...(band === undefined
        ? []
        : [
            strokes(
              [{ x: at + shift(index), x2: at + shift(index), y: pixelY(frame, degrees(band.p05)), y2: pixelY(frame, degrees(band.p95)) }],
              {
                stroke: look.colour,
                width: 2.4,
              },
            ),
          ]),
      dots([{ x: READ_AT, y: degrees(value) }], look.colour),
      words([{ x: start, y: tops[index] + 11, text: texts[index] }], { fill: look.colour, weight: 600, halo: true }),
    ]),
  ];
}
