/** An open file or pipe, read to its end. @module */

import { readSync } from 'node:fs';

const PIECE = 65_536;

/** All that comes through an open file, up to `most` bytes; throws Error beyond, and what the system says. A pipe that is not ready yet is asked again. */
export function readAll(file: number, most: number): Buffer {
  const pieces: Buffer[] = [];
  let total = 0;
  const wait = new Int32Array(new SharedArrayBuffer(4));
  for (;;) {
    const piece = Buffer.alloc(PIECE);
    let length: number;
    try {
      length = readSync(file, piece, 0, PIECE, null);
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === 'EOF') break;
      if (code !== 'EAGAIN') throw error;
      Atomics.wait(wait, 0, 0, 10);
      continue;
    }
    if (length === 0) break;
    total += length;
    if (total > most) throw new Error(`it is longer than ${most / 1024 / 1024} MB`);
    pieces.push(piece.subarray(0, length));
  }
  return Buffer.concat(pieces);
}
