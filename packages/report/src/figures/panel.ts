/** One panel of a figure as a layered specification: common scales, quiet axes, and layers that say where they stand in data or in px. */
import type { TopLevelSpec } from 'vega-lite';
import type { Scale } from './round-ticks.js';
import type { DrawnPoint } from './thin-trace.js';

export type Layer = Extract<TopLevelSpec, { layer: unknown }>['layer'][number];

export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly x: Scale;
  readonly y: Scale;
}

export const pixelX = ({ width, x: { domain } }: Frame, value: number): number => ((value - domain[0]) / (domain[1] - domain[0])) * width;
export const pixelY = ({ height, y: { domain } }: Frame, value: number): number =>
  height - ((value - domain[0]) / (domain[1] - domain[0])) * height;
export const inPixels = (frame: Frame, points: readonly DrawnPoint[]): readonly DrawnPoint[] =>
  points.map(({ x, y }) => ({ x: pixelX(frame, x), y: pixelY(frame, y) }));

/** Labels are looked up, so that the text of a tick is made in one place. */
const labelExpression = ({ ticks, label }: Scale): string =>
  `${JSON.stringify(ticks.map(label))}[indexof(${JSON.stringify(ticks)}, datum.value)]`;

export function panel(
  frame: Frame,
  layers: readonly Layer[],
  show: { readonly xLabels?: boolean; readonly axes?: boolean } = {},
): TopLevelSpec {
  const { width, height, x, y } = frame;
  const { xLabels = true, axes = true } = show;
  const labels = { labelColor: 'var(--soft)', labelFontSize: 12, labelLimit: 0, labelOverlap: false, title: null } as const;
  return {
    width,
    height,
    padding: 0,
    autosize: { type: 'none' },
    background: 'transparent',
    config: { aria: false, view: { stroke: null, fill: null }, axis: { labelBound: false } },
    encoding: {
      x: {
        field: 'x',
        type: 'quantitative',
        scale: { domain: [...x.domain], nice: false, zero: false },
        axis: {
          ...labels,
          values: [...x.ticks],
          labelExpr: labelExpression(x),
          labels: xLabels,
          labelFlush: false,
          labelPadding: 5,
          grid: false,
          domain: axes && xLabels,
          domainColor: 'var(--soft)',
          tickColor: 'var(--soft)',
          tickSize: xLabels ? 4 : 0,
        },
      },
      y: {
        field: 'y',
        type: 'quantitative',
        scale: { domain: [...y.domain], nice: false, zero: false },
        axis: {
          ...labels,
          values: [...y.ticks],
          labelExpr: labelExpression(y),
          labelPadding: 8,
          gridColor: 'var(--grid)',
          gridWidth: 0.75,
          domain: false,
          ticks: false,
        },
      },
    },
    layer: [...layers],
  };
}

type Rows = readonly Readonly<Record<string, number | string>>[];
const values = (rows: Rows) => ({ data: { values: [...rows] } });

/** Upright or lying strips, corner to corner. */
export const areas = (rows: readonly { x: number; x2: number; y: number; y2: number }[], fill: string): Layer => ({
  ...values(rows),
  mark: { type: 'rect', fill, clip: true },
  encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
});

export const rules = (
  rows: readonly { x: number; y: number; x2: number; y2: number }[],
  { stroke = 'var(--ink)', width = 1 }: { readonly stroke?: string; readonly width?: number } = {},
): Layer => ({
  ...values(rows),
  mark: { type: 'rule', stroke, strokeWidth: width },
  encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
});

export interface Stroke {
  readonly stroke: string;
  readonly width: number;
  readonly dash?: readonly number[];
}

export const curve = (points: readonly DrawnPoint[], { stroke, width, dash = [] }: Stroke): Layer => ({
  ...values(points.map(({ x, y }) => ({ x, y }))),
  mark: {
    type: 'line',
    clip: true,
    stroke,
    strokeWidth: width,
    strokeJoin: 'round',
    ...(dash.length > 0 ? { strokeDash: [...dash] } : {}),
  },
  // A trace may jump: points stay in their order, whatever their x.
  encoding: { order: { value: 0 } },
});

/** Dots ringed in paper, or hollow ones. */
export const dots = (points: readonly DrawnPoint[], colour: string, { hollow = false, size = 36 } = {}): Layer => ({
  ...values(points.map(({ x, y }) => ({ x, y }))),
  mark: {
    type: 'point',
    shape: 'circle',
    size,
    fill: hollow ? 'var(--paper)' : colour,
    stroke: hollow ? colour : 'var(--paper)',
    strokeWidth: hollow ? 1.5 : 1.2,
    opacity: 1,
  },
});

export interface Words {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

export interface Lettering {
  readonly fill?: string;
  readonly size?: number;
  readonly weight?: number;
  readonly align?: 'left' | 'center' | 'right';
  /** A rim in paper colour, where words must stand on a line. */
  readonly halo?: boolean;
}

const inPlace = (field: string) => ({ field, type: 'quantitative', scale: null, axis: null }) as const;

/** Words at places in px from the frame's upper left corner; y is the base line. */
export const words = (
  rows: readonly Words[],
  { fill = 'var(--ink)', size = 12, weight = 400, align = 'left', halo = false }: Lettering = {},
): Layer => ({
  ...values(rows.map(({ x, y, text }) => ({ x, y, text }))),
  mark: {
    type: 'text',
    fill,
    fontSize: size,
    align,
    baseline: 'alphabetic',
    ...(weight === 400 ? {} : { fontWeight: weight as 600 }),
    ...(halo ? { stroke: 'var(--paper)', strokeWidth: 3.5 } : {}),
  },
  encoding: { x: inPlace('x'), y: inPlace('y'), text: { field: 'text', type: 'nominal' } },
});

/** Lines at places in px: brackets, leaders. */
export const strokes = (
  rows: readonly { x: number; y: number; x2: number; y2: number }[],
  { stroke = 'var(--hair)', width = 1 }: { readonly stroke?: string; readonly width?: number } = {},
): Layer => ({
  ...values(rows),
  mark: { type: 'rule', stroke, strokeWidth: width },
  encoding: { x: inPlace('x'), y: inPlace('y'), x2: { field: 'x2' }, y2: { field: 'y2' } },
});
