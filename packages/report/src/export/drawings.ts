/** The drawings of a report as files of their own: colours and letters that do not need the page. @module */

import type { RunResult } from '@shaftwork/sim-core';
import { textWidth, wrapText } from '../drawing/text-width.js';
import { escapeHtml } from '../html/html.js';
import { LIGHT_COLOURS } from '../page/styles.js';

const FONT = 'Inter, "Helvetica Neue", Arial, "Liberation Sans", sans-serif'.replaceAll('"', "'");
const MARK = '<!-- shaftwork figure -->';

/** Colours of attributes by their values; letters with their rims under them. */
export const concrete = (svg: string): string =>
  svg
    .replace(/="var\(--([a-z0-9-]+)\)"/g, (whole, name: string) =>
      Object.hasOwn(LIGHT_COLOURS, name) ? `="${LIGHT_COLOURS[name]}"` : whole,
    )
    .replace(/<text(?=[^>]* stroke=)/g, '<text paint-order="stroke" stroke-linejoin="round"');

/** One figure as a file. */
export interface DrawingFile {
  readonly name: string;
  readonly text: string;
}

interface Found {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  readonly inside: string;
}

function figuresIn(page: string): readonly Found[] {
  return Array.from(
    page.matchAll(
      /<figure id="figure-([\w-]+)">\s*<svg class="wide"[^>]* width="(\d+(?:\.\d+)?)" height="(\d+(?:\.\d+)?)"[^>]*>([\s\S]*?)<\/svg>\s*(?:<svg class="narrow"|<figcaption)/g,
    ),
    ([, id, width, height, inside]) => ({
      id: id,
      width: Number(width),
      height: Number(height),
      inside: inside,
    }),
  );
}

const document = (width: number, height: number, inside: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" fill="none" font-family="${FONT}">${MARK}<rect width="${width}" height="${height}" fill="${LIGHT_COLOURS['paper']}"/>${inside}</svg>\n`;

const EDGE = 16;

/** Each figure of a report as one SVG file. */
export const drawingFiles = (page: string): readonly DrawingFile[] =>
  figuresIn(page).map(({ id, width, height, inside }) => ({
    name: `${id}.svg`,
    text: document(width + 2 * EDGE, height + 2 * EDGE, `<g transform="translate(${EDGE},${EDGE})">${concrete(inside)}</g>`),
  }));

const MARGIN = 40;
const LEAD = { size: 22, line: 29 };
const REST = { size: 14.5, line: 21 };

/** Two sentences of the verdict, the figure that decides and the margins, on one sheet, for a forum post. */
export function poster(page: string, { scenario, verdict, version }: RunResult, { date }: { readonly date?: string } = {}): string {
  const all = figuresIn(page);
  const figures = [all[0], all.find(({ id }) => id === 'margins')].filter((one) => one !== undefined);
  const [figure] = figures;
  const width = (figure?.width ?? 880) + 2 * MARGIN;
  const room = width - 2 * MARGIN;
  const parts: string[] = [];
  let y = MARGIN + 8;
  const text = (line: string, size: number, fill: string, weight = 400): void => {
    parts.push(
      `<text x="${MARGIN}" y="${y}" font-size="${size}" font-weight="${weight}" fill="${LIGHT_COLOURS[fill]}">${escapeHtml(line)}</text>`,
    );
  };
  const paragraph = (words: string, { size, line }: typeof LEAD, fill: string, weight = 400, most = Number.POSITIVE_INFINITY): void => {
    const lines = wrapText(words, room, size, weight);
    for (const [index, one] of lines.slice(0, most).entries()) {
      text(index === most - 1 && lines.length > most ? shortened(one, room, size) : one, size, fill, weight);
      y += line;
    }
  };
  paragraph(scenario.title, { size: 14, line: 20 }, 'soft', 400, 2);
  y += 12;
  const [lead = '', next = ''] = verdict;
  paragraph(lead, LEAD, 'ink', 400, 3);
  y += 2;
  paragraph(next, REST, 'ink', 400, 3);
  y += 14;
  for (const { inside, height } of figures) {
    parts.push(`<g transform="translate(${MARGIN},${y})">${concrete(inside)}</g>`);
    y += height + 22;
  }
  text(
    [`shaftwork ${version}`, `scenario ${scenario.hash}`, ...(date === undefined ? [] : [date]), 'an estimate, not a clearance'].join(
      ' · ',
    ),
    12,
    'soft',
  );
  return document(width, Math.ceil(y + 24), parts.join(''));
}

function shortened(line: string, room: number, size: number): string {
  let text = line;
  while (text !== '' && textWidth(`${text} …`, size) > room) text = text.slice(0, -1);
  return `${text.trimEnd()} …`;
}
