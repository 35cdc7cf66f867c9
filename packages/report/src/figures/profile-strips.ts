/** What was driven and what it took: six quantities on one time axis; many laps as what each reaches, with one of them large. @module */

import type { ChannelId, RunResult, StepResult } from '@shaftwork/sim-core';
import { CHANNELS } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import { toUnit, unitSign } from '@shaftwork/sim-core/quantities';
import { channelPrinting, numberText } from '@shaftwork/sim-core/words';
import type { Drawing, Part } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import type { Look } from '../drawing/palette.js';
import { band, curve, type Frame, type Layer, panel, pixelY, words } from '../drawing/panel.js';
import { roundScale, type Scale, timeScale } from '../drawing/round-ticks.js';
import { wrapText } from '../drawing/text-width.js';
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
import { envelope, type Laps, lapsOf } from './laps.js';

const STRIPS = [
  'throttle',
  'vehicleSpeed',
  'motorCurrent',
  'batteryCurrent',
  'busVoltage',
  'charge',
] as const satisfies readonly ChannelId[];
const LAYOUT = {
  wide: { height: 66, small: 40, left: 36, name: 130, timeSteps: 8 },
  narrow: { height: 58, small: 40, left: 34, name: 88, timeSteps: 4 },
} as const;

/** A vehicle that is not there has no speed to show. */
export const stripChannels = ({ candidates }: RunResult): readonly ChannelId[] =>
  STRIPS.filter((id) => id !== 'vehicleSpeed' || candidates.some(({ trace }) => trace.vehicleSpeed.some((speed) => speed !== 0)));

interface Trace {
  readonly look: Look;
  readonly points: readonly DrawnPoint[];
  readonly last: string;
}

/** Strips one under another from `y` on, with one time axis under the last. */
interface Strips {
  readonly ids: readonly ChannelId[];
  readonly height: number;
  readonly width: number;
  readonly x: Scale;
  readonly steps: readonly StepResult[];
  readonly columns: readonly StepResult[];
  readonly title: string;
  /** Read by a pointer: only what stands over the time of the run. */
  readonly live: boolean;
  readonly lines: (traces: readonly Trace[]) => readonly Layer[];
  readonly labels: (traces: readonly Trace[]) => readonly SharedLabel[];
  readonly traces: (id: ChannelId) => readonly Trace[];
}

export interface ProfileDrawing {
  readonly drawing: Drawing;
  readonly head: StepHead;
  /** Where the profile is laps, drawn as their reach and one of them large. */
  readonly laps: Laps | undefined;
}

export function profileDrawing(result: RunResult, looks: readonly Look[], size: Size): ProfileDrawing {
  const layout = LAYOUT[size];
  const ids = stripChannels(result);
  const laps = lapsOf(result);
  const labels = (traces: readonly Trace[]): readonly SharedLabel[] => sharedLabels(traces, layout.name);
  const height = laps === undefined ? layout.height : layout.small;
  const whole = (id: ChannelId): readonly Trace[] => tracesOf(result, looks, id, height);
  const right = Math.ceil(Math.max(58, ...ids.flatMap((id) => labels(whole(id)).map(endLabelWidth))) + 12);
  const width = FIGURE_WIDTH[size] - layout.left - right;
  const run = stripParts(
    {
      ids,
      height,
      width,
      x: timeScale(result.scenario.duration, layout.timeSteps),
      steps: result.scenario.steps,
      columns: tintedSteps(result),
      title: timeTitle(result),
      live: true,
      lines: laps === undefined ? drawnLines : (traces) => drawnReach(traces, laps),
      labels,
      traces: whole,
    },
    layout.left,
    14,
  );
  if (laps === undefined) return { drawing: { width: FIGURE_WIDTH[size], height: run.bottom, parts: run.parts }, head: run.head, laps };
  const { from, to, steps } = laps.hottest;
  const lap = stripParts(
    {
      ids: ids.filter((id) => id !== 'busVoltage' && id !== 'charge'),
      height: layout.height,
      width,
      x: timeScale(to - from, layout.timeSteps),
      steps: steps.map((step) => ({ ...step, from: step.from - from, to: step.to - from })),
      columns: [],
      title: `time from the start of lap ${laps.hottest.number} of ${laps.count}, m:ss`,
      live: false,
      lines: drawnLines,
      // The lines are those above: their names stand there.
      labels: () => [],
      traces: (id) => tracesOf(result, looks, id, layout.height, laps.hottest),
    },
    layout.left,
    run.bottom + 26,
  );
  return {
    drawing: { width: FIGURE_WIDTH[size], height: lap.bottom, parts: [...run.parts, ...lap.parts] },
    head: { ...lap.head, numbered: [...run.head.numbered, ...lap.head.numbered] },
    laps,
  };
}

const drawnLines = (traces: readonly Trace[]): readonly Layer[] =>
  traces.map(({ look, points }, order) =>
    // The first broad, what lies on it thin: lines that coincide are both seen.
    curve(points, { stroke: look.colour, width: order === 0 && traces.length > 1 ? 2.2 : 1.3, dash: look.dash }),
  );

