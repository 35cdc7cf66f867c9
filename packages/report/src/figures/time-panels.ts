/** What all figures over time share: step names along the top, hard steps as faint columns, and labels at the ends of the lines. */
import type { RunResult } from '@shaftwork/sim-core';
import { type Html, html } from '../page/html.js';
import { clockUnit } from '../page/numbers.js';
import { areas, type Frame, type Layer, pixelX, strokes, words } from './panel.js';
import { spreadApart } from './place-labels.js';
import { type Bracket, hardSteps, stepBrackets } from './step-brackets.js';
import { textWidth, wrapText } from './text-width.js';

const SIZE = 12;
const LINE_HEIGHT = 14;

export function stepColumns(result: RunResult, frame: Frame): Layer {
  const guide = result.candidates.find(({ name }) => name === result.ranking[0]) ?? result.candidates[0];
  const steps = guide === undefined ? [] : hardSteps(result.scenario.steps, guide);
  const [y, y2] = frame.y.domain;
  return areas(
    steps.map(({ from, to }) => ({ x: from, x2: to, y, y2 })),
    'var(--step)',
  );
}

export const timeTitle = ({ scenario: { duration } }: RunResult): string => `time from the start, ${clockUnit(duration)}`;

export interface StepHead {
  readonly height: number;
  readonly layers: readonly Layer[];
  /** Brackets whose name found no room: they carry their number, and the caption the name. */
  readonly numbered: readonly { readonly number: number; readonly text: string }[];
}

/** Brackets with names above the frame; a name too wide for its bracket, even in two lines, is replaced by a number. */
export function stepHead(result: RunResult, frame: Frame): StepHead {
  const brackets = stepBrackets(result.scenario.steps);
  if (!brackets.some(({ text }) => text !== '')) return { height: 6, layers: [], numbered: [] };
  const placed = brackets.map((bracket, index) => place(bracket, index + 1, frame));
  const lineCount = Math.max(1, ...placed.map(({ lines }) => lines.length));
  const base = -7;
  const rows = placed.flatMap(({ lines, centre }) =>
    lines.map((text, line) => ({ x: centre, y: base - 5 - (lines.length - 1 - line) * LINE_HEIGHT, text })),
  );
  const edges = brackets.slice(1).map(({ from }) => pixelX(frame, from));
  return {
    height: lineCount * LINE_HEIGHT + 12,
    layers: [
      words(rows, { fill: 'var(--soft)', align: 'center' }),
      strokes([
        { x: 0, y: base, x2: frame.width, y2: base },
        ...edges.map((x) => ({ x, y: base - (placed.length > 12 ? 2 : 8), x2: x, y2: base + 4 })),
      ]),
    ],
    numbered: placed.flatMap(({ number, text }) => (number === undefined ? [] : [{ number, text }])),
  };
}

interface PlacedName {
  readonly lines: readonly string[];
  readonly centre: number;
  readonly number?: number;
  readonly text: string;
}

function place({ from, to, text }: Bracket, number: number, frame: Frame): PlacedName {
  const left = pixelX(frame, from);
  const width = pixelX(frame, to) - left;
  const centre = left + width / 2;
  const room = width - 8;
  if (text === '') return { lines: [], centre, text };
  if (textWidth(text, SIZE) <= room) return { lines: [text], centre, text };
  const lines = wrapText(text, room, SIZE);
  const brokenWord = text.split(/ +/).some((word) => textWidth(word, SIZE) > room);
  if (lines.length === 2 && !brokenWord) return { lines, centre, text };
  const fitsNumber = textWidth(String(number), SIZE) <= width - 3;
  return { lines: fitsNumber ? [String(number)] : [], centre, number, text };
}

/** "Steps: (1) out to the first line; …" of the names that found no room; nothing when they would be a list of their own. */
function stepList({ numbered }: StepHead): string {
  if (numbered.length === 0 || numbered.length > 12) return '';
  return ` Steps: ${numbered.map(({ number, text }) => `(${number}) ${text}`).join('; ')}.`;
}

/** For the caption: each drawing has names of its own that found no room. */
export const numberedSteps = (wide: StepHead, narrow: StepHead): Html =>
  html`<span class="with-wide">${stepList(wide)}</span><span class="with-narrow">${stepList(narrow)}</span>`;

export interface EndLabel {
  /** Place of the line's end [px from the top of the frame]. */
  readonly at: number;
  readonly colour: string;
  /** Bold lines, then soft ones. */
  readonly bold: readonly string[];
  readonly soft: readonly string[];
}

const GAP = 3;

export const endLabelHeight = ({ bold, soft }: EndLabel): number => (bold.length + soft.length) * LINE_HEIGHT + (soft.length > 0 ? GAP : 0);
export const endLabelWidth = ({ bold, soft }: EndLabel): number =>
  Math.max(0, ...bold.map((text) => textWidth(text, SIZE, 600)), ...soft.map((text) => textWidth(text, SIZE)));

/** Labels to the right of the frame, each as near to the end of its line as the others allow. */
export function endLabels(frame: Frame, labels: readonly EndLabel[], reach = { above: 4, below: 10 }): readonly Layer[] {
  const tops = spreadApart(
    labels.map((label) => ({ wanted: label.at + (label.soft.length > 0 ? 6 : 0), height: endLabelHeight(label) })),
    -reach.above,
    frame.height + reach.below,
  );
  const x = frame.width + 9;
  return labels.flatMap(({ colour, bold, soft }, index) => {
    const line = (number: number): number => tops[index]! + number * LINE_HEIGHT + 11;
    return [
      words(
        bold.map((text, number) => ({ x, y: line(number), text })),
        { fill: colour, weight: 600 },
      ),
      words(
        soft.map((text, number) => ({ x, y: line(bold.length + number), text })),
        { fill: 'var(--soft)' },
      ),
    ];
  });
}
