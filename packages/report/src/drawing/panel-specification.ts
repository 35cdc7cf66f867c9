/**
 * The look of every panel, as one vega-lite specification: scales, axes and a layer for each kind of mark. Data, domains and
 * ticks are left open (named data, parameters), so that it is compiled once and then drawn with the rows of each panel.
 *
 * @module
 */

import type { TopLevelSpec } from 'vega-lite';

const of = (field: string) => ({ expr: `datum.${field}` }) as const;
const ends = { x2: { field: 'x2' }, y2: { field: 'y2' } } as const;
const inPlace = (field: string) => ({ field, type: 'quantitative', scale: null, axis: null }) as const;
const inPixels = { x: inPlace('x'), y: inPlace('y') } as const;
/** Labels are looked up, so that the text of a tick is made in one place. */
const looked = (axis: 'x' | 'y') => `${axis}Labels[indexof(${axis}Ticks, datum.value)]`;
const LABELS = { labelColor: 'var(--soft)', labelFontSize: 12, labelLimit: 0, labelOverlap: false, title: null } as const;

export const panelSpecification = ({ xLabels, axes }: { readonly xLabels: boolean; readonly axes: boolean }): TopLevelSpec => ({
  width: 100,
  height: 100,
  padding: 0,
  autosize: { type: 'none' },
  background: 'transparent',
  config: { aria: false, view: { stroke: null, fill: null }, axis: { labelBound: false } },
  params: ['x0', 'x1', 'y0', 'y1', 'xTicks', 'yTicks', 'xLabels', 'yLabels'].map((name) => ({ name, value: name.length > 2 ? [] : 0 })),
  encoding: {
    x: {
      field: 'x',
      type: 'quantitative',
      scale: { domain: [{ expr: 'x0' }, { expr: 'x1' }], nice: false, zero: false },
      axis: {
        ...LABELS,
        values: { expr: 'xTicks' },
        labelExpr: looked('x'),
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
      scale: { domain: [{ expr: 'y0' }, { expr: 'y1' }], nice: false, zero: false },
      axis: {
        ...LABELS,
        values: { expr: 'yTicks' },
        labelExpr: looked('y'),
        labelPadding: 8,
        gridColor: 'var(--grid)',
        gridWidth: 0.75,
        domain: false,
        ticks: false,
      },
    },
  },
  layer: [
    { data: { name: 'areas' }, mark: { type: 'rect', clip: true, fill: of('fill') }, encoding: ends },
    {
      data: { name: 'shapes' },
      // Points stay in their order, whatever their x.
      mark: { type: 'line', order: false, clip: true, stroke: null, fill: of('fill'), fillOpacity: of('opacity') },
      encoding: { detail: { field: 'of' } },
    },
    {
      data: { name: 'strokes' },
      mark: { type: 'rule', stroke: of('stroke'), strokeWidth: of('width') },
      encoding: { ...inPixels, ...ends },
    },
    {
      data: { name: 'curves' },
      mark: {
        type: 'line',
        order: false,
        clip: true,
        strokeJoin: 'round',
        stroke: of('stroke'),
        strokeWidth: of('width'),
        strokeDash: of('dash'),
      },
      encoding: { detail: { field: 'of' } },
    },
    { data: { name: 'rules' }, mark: { type: 'rule', stroke: of('stroke'), strokeWidth: of('width') }, encoding: ends },
    {
      data: { name: 'dots' },
      mark: {
        type: 'point',
        shape: 'circle',
        opacity: 1,
        size: of('size'),
        fill: of('fill'),
        stroke: of('stroke'),
        strokeWidth: of('width'),
      },
    },
    {
      data: { name: 'words' },
      mark: {
        type: 'text',
        baseline: 'alphabetic',
        fill: of('fill'),
        fontSize: of('size'),
        fontWeight: of('weight'),
        align: of('align'),
        stroke: { expr: "datum.halo > 0 ? 'var(--paper)' : null" },
        strokeWidth: of('halo'),
      },
      encoding: { ...inPixels, text: { field: 'text', type: 'nominal' } },
    },
  ],
});
