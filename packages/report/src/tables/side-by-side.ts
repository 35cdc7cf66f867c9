/** All candidates beside one another, as a table. @module */

import {
  type CandidateResult,
  type FigureBand,
  HEAT_WAYS,
  isSlightWay,
  keepsLimits,
  MOTOR_WAYS,
  type RunResult,
  SLIGHT_SHARE,
} from '@shaftwork/sim-core';
import { named } from '@shaftwork/sim-core/problems';
import { formatClock, unitSign } from '@shaftwork/sim-core/quantities';
import { besideLimit, clockUnit, listed, NO_NUMBER, numberText, type Printing, printed, RUN_ENDS } from '@shaftwork/sim-core/words';
import type { Look } from '../drawing/palette.js';
import { type Html, html } from '../html/html.js';
import { candidateHead } from './candidate-head.js';
import { GROUPS, type Row } from './compared-rows.js';
import { scrolling } from './data-table.js';
import { numberCell } from './number-cell.js';

/** A limit of which more than this share of the way is left to all is far. */
const NEAR = 0.3;

/** Rows that say nothing: a speed or thrust where no vehicle is, a gear of 1, a time that nobody reaches, a limit that is far. */
function silent({ value, idle, limit, near, way }: Row, candidates: readonly CandidateResult[]): boolean {
  if (way !== undefined && isSlightWay(way, candidates)) return true;
  if (near && !candidates.some(({ limits }) => limits.some(({ id, marginShare }) => id === limit && marginShare < NEAR))) return true;
  const values = candidates.map(value);
  return values.every((one) => one === undefined || !Number.isFinite(one) || one === idle);
}

/** Columns wider than this many candidates: the best stand first, and on a narrow page row heads stand over their values. */
const MANY = 4;

export function sideBySide(result: RunResult, looks: readonly Look[]): Html {
  const { doubt } = result;
  const candidates = inColumns(result);
  const own = candidates.map(({ name }) => named(looks, name));
  const columns = candidates.length + 1;
  const alike: string[] = [];
  const groups = GROUPS.map(({ title, rows }) => {
    const told = rows.filter((row) => !silent(row, candidates)).map((row) => rowOf(row, candidates));
    alike.push(...told.flatMap((row) => ('alike' in row ? [row.alike] : [])));
    const above =
      title === 'Decides'
        ? meetsRows(candidates, doubt)
        : title === 'Fits'
          ? fitsRow(candidates)
          : title === 'Lasts'
            ? endRows(candidates)
            : [];
    return { title, rows: [...above, ...told.flatMap((row) => ('html' in row ? [row] : []))] };
  }).filter(({ rows }) => rows.length > 0);
  const least = MOTOR_WAYS.filter((way) => isSlightWay(way, candidates) && candidates.some(({ energy }) => energy.heatLeaves[way] !== 0));
  const notes = [
    ...(alike.length === 0 ? [] : [`The same for all: ${alike.join(', ')}.`]),
    ...(least.length === 0
      ? []
      : [
          `Less than ${100 * SLIGHT_SHARE}\u202f% of the motor’s heat leaves ${listed(least.map((way) => HEAT_WAYS[way].words))}${least.length > 1 ? ' each' : ''}.`,
        ]),
  ];
  const table = html`<table class="cmp${doubt === undefined ? '' : ' ranged'}${candidates.length >= MANY ? ' many' : ''} n${Math.min(8, candidates.length)}"><thead><tr><td></td>${own.map((look) => candidateHead(look))}</tr></thead><tbody>
${groups.map(({ title, rows }) => html`<tr class="grp"><th colspan="${columns}" scope="rowgroup">${title}</th></tr>\n${rows}`)}</tbody></table>`;
  return html`${scrolling('Candidates side by side', table)}${notes.length === 0 ? '' : html`<p class="note">${notes.join(' ')}</p>`}`;
}

/** In the order of the scenario; of many the best first. */
function inColumns({ candidates, ranking }: RunResult): readonly CandidateResult[] {
  if (candidates.length < MANY) return candidates;
  const place = ({ name }: CandidateResult): number => (ranking.includes(name) ? ranking.indexOf(name) : ranking.length);
  return [...candidates].sort((a, b) => place(a) - place(b));
}

/** A row of words or counts. */
const tellingRow = (words: string, cells: readonly (readonly [text: string, past?: boolean])[]): Html =>
  html`<tr><th scope="row">${words}</th>${cells.map(([text, past = false]) => numberCell(text, { past }))}</tr>\n`;

/** Yes, or how many limits are passed; and in how many of the draws it is yes. */
function meetsRows(candidates: readonly CandidateResult[], doubt: RunResult['doubt']): readonly Html[] {
  const meets = tellingRow(
    'meets every limit',
    candidates.map((candidate) => {
      const passed = candidate.limits.filter((limit) => limit.passed !== undefined).length;
      return candidate.feasible || passed === 0 ? [keepsLimits(candidate, doubt)] : [`no, ${passed} passed`, true];
    }),
  );
  if (doubt === undefined) return [meets];
  const counts = candidates.map(({ name }): readonly [string] => {
    const own = doubt.candidates.find((one) => one.name === name);
    return [own === undefined ? NO_NUMBER : String(own.feasible.count)];
  });
  return [meets, tellingRow(`in how many of ${doubt.samples} draws`, counts)];
}

