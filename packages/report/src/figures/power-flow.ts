/** Where the power goes at one moment, from the cells to what moves the vehicle; on a narrow screen the flow runs downwards. @module */

import { type CandidateResult, POWER_TERM_IDS, type PowerTerm } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import { atBattery, inflow, type Outflow, outflows, percentText, wattText } from '@shaftwork/sim-core/words';
import type { Spec } from 'vega';
import type { Drawing } from '../drawing/draw.js';
import { FIGURE_WIDTH, type Size } from '../drawing/figure.js';
import { type Band, flowBands, spaced } from '../drawing/flow-bands.js';
import type { Look } from '../drawing/palette.js';
import { textWidth, wrapText } from '../drawing/text-width.js';

interface Words {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly weight?: number;
  readonly fill?: string;
  readonly align?: 'left' | 'center' | 'right';
}

interface Stroke {
  readonly path: string;
  readonly stroke: string;
}

const LINE = 14;
const SOFT = 'var(--soft)';
const NAME_WIDTH = 76;

export const powerFlowDrawing = (candidate: CandidateResult, look: Look, size: Size): Drawing =>
  size === 'wide' ? lying(candidate, look) : upright(candidate, look);

const lines = (text: string, most: number): readonly string[] => wrapText(text, most, 12, 600);

/** From left to right, losses leaving downwards, names beneath, what can be measured above. */
function lying({ moment }: CandidateResult, look: Look): Drawing {
  const { power } = moment;
  const width = FIGURE_WIDTH.wide;
  const total = inflow(power);
  const losses = outflows(power);
  const [top, thickness, radius, start, end, tip] = [46, 168, 14, 118, width - 120, 16];
  const stop = thickness + radius + 30;
  const needs = losses.map(({ words, power: loss }) =>
    Math.max(...lines(words, NAME_WIDTH).map((line) => textWidth(line, 12, 600) + 12), 56, (loss / total) * thickness + 16),
  );
  const outlets = spaced(needs, start + 8, end - start - 16);
  const place = (u: number, v: number): string => `${u},${top + v}`;
  const bands = flowBands(power.useful, losses, total, look.colour, {
    thickness,
    radius,
    start,
    end,
    outlets,
    stop,
    tip,
    place,
    upright: false,
  });
  const names = losses.flatMap(({ words, power: loss }, index): readonly Words[] => {
    const name = lines(words, NAME_WIDTH);
    const base = top + stop + 24;
    const under = base + name.length * LINE;
    const at = { x: outlets[index], align: 'center' } as const;
    return [
      ...name.map((text, line) => ({ ...at, y: base + line * LINE, text, weight: 600 })),
      { ...at, y: under, text: wattText(loss) },
      { ...at, y: under + LINE, text: percentText(loss / total), fill: SOFT },
    ];
  });
  const middle = top + thickness / 2;
  const source: readonly Words[] = [
    { x: start - 12, y: middle - 8, text: 'from the cells', weight: 600, align: 'right' },
    { x: start - 12, y: middle + 6, text: `${wattText(total)} · 100\u202f%`, align: 'right' },
  ];
  const x = end + tip + 8;
  const useful = lines('moves the vehicle', width - x);
  const beside = top + (power.useful / total) * (thickness / 2) - 5;
  const goal: readonly Words[] = [
    ...useful.map((text, line) => ({ x, y: beside + (line - useful.length + 1) * LINE, text, weight: 600 })),
    { x, y: beside + LINE, text: wattText(power.useful) },
    { x, y: beside + 2 * LINE, text: percentText(power.useful / total), fill: SOFT },
  ];
  const stations = stationsOf(losses, outlets, radius, moment);
  const above = stations.flatMap(({ u, words, power: passing }): readonly Words[] => [
    { x: u, y: top - 26, text: words, fill: SOFT, align: 'center' },
    { x: u, y: top - 12, text: wattText(passing), align: 'center' },
  ]);
  const marks = stations.flatMap(({ u }): readonly Stroke[] => [
    { path: `M${u},${top}V${top + thickness}`, stroke: 'var(--paper)' },
    { path: `M${u},${top - 8}V${top - 2}`, stroke: 'var(--hair)' },
  ]);
  const tallest = Math.max(2, ...losses.map(({ words }) => lines(words, NAME_WIDTH).length));
  const height = top + stop + 34 + (tallest + 1) * LINE;
  return drawing(width, height, bands, marks, [...names, ...source, ...(power.useful > 0 ? goal : []), ...above]);
}

