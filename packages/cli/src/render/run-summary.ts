/** A run in the terminal: the answer in short sentences, the figures, what else was found. @module */

import {
  bestClimb,
  type CandidateResult,
  chanceFigure,
  type Figure,
  HEADLINES,
  HEAT_WAYS,
  type HeadlineId,
  type HeatWay,
  isSlightWay,
  keepsLimits,
  limitNotes,
  type RunResult,
  shareByWay,
  stepNotHeld,
} from '@shaftwork/sim-core';
import { named, type Term } from '@shaftwork/sim-core/problems';
import { type Dimension, formatClock, formatQuantity, type UnitOf } from '@shaftwork/sim-core/quantities';
import { findingLines, RUN_ENDS, windingBurns } from '@shaftwork/sim-core/words';
import type { Terminal } from '../hands/terminal.js';
import { tippingText } from './audit-text.js';
import { BARE, type Label, label, own, type Row, under } from './labels.js';
import { measuredText } from './measured-text.js';
import { readingsText } from './readings-text.js';
import { table, wrap } from './table.js';

/** What stands where a figure makes no sense. */
export const NO_FIGURE = '–';
const MOST_FINDINGS = 8;

export async function runSummary(result: RunResult, { colours, verbose }: Pick<Terminal, 'colours' | 'verbose'>): Promise<string> {
  const { heads, rows } = figureTable(result);
  const notes = limitNotes(result);
  const paint = (cell: string, row: number): string => (row === 0 ? colours.strong(cell) : cell === 'no' ? colours.bad(cell) : cell);
  return [
    colours.strong(wrap(result.scenario.title)),
    '',
    ...result.verdict.map((thought) => wrap(thought)),
    '',
    table(heads, rows, { paint }),
    ...(result.costly === undefined ? [] : [tippingText(result.costly)]),
    ...(notes.length === 0 ? [] : [...notes.map((note) => wrap(note)), '']),
    ...(result.scenario.log === undefined ? [] : [wrap(logSentence(result.scenario.log)), '']),
    ...(result.measured === undefined ? [] : [measuredText(result.measured, result.candidates.length > 1)]),
    ...(result.readings === undefined ? [] : [`What was read\n${readingsText(result.readings, result.candidates.length > 1)}`]),
    ...findings(result, verbose),
    ...(verbose ? [statistics(result)] : []),
    wrap('Estimates, not a clearance: verify with a meter, a thermometer and short runs, propeller off or wheels in the air for set-up.'),
    '',
  ].join('\n');
}

/** Headline figures that every run has. */
type ToldHeadline = Exclude<HeadlineId, 'timeToCutoff' | 'timeToReserve'>;

