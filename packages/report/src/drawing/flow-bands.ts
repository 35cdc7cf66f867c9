/**
 * Bands of a flow: what is useful runs straight on, each loss turns off at its place, widths to scale.
 * Laid out along `u` (with the flow) and `v` (across); a drawing says how these fall on the paper.
 *
 * @module
 */

import type { Outflow } from '@shaftwork/sim-core/words';

export interface FlowLayout {
  /** Width of the whole flow [px]. */
  readonly thickness: number;
  /** Inner radius of the bends. */
  readonly radius: number;
  /** Where the flow begins and where its useful part ends, along u. */
  readonly start: number;
  readonly end: number;
  /** Places along u where the losses leave, and the v where they end. */
  readonly outlets: readonly number[];
  readonly stop: number;
  /** Length of the arrow's tip. */
  readonly tip: number;
  /** (u, v) on the paper; when u runs downwards instead of to the right, bends turn the other way. */
  readonly place: (u: number, v: number) => string;
  readonly upright: boolean;
}

export interface Band {
  readonly path: string;
  readonly fill: string;
  /** Width of the rim in paper colour that keeps bands of one colour apart. */
  readonly edge: number;
}

const THINNEST_WITH_RIM = 3;
const LONGEST_POINT = 9;

/** Useful first (v = 0), then the losses, the last to leave first, so that the first to leave lies outermost. */
export function flowBands(useful: number, losses: readonly Outflow[], total: number, colour: string, layout: FlowLayout): readonly Band[] {
  const { thickness, radius, start, end, outlets, stop, tip, place, upright } = layout;
  const scale = thickness / total;
  const arc = (size: number, clockwise: boolean, u: number, v: number): string =>
    `A${size},${size},0,0,${clockwise === upright ? 0 : 1},${place(u, v)}`;
  const to = (u: number, v: number): string => `L${place(u, v)}`;
  let outer = (useful + losses.reduce((sum, { power }) => sum + power, 0)) * scale;
  const bands: Band[] = losses.map(({ power, heatsMotor }, index) => {
    const width = power * scale;
    const inner = outer - width;
    const near = outlets[index] - width / 2;
    const far = near + width;
    const turn = near - radius;
    const path =
      `M${place(start, inner)}${to(turn, inner)}${arc(radius + width, true, far, inner + radius + width)}${to(far, stop)}` +
      `${to(near + width / 2, stop + Math.min(LONGEST_POINT, width / 2))}${to(near, stop)}${to(near, outer + radius)}` +
      `${arc(radius, false, turn, outer)}${to(start, outer)}Z`;
    outer = inner;
    return { path, fill: heatsMotor ? 'var(--loss-motor)' : 'var(--loss)', edge: width > THINNEST_WITH_RIM ? 0.75 : 0 };
  });
  const width = useful * scale;
  if (width > 0) {
    const path = `M${place(start, 0)}${to(end, 0)}${to(end + tip, width / 2)}${to(end, width)}${to(start, width)}Z`;
    bands.push({ path, fill: colour, edge: 0 });
  }
  return bands;
}

/** Centres of intervals of the asked lengths one after another, stretched to the room. */
export function spaced(lengths: readonly number[], from: number, room: number): readonly number[] {
  const stretch = room / lengths.reduce((sum, length) => sum + length, 0);
  let place = from;
  return lengths.map((length) => {
    const centre = place + (length * stretch) / 2;
    place += length * stretch;
    return centre;
  });
}
