/**
 * One panel of a figure: common scales, quiet axes, and layers that say where they stand in data or in px. What it looks like stands in panel-specification.
 *
 * @module
 */

import type { Scale } from './round-ticks.js';
import type { DrawnPoint } from './thin-trace.js';

/** The kinds of mark, in the order in which they are laid over one another. */
export const MARKS = ['areas', 'shapes', 'strokes', 'curves', 'rules', 'dots', 'words'] as const;
export type Mark = (typeof MARKS)[number];
export type Row = Readonly<Record<string, number | string | readonly number[] | undefined>>;

export interface Layer {
  readonly mark: Mark;
  readonly rows: readonly Row[];
}

export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly x: Scale;
  readonly y: Scale;
}

export interface Panel {
  readonly frame: Frame;
  readonly layers: readonly Layer[];
  readonly xLabels: boolean;
  readonly axes: boolean;
}

export const pixelX = ({ width, x: { domain } }: Frame, value: number): number => ((value - domain[0]) / (domain[1] - domain[0])) * width;
export const pixelY = ({ height, y: { domain } }: Frame, value: number): number =>
  height - ((value - domain[0]) / (domain[1] - domain[0])) * height;
export const inPixels = (frame: Frame, points: readonly DrawnPoint[]): readonly DrawnPoint[] =>
  points.map(({ x, y }) => ({ x: pixelX(frame, x), y: pixelY(frame, y) }));

export const panel = (
  frame: Frame,
  layers: readonly Layer[],
  { xLabels = true, axes = true }: { readonly xLabels?: boolean; readonly axes?: boolean } = {},
): Panel => ({ frame, layers, xLabels, axes });

interface Corners {
  readonly x: number;
  readonly y: number;
  readonly x2: number;
  readonly y2: number;
}

/** Upright or lying strips, corner to corner, in data. */
export const areas = (rows: readonly Corners[], fill: string): Layer => ({ mark: 'areas', rows: rows.map((row) => ({ ...row, fill })) });

export const rules = (
  rows: readonly Corners[],
  { stroke = 'var(--ink)', width = 1 }: { readonly stroke?: string; readonly width?: number } = {},
): Layer => ({ mark: 'rules', rows: rows.map((row) => ({ ...row, stroke, width })) });

export interface Stroke {
  readonly stroke: string;
  readonly width: number;
  readonly dash?: readonly number[];
}

/** A line through points in their order, whatever their x: a trace may jump. */
export const curve = (points: readonly DrawnPoint[], { stroke, width, dash = [] }: Stroke): Layer => ({
  mark: 'curves',
  // What it looks like is read from its first point.
  rows: points.map(({ x, y }, index) => (index === 0 ? { x, y, stroke, width, dash } : { x, y })),
});

/** A closed outline filled: a band, a region. */
export const shape = (points: readonly DrawnPoint[], fill: string, opacity = 1): Layer => ({
  mark: 'shapes',
  rows: points.map(({ x, y }, index) => (index === 0 ? { x, y, fill, opacity } : { x, y })),
});

/** The band between two edges on one grid. */
export const band = (x: readonly number[], low: readonly number[], high: readonly number[], fill: string, opacity: number): Layer => {
  const edge = (values: readonly number[]): DrawnPoint[] => values.flatMap((y, index) => (Number.isFinite(y) ? [{ x: x[index], y }] : []));
  return shape([...edge(high), ...edge(low).reverse()], fill, opacity);
};

/** Dots ringed in paper, or hollow ones; `rim` is the width of that ring. */
export const dots = (
  points: readonly DrawnPoint[],
  colour: string,
  {
    hollow = false,
    size = 36,
    rim = hollow ? 1.5 : 1.2,
  }: { readonly hollow?: boolean; readonly size?: number; readonly rim?: number } = {},
): Layer => ({
  mark: 'dots',
  rows: points.map(({ x, y }) => ({
    x,
    y,
    size,
    fill: hollow ? 'var(--paper)' : colour,
    stroke: hollow ? colour : 'var(--paper)',
    width: rim,
  })),
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

/** Words at places in px from the frame's upper left corner; y is the base line. */
export const words = (
  rows: readonly Words[],
  { fill = 'var(--ink)', size = 12, weight = 400, align = 'left', halo = false }: Lettering = {},
): Layer => ({
  mark: 'words',
  rows: rows.map(({ x, y, text }) => ({ x, y, text, fill, size, weight, align, halo: halo ? 3.5 : 0 })),
});

/** Lines at places in px: brackets, leaders. */
export const strokes = (
  rows: readonly Corners[],
  { stroke = 'var(--hair)', width = 1 }: { readonly stroke?: string; readonly width?: number } = {},
): Layer => ({ mark: 'strokes', rows: rows.map((row) => ({ ...row, stroke, width })) });