function figureTable(result: RunResult): { readonly heads: Label[]; readonly rows: Row[] } {
  const ranked = result.ranking.map((name) => named(result.candidates, name));
  const row = (words: Term, figure: (candidate: CandidateResult) => string): Row => [label(words), ...ranked.map(figure)];
  const show = <D extends Dimension>(value: number, dimension: D, unit: UnitOf<D>, decimals: number): string =>
    formatQuantity(value, dimension, { unit, decimals });
  const moves = (c: CandidateResult): boolean => c.headline.topSpeed.nominal > 0;
  const climbs = (c: CandidateResult): boolean => bestClimb(c) !== undefined;
  // without its unit, which stands in the row above: three candidates fit beside one another
  const drawn = (id: ToldHeadline): Row[] =>
    ranked.some((c) => c.headline[id].band !== undefined)
      ? [
          [
            under('in 9 of 10 draws'),
            ...ranked.map((c) => bandText(c.headline[id], HEADLINES[id].unit, HEADLINES[id].decimals).replace(/[^\d.–]+$/, '')),
          ],
        ]
      : [];
  const told = (c: CandidateResult, id: ToldHeadline, decimals: number = HEADLINES[id].decimals): string =>
    formatQuantity(c.headline[id].nominal, HEADLINES[id].dimension, { unit: HEADLINES[id].unit, decimals });
  const some = (wanted: (c: CandidateResult) => boolean, ...row: Row[]): Row[] => (ranked.some(wanted) ? row : []);
  const rows = [
    row('meets every limit', (c) => keepsLimits(c, result.doubt)),
    ...some(
      (c) => stepNotHeld(c.findings) !== undefined,
      row('holds every step', (c) => (stepNotHeld(c.findings) === undefined ? 'yes' : 'no')),
    ),
    ...roomRows(ranked),
    row('peak winding', (c) => `${windingBurns(c) ? '≥ ' : ''}${told(c, 'peakWindingTemperature')}`),
    ...doubtRows(result, ranked),
    row('peak can', (c) => told(c, 'peakCanTemperature')),
    ...surfaceRows(ranked),
    row('peak controller', (c) => told(c, 'peakControllerTemperature')),
    row('peak motor current', (c) => told(c, 'peakMotorCurrent')),
    ...drawn('peakMotorCurrent'),
    row('peak battery current', (c) => told(c, 'peakBatteryCurrent')),
    row('peak battery power', (c) => told(c, 'peakBatteryPower')),
    ...drawn('peakBatteryPower'),
    row('top motor speed', (c) => told(c, 'topShaftSpeed')),
    ...drawn('topShaftSpeed'),
    ...some(
      climbs,
      row('best climb', (c) => {
        const climb = bestClimb(c);
        return climb === undefined ? NO_FIGURE : show(climb, 'speed', 'm/s', 2);
      }),
    ),
    ...some(
      (c) => moves(c) && !climbs(c),
      row('top speed', (c) => (moves(c) ? told(c, 'topSpeed') : NO_FIGURE)),
      ...drawn('topSpeed'),
    ),
    row('peak thrust', (c) => told(c, 'peakThrust')),
    ...drawn('peakThrust'),
    row('energy used', (c) => told(c, 'energy')),
    row('charge left', (c) => told(c, 'chargeLeft')),
    ...some(
      (c) => c.headline.timeToReserve !== undefined,
      row('reserve when repeated', (c) =>
        c.headline.timeToReserve === undefined ? NO_FIGURE : formatClock(c.headline.timeToReserve.nominal),
      ),
    ),
    row('cut-off when repeated', ({ headline: { timeToCutoff }, endsRepeated, outlasts }) => {
      if (outlasts !== undefined) return `over ${formatClock(outlasts)}`;
      if (timeToCutoff === undefined) return NO_FIGURE;
      const clock = formatClock(timeToCutoff.nominal);
      return endsRepeated === undefined ? clock : `${RUN_ENDS[endsRepeated]} ${clock}`;
    }),
    ...some(
      moves,
      row('useful share of energy', (c) => (moves(c) ? told(c, 'driveEfficiency', 0) : NO_FIGURE)),
    ),
  ];
  return { heads: [BARE, ...ranked.map((candidate, k) => own(`${k + 1} ${candidate.name}`))], rows };
}

/** Side and both ends of the can, what leaves by them at the hardest moment and over the run, and what leaves then by what was put there to cool. */
function surfaceRows(ranked: readonly CandidateResult[]): Row[] {
  const two = <D extends Dimension>(side: number, ends: number, dimension: D, unit: UnitOf<D>, decimals: number): string => {
    const shown = (value: number): string => formatQuantity(value, dimension, { unit, decimals });
    return `${shown(side).replace(/[^\d.]+$/, '')} + ${shown(ends)}`;
  };
  const row = (words: Label, figure: (candidate: CandidateResult) => string): Row => [words, ...ranked.map(figure)];
  return [
    row(label('can: side + ends'), ({ facts }) => two(facts.sideArea, facts.endArea, 'area', 'cm²', 0)),
    ...(isSlightWay('canSide', ranked) && isSlightWay('canEnds', ranked)
      ? []
      : [
          row(under('heat, hardest moment'), ({ moment: { leaves } }) => two(leaves.canSide, leaves.canEnds, 'power', 'W', 1)),
          row(under('of the motor’s, run'), (c) => two(shareByWay(c, 'canSide'), shareByWay(c, 'canEnds'), 'fraction', '%', 0)),
        ]),
    ...(['water', 'sink', 'strap'] as const satisfies HeatWay[])
      .filter((way) => !isSlightWay(way, ranked))
      .map((way) =>
        row(label(`heat ${HEAT_WAYS[way].words}`), ({ moment }) => formatQuantity(moment.leaves[way], 'power', { unit: 'W', decimals: 1 })),
      ),
  ];
}

