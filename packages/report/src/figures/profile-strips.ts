/** What was driven and what it took: six quantities on one time axis. */
import type { ChannelId, RunResult } from '@shaftwork/sim-core';
import { CHANNELS } from '@shaftwork/sim-core';
import { toUnit, unitSign } from '@shaftwork/sim-core/quantities';
import { channelPrinting, numberText } from '../page/numbers.js';
import type { Drawing, Part } from './draw.js';
import { FIGURE_WIDTH, type Size } from './figure.js';
import type { Look } from './palette.js';
import { curve, type Frame, panel, pixelY, words } from './panel.js';
import { roundScale, timeScale } from './round-ticks.js';
import { wrapText } from './text-width.js';
import { type DrawnPoint, thinTrace } from './thin-trace.js';
import { type EndLabel, endLabelHeight, endLabels, endLabelWidth, type StepHead, stepColumns, stepHead, timeTitle } from './time-panels.js';

const STRIPS = [
  'throttle',
  'vehicleSpeed',
  'motorCurrent',
  'batteryCurrent',
  'busVoltage',
  'charge',
] as const satisfies readonly ChannelId[];
const LAYOUT = {
  wide: { height: 66, left: 36, points: 500, name: 130, timeSteps: 8 },
  narrow: { height: 58, left: 34, points: 260, name: 88, timeSteps: 4 },
} as const;

/** A vehicle that is not there has no speed to show. */
export const stripChannels = ({ candidates }: RunResult): readonly ChannelId[] =>
  STRIPS.filter((id) => id !== 'vehicleSpeed' || candidates.some(({ trace }) => trace.vehicleSpeed.some((speed) => speed !== 0)));

interface Trace {
  readonly look: Look;
  readonly points: readonly DrawnPoint[];
  readonly last: string;
}

export function profileDrawing(
  result: RunResult,
  looks: readonly Look[],
  size: Size,
): { readonly drawing: Drawing; readonly head: StepHead } {
  const layout = LAYOUT[size];
  const strips = stripChannels(result).map((id) => {
    const traces = tracesOf(result, looks, id, layout.points);
    return { id, traces, labels: sharedLabels(traces, layout.name) };
  });
  const right = Math.ceil(Math.max(58, ...strips.flatMap(({ labels }) => labels.map((label) => endLabelWidth({ ...label, at: 0 })))) + 12);
  const width = FIGURE_WIDTH[size] - layout.left - right;
  const x = timeScale(result.scenario.duration, layout.timeSteps);
  const parts: Part[] = [];
  let y = 14;
  let head: StepHead = { height: 0, layers: [], numbered: [] };
  for (const [index, { id, traces, labels }] of strips.entries()) {
    const last = index === strips.length - 1;
    const needed = labels.reduce((sum, label) => sum + endLabelHeight({ ...label, at: 0 }), 0);
    const frame: Frame = { width, height: Math.max(layout.height, needed), x, y: stripScale(id, traces) };
    if (index === 0) head = stepHead(result, frame);
    const rise = index === 0 ? head.height + 4 : 12;
    y += rise;
    const channel = CHANNELS[id];
    parts.push({
      x: layout.left,
      y,
      channel: id,
      title: -rise,
      spec: {
        panel: panel(
          frame,
          [
            stepColumns(result, frame),
            words([{ x: -layout.left, y: -rise, text: `${channel.words}, ${unitSign(channel.shown)}` }]),
            ...(index === 0 ? head.layers : []),
            ...traces.map(({ look, points }, order) =>
              // The first broad, what lies on it thin: lines that coincide are both seen.
              curve(points, { stroke: look.colour, width: order === 0 && traces.length > 1 ? 2.2 : 1.3, dash: look.dash }),
            ),
            ...endLabels(
              frame,
              labels.map((label) => ({ ...label, at: pixelY(frame, label.value) })),
            ),
            ...(last
              ? [words([{ x: width, y: frame.height + 38, text: timeTitle(result) }], { fill: 'var(--soft)', align: 'right' })]
              : []),
          ],
          { xLabels: last },
        ),
      },
    });
    y += frame.height + (last ? 44 : 20);
  }
  return { drawing: { width: FIGURE_WIDTH[size], height: y, parts }, head };
}

function tracesOf(result: RunResult, looks: readonly Look[], id: ChannelId, most: number): readonly Trace[] {
  return result.candidates.flatMap(({ trace }, index) => {
    const points = thinTrace(
      trace.time,
      trace[id].map((value) => toUnit(value, CHANNELS[id].shown)),
      most,
    );
    return points.length < 2 ? [] : [{ look: looks[index]!, points, last: numberText(trace[id].at(-1)!, brief(id)) }];
  });
}

/** One digit less than a table: a line's end is read at a glance. */
const brief = (id: ChannelId) => {
  const printing = channelPrinting(id);
  return { ...printing, decimals: Math.max(0, printing.decimals - 1) };
};

interface SharedLabel extends Omit<EndLabel, 'at'> {
  readonly value: number;
}

/** Candidates that print the same value share one label, in ink. */
function sharedLabels(traces: readonly Trace[], nameWidth: number): readonly SharedLabel[] {
  const groups = new Map<string, Trace[]>();
  for (const trace of traces) groups.set(trace.last, [...(groups.get(trace.last) ?? []), trace]);
  return [...groups].map(([value, members]) => {
    const all = members.length === traces.length && traces.length > 1;
    const names = all ? 'all' : members.map(({ look }) => look.name).join(', ');
    return {
      value: members[0]!.points.at(-1)!.y,
      colour: members.length === 1 ? members[0]!.look.colour : 'var(--ink)',
      bold: wrapText(`${names} ${value}`, nameWidth, 12, 600),
      soft: [],
    };
  });
}

function stripScale(id: ChannelId, traces: readonly Trace[]) {
  const values = traces.flatMap(({ points }) => points.map(({ y }) => y));
  const low = Math.min(...values);
  const high = Math.max(...values);
  const fromZero = id !== 'busVoltage' && id !== 'charge';
  if (id === 'throttle') return roundScale(Math.min(0, low), Math.max(100, high), 2);
  return roundScale(fromZero ? Math.min(0, low) : low, high, 3);
}
