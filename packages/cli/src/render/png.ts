/** An SVG with concrete colours → PNG at twice its size, letters set in the fonts that come with the program. @module */

import { createRequire } from 'node:module';
import { Resvg } from '@resvg/resvg-js';

const SCALE = 2;
const HEADER = 33;

export function pngOf(svg: string, version: string): Uint8Array {
  const { resolve } = createRequire(import.meta.url);
  const font = (face: string): string => resolve(`@expo-google-fonts/inter/${face}/Inter_${face}.ttf`);
  const image = new Resvg(svg, {
    fitTo: { mode: 'zoom', value: SCALE },
    font: { fontFiles: [font('400Regular'), font('600SemiBold')], loadSystemFonts: false, defaultFontFamily: 'Inter' },
  });
  const png = image.render().asPng();
  // Behind the header, a word on who made it: by this a later run knows the file for its own.
  return Buffer.concat([png.subarray(0, HEADER), textChunk('Software', `shaftwork ${version}`), png.subarray(HEADER)]);
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