/** From top to bottom, losses leaving to the right with their names behind them. */
function upright({ moment: { power } }: CandidateResult, look: Look): Drawing {
  const width = FIGURE_WIDTH.narrow;
  const total = inflow(power);
  const losses = outflows(power);
  const [thickness, radius, start, tip] = [110, 10, 42, 14];
  const stop = thickness + radius + 42;
  const needs = losses.map(({ power: loss }) => Math.max(46, (loss / total) * thickness + 22));
  const room = needs.reduce((sum, need) => sum + need, 0);
  const outlets = spaced(needs, start + 20, room);
  const end = start + room + 62;
  const place = (u: number, v: number): string => `${v},${u}`;
  const bands = flowBands(power.useful, losses, total, look.colour, {
    thickness,
    radius,
    start,
    end,
    outlets,
    stop,
    tip,
    place,
    upright: true,
  });
  const x = stop + 16;
  const names = losses.flatMap(({ words, power: loss }, index): readonly Words[] => {
    const name = lines(words, width - x);
    const y = outlets[index];
    return [
      ...name.map((text, line) => ({ x, y: y - 3 + (line - name.length + 1) * LINE, text, weight: 600 })),
      { x, y: y + 11, text: `${wattText(loss)} · ${percentText(loss / total)}` },
    ];
  });
  const source: readonly Words[] = [
    { x: 0, y: start - 26, text: 'from the cells', weight: 600 },
    { x: 0, y: start - 12, text: `${wattText(total)} · 100\u202f%` },
  ];
  const goal: readonly Words[] = [
    { x: 0, y: end + tip + 18, text: 'moves the vehicle', weight: 600 },
    { x: 0, y: end + tip + 32, text: `${wattText(power.useful)} · ${percentText(power.useful / total)}` },
  ];
  const moves = power.useful > 0;
  return drawing(width, moves ? end + tip + 40 : end - 20, bands, [], [...names, ...source, ...(moves ? goal : [])]);
}

function drawing(width: number, height: number, bands: readonly Band[], strokes: readonly Stroke[], words: readonly Words[]): Drawing {
  const vega: Spec = {
    width,
    height,
    padding: 0,
    autosize: 'none',
    config: { aria: false } as NonNullable<Spec['config']>,
    data: [
      { name: 'bands', values: [...bands] },
      { name: 'strokes', values: [...strokes] },
      { name: 'words', values: words.map((one) => ({ weight: 400, fill: 'var(--ink)', align: 'left', ...one })) },
    ],
    marks: [
      {
        type: 'path',
        from: { data: 'bands' },
        encode: {
          enter: { path: { field: 'path' }, fill: { field: 'fill' }, stroke: { value: 'var(--paper)' }, strokeWidth: { field: 'edge' } },
        },
      },
      {
        type: 'path',
        from: { data: 'strokes' },
        encode: { enter: { path: { field: 'path' }, stroke: { field: 'stroke' }, strokeWidth: { value: 1.3 } } },
      },
      {
        type: 'text',
        from: { data: 'words' },
        encode: {
          enter: {
            x: { field: 'x' },
            y: { field: 'y' },
            text: { field: 'text' },
            fill: { field: 'fill' },
            align: { field: 'align' },
            fontSize: { value: 12 },
            fontWeight: { field: 'weight' },
          },
        },
      },
    ],
  };
  return { width, height, parts: [{ x: 0, y: 0, spec: { vega } }] };
}

interface Station {
  readonly u: number;
  readonly words: string;
  readonly power: number;
}

/** What passes at the places that can be measured, between the last loss before and the first behind. */
function stationsOf(
  losses: readonly Outflow[],
  outlets: readonly number[],
  radius: number,
  { power: account, channels }: CandidateResult['moment'],
): readonly Station[] {
  const order = (term: PowerTerm): number => POWER_TERM_IDS.indexOf(term);
  const wanted = [
    { words: 'at the battery', power: atBattery(account), behind: 'batteryLoss' },
    { words: 'into the motor', power: channels.inputPower, behind: 'controllerSwitching' },
    { words: 'at the motor shaft', power: channels.shaftPower, behind: 'frictionLoss' },
  ] as const;
  let free = Number.NEGATIVE_INFINITY;
  return wanted.flatMap(({ words, power, behind }) => {
    const last = losses.findLastIndex(({ terms }) => order(lastOf(terms)) <= order(behind));
    const next = last + 1;
    if (last < 0 || next >= losses.length || !Number.isFinite(power)) return [];
    const u = (outlets[last] + outlets[next]) / 2 - radius;
    const half = textWidth(words) / 2 + 6;
    if (u - half < free) return [];
    free = u + half;
    return [{ u, words, power }];
  });
}
