/** An SVG with concrete colours → PNG at twice its size, or less where that would be very large; letters in the fonts that come with the program. @module */

import { createRequire } from 'node:module';
import { Resvg } from '@resvg/resvg-js';

const SCALE = 2;
/** A picture takes 4 bytes a pixel, outside of what Node counts: one of 500 candidates would take a gigabyte, and end the process where there is none. */
const MOST_PIXELS = 64e6;
const HEADER = 33;

/** Throws Error for what is no SVG. */
export function pngOf(svg: string, version: string, mostPixels = MOST_PIXELS): Uint8Array {
  const { resolve } = createRequire(import.meta.url);
  const font = (face: string): string => resolve(`@expo-google-fonts/inter/${face}/Inter_${face}.ttf`);
  const image = new Resvg(svg, {
    fitTo: { mode: 'zoom', value: scaleOf(svg, mostPixels) },
    font: { fontFiles: [font('400Regular'), font('600SemiBold')], loadSystemFonts: false, defaultFontFamily: 'Inter' },
  });
  const png = image.render().asPng();
  // Behind the header, a word on who made it: by this a later run knows the file for its own.
  return Buffer.concat([png.subarray(0, HEADER), textChunk('Software', `shaftwork ${version}`), png.subarray(HEADER)]);
}

/** Pixels to a unit of the drawing [1]. */
function scaleOf(svg: string, mostPixels: number): number {
  const [, width, height] = /^<svg [^>]*\bwidth="([\d.]+)" height="([\d.]+)"/.exec(svg) ?? [];
  return Math.min(SCALE, Math.sqrt(mostPixels / (Number(width ?? 1) * Number(height ?? 1))));
}

/** A tEXt chunk (W3C, Portable Network Graphics, 3rd ed., 11.3.3.3). */
function textChunk(keyword: string, text: string): Buffer {
  const body = Buffer.from(`tEXt${keyword}\0${text}`, 'latin1');
  const chunk = Buffer.alloc(body.length + 8);
  chunk.writeUInt32BE(body.length - 4, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(cyclicRedundancy(body), body.length + 4);
  return chunk;
}

/** CRC-32 of ISO 3309, as annex D of the same standard gives it. */
function cyclicRedundancy(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return ~crc >>> 0;
}