/** Laps as the band of what each reaches; what is driven before and after them as lines. */
const drawnReach = (traces: readonly Trace[], laps: Laps): readonly Layer[] =>
  traces.flatMap(({ look, points }) => {
    const { x, low, high } = envelope(points, laps);
    const edge = (values: readonly number[]): readonly DrawnPoint[] => values.map((y, index) => ({ x: x[index], y }));
    const thin = { stroke: look.colour, width: 0.9, dash: look.dash };
    const outside = [points.filter((point) => point.x <= laps.from), points.filter((point) => point.x >= laps.to)];
    return [
      band(x, low, high, look.colour, 0.1),
      ...[edge(low), edge(high), ...outside].filter((line) => line.length > 1).map((line) => curve(line, thin)),
    ];
  });

function stripParts(
  { ids, height, width, x, steps, columns, title, live, lines, labels, traces: tracesOfStrip }: Strips,
  left: number,
  top: number,
): { readonly parts: readonly Part[]; readonly head: StepHead; readonly bottom: number } {
  const parts: Part[] = [];
  let y = top;
  let head: StepHead = { height: 0, layers: [], numbered: [] };
  for (const [index, id] of ids.entries()) {
    const last = index === ids.length - 1;
    const traces = tracesOfStrip(id);
    const ends = labels(traces);
    const needed = ends.reduce((sum, label) => sum + endLabelHeight(label), 0);
    const frame: Frame = { width, height: Math.max(height, needed), x, y: stripScale(id, traces, height) };
    if (index === 0) head = stepHead(steps, frame);
    const rise = index === 0 ? head.height + 4 : 12;
    y += rise;
    const channel = CHANNELS[id];
    parts.push({
      x: left,
      y,
      ...(live ? { channel: id, title: -rise } : {}),
      spec: {
        panel: panel(
          frame,
          [
            stepColumns(columns, frame),
            words([{ x: -left, y: -rise, text: `${channel.words}, ${unitSign(channel.shown)}` }]),
            ...(index === 0 ? head.layers : []),
            ...lines(traces),
            ...endLabels(
              frame,
              ends.map((label) => ({ ...label, at: pixelY(frame, label.height) })),
            ),
            ...(last ? [words([{ x: width, y: frame.height + 38, text: title }], { fill: 'var(--soft)', align: 'right' })] : []),
          ],
          { xLabels: last },
        ),
      },
    });
    y += frame.height + (last ? 44 : 20);
  }
  return { parts, head, bottom: y };
}

/** Within a stretch, where one is given, with time from its start. */
function tracesOf(
  result: RunResult,
  looks: readonly Look[],
  id: ChannelId,
  height: number,
  stretch?: { readonly from: number; readonly to: number },
): readonly Trace[] {
  return result.candidates.flatMap(({ trace }, index) => {
    const within = stretch === undefined ? trace.time.map(() => true) : insideOf(trace.time, stretch);
    const start = stretch?.from ?? 0;
    const points = thinTrace(
      trace.time.filter((_, place) => within[place]).map((time) => time - start),
      trace[id].filter((_, place) => within[place]).map((value) => toUnit(value, CHANNELS[id].shown)),
      height,
    );
    return points.length < 2 ? [] : [{ look: looks[index], points, last: numberText(lastOf(trace[id]), brief(id)) }];
  });
}

/** Of two values at one time the later belongs to the start of a stretch, the earlier to its end. */
const insideOf = (times: readonly number[], { from, to }: { readonly from: number; readonly to: number }): readonly boolean[] =>
  times.map((time, index) => {
    if (Math.abs(time - from) < 1e-9) return !(Math.abs((times[index + 1] ?? Number.NaN) - from) < 1e-9);
    if (Math.abs(time - to) < 1e-9) return !(Math.abs((times[index - 1] ?? Number.NaN) - to) < 1e-9);
    return time > from && time < to;
  });

/** One digit less than a table: a line's end is read at a glance. */
const brief = (id: ChannelId) => {
  const printing = channelPrinting(id);
  return { ...printing, decimals: Math.max(0, printing.decimals - 1) };
};

interface SharedLabel extends Omit<EndLabel, 'at'> {
  /** Of the line's end, in data. */
  readonly height: number;
}

/** Candidates that print the same value share one label, in ink. */
function sharedLabels(traces: readonly Trace[], nameWidth: number): readonly SharedLabel[] {
  const groups = new Map<string, Trace[]>();
  for (const trace of traces) groups.set(trace.last, [...(groups.get(trace.last) ?? []), trace]);
  return [...groups].map(([value, members]) => {
    const all = members.length === traces.length && traces.length > 1;
    const names = all ? 'all' : members.map(({ look }) => look.name).join(', ');
    return {
      height: lastOf(members[0].points).y,
      colour: members.length === 1 ? members[0].look.colour : 'var(--ink)',
      name: wrapText(names, nameWidth, 12, 600),
      value,
      soft: [],
      room: nameWidth,
    };
  });
}

/** A low strip has room for two steps of its scale. */
const LOW = 50;

function stripScale(id: ChannelId, traces: readonly Trace[], height: number) {
  const values = traces.flatMap(({ points }) => points.map(({ y }) => y));
  const low = Math.min(...values);
  const high = Math.max(...values);
  const fromZero = id !== 'busVoltage' && id !== 'charge';
  if (id === 'throttle') return roundScale(Math.min(0, low), Math.max(100, high), 2);
  return roundScale(fromZero ? Math.min(0, low) : low, high, height < LOW ? 2 : 3);
}
