/** Panels of equal size beside one another, one a candidate, as many to a row as have room. @module */

import { FIGURE_WIDTH, type Size } from './figure.js';

export interface PanelRow {
  readonly width: number;
  readonly place: (index: number) => { readonly x: number; readonly y: number; readonly first: boolean };
  readonly height: (count: number) => number;
}

const GUTTER = 30;
/** Beside one another; five stand as three and two. */
const MOST = 4;

/** `left` is the room of the axis before the first of a row, `head` and `foot` that above and under each frame [px]. */
export function panelRow(count: number, size: Size, frameHeight: number, left: number, head: number, foot: number): PanelRow {
  const columns = size === 'narrow' ? 1 : Math.ceil(count / Math.ceil(count / MOST));
  const room = FIGURE_WIDTH[size] - left - 20;
  const width = Math.min(size === 'narrow' ? room : 480, Math.floor((room - GUTTER * (columns - 1)) / columns));
  const tall = head + frameHeight + foot;
  return {
    width,
    place: (index) => ({
      x: left + (index % columns) * (width + GUTTER),
      y: head + Math.floor(index / columns) * tall,
      first: index % columns === 0,
    }),
    height: (number) => Math.ceil(number / columns) * tall,
  };
}