/** Said only when one of them does not. */
const fitsRow = (candidates: readonly CandidateResult[]): readonly Html[] =>
  candidates.every(({ facts }) => facts.fits)
    ? []
    : [
        tellingRow(
          'fits the space',
          candidates.map(({ facts }) => (facts.fits ? ['yes'] : ['no', true])),
        ),
      ];

/** What ends a run that comes to its end, driven again and again, before the pack does. */
const endsSooner = ({ end, endsRepeated, headline: { timeToCutoff } }: CandidateResult): string | undefined =>
  end !== 'finished' || endsRepeated === undefined || timeToCutoff === undefined
    ? undefined
    : `${RUN_ENDS[endsRepeated]} at ${formatClock(timeToCutoff.nominal)}`;
/** Said only when one of them does not come to the end, or ends for another reason than the pack when driven again and again. */
const endRows = (candidates: readonly CandidateResult[]): readonly Html[] => [
  ...(candidates.every(({ end }) => end === 'finished')
    ? []
    : [
        tellingRow(
          'the run stopped',
          candidates.map(({ end }) => [RUN_ENDS[end]]),
        ),
      ]),
  ...(candidates.every((candidate) => endsSooner(candidate) === undefined)
    ? []
    : [
        tellingRow(
          'again and again, before the cut-off',
          candidates.map((candidate) => [endsSooner(candidate) ?? NO_NUMBER]),
        ),
      ]),
];

/** A row; or, where it prints the same of all and no limit is passed, words for the line beneath the table. */
function rowOf(row: Row, candidates: readonly CandidateResult[]): Html | { readonly alike: string } {
  const { words, value, better, limit, figure } = row;
  const printing = withoutIdleDecimals(row.printing, candidates.map(value));
  const limitOf = (candidate: CandidateResult) => candidate.limits.find(({ id }) => id === limit);
  const texts = candidates.map((candidate) => {
    const number = value(candidate);
    return number === undefined ? NO_NUMBER : numberText(number, besideLimit(number, limitOf(candidate)?.bound, printing));
  });
  const ranges = candidates.map((candidate) => {
    const band = figure?.(candidate)?.band;
    return band === undefined ? undefined : rangeText(band, printing);
  });
  const past = candidates.map((candidate) => limitOf(candidate)?.passed !== undefined);
  const bounds = candidates.map((candidate) => {
    const bound = limitOf(candidate)?.bound;
    return bound === undefined ? undefined : numberText(bound, printing).replace(/\.0+$/, '');
  });
  const told = new Set(bounds.filter((bound) => bound !== undefined));
  const unit =
    printing.dimension === 'time'
      ? clockUnit(Math.max(0, ...candidates.map((candidate) => value(candidate) ?? 0)))
      : unitSign(printing.unit);
  if (candidates.length > 1 && new Set(texts).size === 1 && new Set(ranges).size === 1 && !past.includes(true) && told.size < 2)
    return { alike: `${words} ${texts[0]}${printing.dimension === 'time' || unit === '' ? '' : `\u202f${unit}`}` };
  const head = `${words}${unit === '' ? '' : `, ${unit}`}${told.size === 1 ? `; limit ${[...told][0]}` : ''}`;
  const bests = better === undefined ? [] : bestOf(candidates, value, printing, better, past);
  const cells = texts.map((text, index) => {
    const range = ranges[index];
    return numberCell(text, { best: bests.includes(index), past: past[index], ...(range === undefined ? {} : { range }) });
  });
  const limits =
    told.size < 2
      ? ''
      : html`<tr class="quiet"><th scope="row">its limit</th>${bounds.map((bound) => numberCell(bound ?? NO_NUMBER))}</tr>\n`;
  return html`<tr><th scope="row">${head}</th>${cells}</tr>\n${limits}`;
}

/** "71–114"; one number where both ends print the same. */
function rangeText({ p05, p95 }: FigureBand, printing: Printing): string {
  const [from, to] = [numberText(p05, printing), numberText(p95, printing)];
  return from === to ? from : `${from}–${to}`;
}

/** Lengths in whole millimetres need no decimals. */
function withoutIdleDecimals(printing: Printing, values: readonly (number | undefined)[]): Printing {
  const idle = printing.dimension === 'length' && values.every((one) => one === undefined || Number.isInteger(printed(one, printing)));
  return idle ? { ...printing, decimals: 0 } : printing;
}

/** All that print the best value; nobody when all print the same or one stands alone; never one that fails where another does not, nor one past this limit or without the whole run. `comparedOf` says who is compared. */
function bestOf(
  candidates: readonly CandidateResult[],
  value: Row['value'],
  printing: Printing,
  better: 'less' | 'more',
  past: readonly boolean[],
): readonly number[] {
  const sign = better === 'less' ? -1 : 1;
  const compared = comparedOf(candidates);
  const scores = candidates.map((candidate, index) => {
    const number = value(candidate);
    const counts =
      number !== undefined && Number.isFinite(number) && !past[index] && compared.includes(candidate) && candidate.end === 'finished';
    return counts ? sign * printed(number, printing) : Number.NEGATIVE_INFINITY;
  });
  const top = Math.max(...scores);
  if (top === Number.NEGATIVE_INFINITY || compared.length < 2 || scores.every((score) => score === top)) return [];
  return scores.flatMap((score, index) => (score === top ? [index] : []));
}

/** Those whose values are held against one another: all that meet every limit, or all where none does. */
export function comparedOf(candidates: readonly CandidateResult[]): readonly CandidateResult[] {
  const meeting = candidates.filter(({ feasible }) => feasible);
  return meeting.length > 0 ? meeting : candidates;
}
