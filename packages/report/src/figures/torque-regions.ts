/**
 * What the torque figure forbids: hatched where heat does not let it last, named where pack or current limit give no more. In px.
 *
 * @module
 */
import { lastOf } from '@shaftwork/sim-core/problems';
import type { Frame, Words } from '../drawing/panel.js';
import { type Box, clearBox } from '../drawing/place-labels.js';
import { textWidth } from '../drawing/text-width.js';
import type { DrawnPoint } from '../drawing/thin-trace.js';

/** Distance of the hatch lines along the axis [px]. */
const APART = 9;

/** Height of a line at x; beyond its ends none. */
function heightAt(line: readonly DrawnPoint[], x: number): number {
  const next = line.findIndex((point) => point.x >= x);
  if (next < 1) return next === 0 && line[0].x === x ? line[0].y : Number.NaN;
  const [from, to] = [line[next - 1], line[next]];
  return to.x > from.x ? from.y + ((to.y - from.y) * (x - from.x)) / (to.x - from.x) : to.y;
}

/** Rising lines between the torque that heat allows for ever and the full-throttle line. */
export function hatching(forEver: readonly DrawnPoint[], top: readonly DrawnPoint[], { width, height }: Frame) {
  if (forEver.length < 2) return [];
  const columns = Array.from({ length: Math.floor(width) + 1 }, (_, x) => ({
    low: Math.min(height, heightAt(forEver, x)),
    high: Math.max(0, heightAt(top, x)),
  }));
  const within = (x: number, y: number): boolean => y < columns[x].low && y > columns[x].high;
  const lines: { x: number; y: number; x2: number; y2: number }[] = [];
  for (let start = -Math.floor(height); start < width; start += APART) {
    const last = Math.floor(Math.min(width, start + height));
    let from: number | undefined;
    for (let x = Math.max(0, start); x <= last + 1; x++) {
      const y = height - (x - start);
      const inside = x <= last && within(x, y);
      if (inside && from === undefined) from = x;
      if (!inside && from !== undefined) {
        if (x - 1 > from) lines.push({ x: from, y: height - (from - start), x2: x - 1, y2: height - (x - 1 - start) });
        from = undefined;
      }
    }
  }
  return lines;
}

/** "not for ever" in two short lines, just above what heat allows, between two lines of throttle. */
export function hatchedPlace(
  forEver: readonly DrawnPoint[],
  lines: readonly (readonly DrawnPoint[])[],
  taken: Box[],
  { height }: Frame,
): readonly Words[] | undefined {
  const texts = ['not for', 'ever'];
  const width = Math.max(...texts.map((text) => textWidth(text)));
  if (forEver.length < 2) return undefined;
  const places = Array.from({ length: Math.floor(lastOf(forEver).x / 4) }, (_, index) => index * 4).flatMap((x) =>
    [34, 48, 62].map((rise) => ({ x: x + 2, y: Math.min(height, heightAt(forEver, x)) - rise, width, height: 28 })),
  );
  const box = clearBox(
    places.filter(({ y }) => y > 2),
    lines,
    taken,
  );
  if (box === undefined) return undefined;
  taken.push(box);
  return texts.map((text, line) => ({ x: box.x + width / 2, y: box.y + 11 + line * 13, text }));
}

/** "beyond the pack" in the upper right corner, where the full-throttle line leaves room. */
export function beyondPlace(
  top: readonly DrawnPoint[],
  lines: readonly (readonly DrawnPoint[])[],
  taken: readonly Box[],
  { width }: Frame,
): readonly Words[] | undefined {
  const texts = ['beyond the pack', 'or its limits'];
  const wide = Math.max(...texts.map((text) => textWidth(text)));
  const box = clearBox([{ x: width - wide - 4, y: 2, width: wide, height: 30 }], lines, taken);
  const foot = box === undefined ? Number.NaN : heightAt(top, box.x);
  // Right of the line, or where the line lies beneath.
  if (box === undefined || foot < box.y + box.height) return undefined;
  return texts.map((text, line) => ({ x: width - 4, y: box.y + 11 + line * 14, text }));
}
