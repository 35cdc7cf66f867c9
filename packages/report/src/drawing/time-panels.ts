/** What all figures over time share: step names along the top, hard steps as faint columns, and labels at the ends of the lines. @module */

import type { RunResult, StepResult } from '@shaftwork/sim-core';
import { clockUnit } from '@shaftwork/sim-core/words';
import { type Html, html } from '../html/html.js';
import { areas, type Frame, type Layer, pixelX, strokes, words } from './panel.js';
import { spreadApart } from './place-labels.js';
import { type Bracket, hardSteps, stepBrackets } from './step-brackets.js';
import { textWidth, wrapText } from './text-width.js';

const SIZE = 12;
const LINE_HEIGHT = 14;
/** [px] */
const CLOSEST_TICK = 6;

/** More columns than this are a comb that says nothing. */
const MOST_COLUMNS = 24;

/** Steps that are tinted: those that take more than the mean battery power, where they are few enough to be seen. */
export function tintedSteps({ candidates, ranking, scenario: { steps } }: RunResult): readonly StepResult[] {
  const guide = candidates.find(({ name }) => name === ranking[0]) ?? candidates[0];
  const hard = guide === undefined ? [] : hardSteps(steps, guide);
  return hard.length > MOST_COLUMNS ? [] : hard;
}

export function stepColumns(steps: readonly StepResult[], frame: Frame): Layer {
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
export function stepHead(steps: readonly StepResult[], frame: Frame): StepHead {
  const brackets = stepBrackets(steps);
  if (!brackets.some(({ text }) => text !== '')) return { height: 6, layers: [], numbered: [] };
  const placed = brackets.map((bracket, index) => place(bracket, index + 1, frame));
  const lineCount = Math.max(1, ...placed.map(({ lines }) => lines.length));
  const base = -7;
  const rows = placed.flatMap(({ lines, centre }) =>
    lines.map((text, line) => ({ x: centre, y: base - 5 - (lines.length - 1 - line) * LINE_HEIGHT, text })),
  );
  const edges = brackets.slice(1).map(({ from }) => pixelX(frame, from));
  // None where they would stand closer than can be told apart.
  const ticks = edges.filter((x, index) => index === 0 || x - edges[index - 1] >= CLOSEST_TICK);
  return {
    height: lineCount * LINE_HEIGHT + 12,
    layers: [
      words(rows, { fill: 'var(--soft)', align: 'center' }),
      strokes([
        { x: 0, y: base, x2: frame.width, y2: base },
        ...ticks.map((x) => ({ x, y: base - (placed.length > 12 ? 2 : 8), x2: x, y2: base + 4 })),
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
  /** In bold; the value stands after the last line where `room` allows it, in another weight: a name may end in a figure. */
  readonly name: readonly string[];
  readonly value?: string;
  readonly soft: readonly string[];
  /** How wide a line may be [px]. */
  readonly room: number;
}

const GAP = 3;
const VALUE_GAP = 7;
const nameWidth = (text: string): number => textWidth(text, SIZE, 600);

interface LabelLine {
  readonly text: string;
  readonly weight: number;
  /** From the left edge, and how far below the line before [px]. */
  readonly x: number;
  readonly line: number;
}

function linesOf({ name, value, soft, room }: Omit<EndLabel, 'at'>): readonly LabelLine[] {
  const rows: LabelLine[] = name.map((text, line) => ({ text, weight: 600, x: 0, line }));
  if (value !== undefined) {
    const after = nameWidth(name.at(-1) ?? '') + VALUE_GAP;
    const beside = name.length > 0 && after + textWidth(value, SIZE) <= room;
    rows.push({ text: value, weight: 400, x: beside ? after : 0, line: name.length - (beside ? 1 : 0) });
  }
  const next = (rows.at(-1)?.line ?? -1) + 1;
  return [...rows, ...soft.map((text, index) => ({ text, weight: 400, x: 0, line: next + index }))];
}

export const endLabelHeight = (label: Omit<EndLabel, 'at'>): number =>
  ((linesOf(label).at(-1)?.line ?? -1) + 1) * LINE_HEIGHT + (label.soft.length > 0 ? GAP : 0);
export const endLabelWidth = (label: Omit<EndLabel, 'at'>): number =>
  Math.max(0, ...linesOf(label).map(({ text, weight, x }) => x + textWidth(text, SIZE, weight)));

/** Labels to the right of the frame, each as near to the end of its line as the others allow. */
export function endLabels(frame: Frame, labels: readonly EndLabel[], reach = { above: 4, below: 10 }): readonly Layer[] {
  const tops = spreadApart(
    labels.map((label) => ({ wanted: label.at + (label.soft.length > 0 ? 6 : 0), height: endLabelHeight(label) })),
    -reach.above,
    frame.height + reach.below,
  );
  const x = frame.width + 9;
  // All in the candidate's colour, so that they go with it when it is hidden.
  return labels.flatMap((label, index) =>
    linesOf(label).map(({ text, weight, x: shift, line }) =>
      words([{ x: x + shift, y: tops[index] + line * LINE_HEIGHT + 11, text }], { fill: label.colour, weight }),
    ),
  );
}
