/** What a bench log told, as one page that opens offline: numbers, what was refused and why, data with fit and residuals, part files. @module */
import type { IdentifyResult, ReadingFit } from '@shaftwork/sim-core';
import { formatClock, formatNumber, handyUnit, toUnit, unitSign } from '@shaftwork/sim-core/quantities';
import { CAUTIONS, fitSentence, identifySentence, misfits, notToldSentence, numberName, numberParts } from '@shaftwork/sim-core/words';
import { figure } from '../drawing/figure.js';
import { fittedDrawing, groupsOf } from '../figures/fitted.js';
import { contentPolicy } from '../html/content-policy.js';
import { type Html, html, trusted } from '../html/html.js';
import { dataTable } from '../tables/data-table.js';
import { styleSheet } from './styles.js';

/** What the page is told beside the result. */
export interface IdentifiedOptions {
  readonly version: string;
  /** The day it was made, as it shall be read. */
  readonly date?: string;
}

const TITLES = {
  motor: 'A motor, from its bench',
  heat: 'A motor’s heat, from a run and a stop',
  pack: 'A pack, from its discharge',
} as const;
const MOST_ROWS = 200;

/** What bench logs tell, as one page that needs nothing from outside. */
export async function renderIdentified(result: IdentifyResult, { version, date }: IdentifiedOptions): Promise<string> {
  const title = TITLES[result.kind];
  const style = styleSheet(title);
  const told = result.numbers.filter(({ told: known }) => known);
  const figures: Html[] = [];
  for (const [k, fit] of result.fits.entries()) figures.push(await fitFigure(result, fit, k + 1));
  const sections: { readonly id: string; readonly word: string; readonly heading: string; readonly body: Html }[] = [
    {
      id: 'numbers',
      word: 'Numbers',
      heading: told.length === 0 ? 'The log determines no number' : 'What the log determines',
      body: numbersTable(result),
    },
    ...(told.length === result.numbers.length
      ? []
      : [
          {
            id: 'refused',
            word: 'Left open',
            heading: 'What the log leaves open, and which run would settle it',
            body: refusedList(result),
          },
        ]),
    {
      id: 'fits',
      word: 'Fit',
      heading: misfits(result) ? 'The laws do not fit everywhere' : 'How the laws fit what was read',
      body: html`${figures}`,
    },
    {
      id: 'taken',
      word: 'Taken for',
      heading: 'What was taken for what',
      body: html`<ul class="list">${takenLines(result).map((each) => html`<li>${each}</li>`)}</ul>`,
    },
    ...(result.parts.length === 0
      ? []
      : [
          {
            id: 'parts',
            word: 'Part files',
            heading: 'Part files for a scenario, brought in by use:',
            body: html`${result.parts.map(({ file, text }) => html`<details class="file" open><summary>${file}</summary><pre>${text}</pre></details>`)}`,
          },
        ]),
    {
      id: 'cautions',
      word: 'Cautions',
      heading: 'Before you rely on it',
      body: html`<ul class="list">${CAUTIONS.map((each) => html`<li>${each}</li>`)}</ul>`,
    },
  ];
  const page = html`<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${await contentPolicy(style, undefined)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="generator" content="shaftwork ${version}">
<title>${title}</title>
<style>${trusted(style)}</style></head>
<body><div class="page"><nav aria-label="Contents"><ol>${sections.map(({ id, word }) => html`<li><a href="#${id}">${word}</a></li>`)}</ol></nav>
<main><header><p class="over">${['Identification', ...result.sources].join(' · ')}</p>
<h1>${title}</h1>
<p class="lead">${identifySentence(result)}</p></header>
${sections.map(({ id, heading, body }) => html`<section id="${id}"><h2>${heading}</h2>\n${body}</section>\n`)}<footer><p>${[`shaftwork ${version}`, ...(date === undefined ? [] : [date])].join(' · ')}</p></footer></main></div></body></html>
`;
  return page.html;
}

function numbersTable(result: IdentifyResult): Html {
  const rows = result.numbers
    .filter(({ told }) => told)
    .map((number) => {
      const { value, interval } = numberParts(number);
      return [numberName(number), value, interval];
    });
  const together = result.together.map(({ a, b, correlation }) => `${a} and ${b} (${formatNumber(correlation, { decimals: 2 })})`);
  return html`${rows.length === 0 ? '' : dataTable('Numbers', ['', 'value', '95 % interval'], rows)}${
    together.length === 0
      ? ''
      : html`<p class="note">These belong together, so that one is off with the other (correlation): ${together.join('; ')}.</p>`
  }`;
}

const refusedList = ({ numbers }: IdentifyResult): Html =>
  html`<ul class="list">${numbers.flatMap((number) => (number.instead === undefined ? [] : [html`<li>${notToldSentence(number, number.instead)}</li>`]))}</ul>`;

function takenLines({ taken, singular, rank, unknowns }: IdentifyResult): string[] {
  const values = singular.map((each) => formatNumber(each, { significant: 2 })).join(', ');
  return [...taken, `${rank} of ${unknowns} directions are determined by the log: singular values over what was known before ${values}`];
}

async function fitFigure(result: IdentifyResult, fit: ReadingFit, number: number): Promise<Html> {
  const unit = handyUnit(fit.points[0]?.read ?? 1, fit.dimension);
  const axis = handyUnit(Math.max(...fit.points.map(({ along }) => along)), result.along.dimension);
  const stride = Math.max(1, Math.ceil(fit.points.length / MOST_ROWS));
  const sentence = fitSentence(fit);
  // one colour a propeller in all figures
  const groups = groupsOf(result.fits.flatMap(({ points }) => points));
  return figure({
    id: `figure-${fit.key}`,
    number,
    label: `${fit.words} against ${result.along.words}, read and by the laws`,
    description: sentence,
    drawings: { wide: fittedDrawing(fit, result.along, groups, 'wide'), narrow: fittedDrawing(fit, result.along, groups, 'narrow') },
    caption: html`${sentence} Full dots: read. ${result.along.dimension === 'time' ? 'Line' : 'Hollow dots'}: the laws with the numbers found.`,
    data: dataTable(
      fit.words,
      [
        'of',
        `${result.along.words}${result.along.dimension === 'time' ? '' : `, ${unitSign(axis)}`}`,
        `read, ${unitSign(unit)}`,
        `law, ${unitSign(unit)}`,
      ],
      fit.points
        .filter((_, k) => k % stride === 0)
        .map(({ along, read, law, group }) => [
          group === '' ? fit.words : group,
          result.along.dimension === 'time' ? formatClock(along) : formatNumber(toUnit(along, axis), { significant: 4 }),
          formatNumber(toUnit(read, unit), { significant: 4 }),
          formatNumber(toUnit(law, unit), { significant: 4 }),
        ]),
    ),
  });
}