/** Room left in the space that was given; what does not fit is ranked after all that does. */
function roomRows(ranked: readonly CandidateResult[]): Row[] {
  const sides = [
    ['room across', 'diameter', 'length', 'mm'],
    ['room in length', 'length', 'length', 'mm'],
    ['mass to spare', 'mass', 'mass', 'g'],
  ] as const;
  return sides.flatMap(([words, side, dimension, unit]) => {
    if (!ranked.some(({ space }) => space?.[side] !== undefined)) return [];
    const figure = ({ space }: CandidateResult): string => {
      const room = space?.[side]?.room;
      if (room === undefined) return NO_FIGURE;
      return `${formatQuantity<Dimension>(room, dimension, { unit, decimals: 0 })}${room < 0 ? ', no' : ''}`;
    };
    return [[label(words), ...ranked.map(figure)]];
  });
}

/** "122 to 233 °C": the band of a figure, its unit once. */
function bandText({ band, dimension }: Figure, unit: UnitOf, decimals: number): string {
  if (band === undefined) return NO_FIGURE;
  const [low, high] = [band.p05, band.p95].map((value) => formatQuantity(value, dimension, { unit, decimals }));
  return `${low.replace(/[^\d.]+$/, '')} to ${high}`;
}

/** How sure: the band of the peak and the chances, where tolerances were sampled. */
function doubtRows({ doubt }: RunResult, ranked: readonly CandidateResult[]): Row[] {
  if (doubt === undefined) return [];
  const of = (c: CandidateResult) => named(doubt.candidates, c.name);
  return [
    [under('in 9 of 10 draws'), ...ranked.map(({ headline }) => bandText(headline.peakWindingTemperature, '°C', 0))],
    [label('chance to meet every limit'), ...ranked.map((c) => chanceFigure(of(c).feasible))],
    ...(ranked.length > 1 ? [[label('chance to be the best'), ...ranked.map((c) => chanceFigure(of(c).first))] satisfies Row] : []),
  ];
}

/** Findings that the verdict does not tell, each with its kind for `explain`. */
function findings(result: RunResult, all: boolean): string[] {
  const lines = findingLines(result);
  if (lines.length === 0) return [];
  const shown = all ? lines : lines.slice(0, MOST_FINDINGS);
  const left = lines.length - shown.length;
  return [
    'Found on the way (what a kind means: npx shaftwork explain <kind>)',
    ...shown.map(
      ({ candidate, sentence, kind }) => `  ${wrap(`${candidate}: ${sentence} [${kind}]`, 80, '    ').replaceAll('\u202f', ' ')}`,
    ),
    ...(left > 0 ? [`  … and ${left} more; see all with --verbose.`] : []),
    '',
  ];
}

function statistics({ candidates }: RunResult): string {
  const rows = candidates.map(
    ({ name, statistics: { method, steps, evaluations } }): Row => [own(name), method, String(steps), String(evaluations)],
  );
  return table([label('integration'), label('method'), label('integration steps'), label('evaluations')], rows);
}

/** How a log file became the profile. */
function logSentence({ file, rows, pieces, deviations, taken }: NonNullable<RunResult['scenario']['log']>): string {
  const share = (value: number): string => formatQuantity(value, 'fraction', { unit: '%', decimals: 2 });
  const each = deviations.map(({ column, largest, mean }) => `${share(largest)} of the largest ${column}, ${share(mean)} on average`);
  return `${file}: ${rows} rows as ${pieces} straight pieces, within ${each.join('; ')}.${taken.map((words) => ` ${words.charAt(0).toUpperCase()}${words.slice(1)}.`).join('')}`;
}
