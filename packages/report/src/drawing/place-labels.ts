/** Where labels go: apart from one another, and where they cover no line. Lengths in px. @module */

import type { DrawnPoint } from './thin-trace.js';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Tops of labels that would like to be centred at `wanted`, moved as little as needed so that none overlaps and all lie
 * between `top` and `bottom` (when there is room). Labels keep their order.
 */
export function spreadApart(
  labels: readonly { readonly wanted: number; readonly height: number }[],
  top: number,
  bottom: number,
): readonly number[] {
  const order = labels.map((_, index) => index).sort((a, b) => labels[a].wanted - labels[b].wanted || a - b);
  // Neighbours that would overlap are joined into a block that sits at the mean of its wishes.
  interface Block {
    members: number[];
    height: number;
    wish: number;
    top: number;
  }
  const blocks: Block[] = [];
  const settle = (block: Block): void => {
    block.top = Math.max(top, Math.min(block.wish / block.members.length, bottom - block.height));
  };
  for (const index of order) {
    const { wanted, height } = labels[index];
    const block: Block = { members: [index], height, wish: wanted - height / 2, top: 0 };
    settle(block);
    blocks.push(block);
    while (blocks.length > 1) {
      const [upper, lower] = blocks.slice(-2);
      if (upper.top + upper.height <= lower.top + 1e-9) break;
      upper.wish += lower.wish - lower.members.length * upper.height;
      upper.members.push(...lower.members);
      upper.height += lower.height;
      settle(upper);
      blocks.pop();
    }
  }
  const tops = new Array<number>(labels.length);
  for (const block of blocks) {
    let place = block.top;
    for (const member of block.members) {
      tops[member] = place;
      place += labels[member].height;
    }
  }
  return tops;
}

export const overlap = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Does the segment touch the box? (Clipping of the segment's parameter against the four sides.) */
export function touches(box: Box, from: DrawnPoint, to: DrawnPoint): boolean {
  let enter = 0;
  let leave = 1;
  for (const [start, along, low, high] of [
    [from.x, to.x - from.x, box.x, box.x + box.width],
    [from.y, to.y - from.y, box.y, box.y + box.height],
  ] as const) {
    if (along === 0) {
      if (start < low || start > high) return false;
      continue;
    }
    const one = (low - start) / along;
    const other = (high - start) / along;
    enter = Math.max(enter, Math.min(one, other));
    leave = Math.min(leave, Math.max(one, other));
  }
  return enter <= leave;
}

/** The first of the boxes that covers no line and no other label; undefined when there is none. */
export function clearBox(boxes: readonly Box[], lines: readonly (readonly DrawnPoint[])[], taken: readonly Box[]): Box | undefined {
  return boxes.find(
    (box) =>
      !taken.some((other) => overlap(box, other)) &&
      !lines.some((line) => line.some((point, index) => index > 0 && touches(box, line[index - 1], point))),
  );
}
