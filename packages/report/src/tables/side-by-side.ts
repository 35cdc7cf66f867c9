/** All candidates beside one another: fits, performs, heats, lasts. */
import { bestClimb, type CandidateResult, type ChannelId, type Figure, type LimitId, type RunResult } from '@shaftwork/sim-core';
import { unitSign } from '@shaftwork/sim-core/quantities';
import type { Look } from '../figures/palette.js';
import { type Html, html } from '../page/html.js';
import { channelPrinting, clockUnit, NO_NUMBER, numberText, type Printing, printed } from '../page/numbers.js';
import { candidateHead } from './candidate-head.js';
import { scrolling } from './data-table.js';
import { numberCell } from './number-cell.js';

interface Row {
  readonly words: string;
  readonly printing: Printing;
  readonly value: (candidate: CandidateResult) => number | undefined;
  readonly better?: 'less' | 'more';
  /** The limit this number may be past; when all candidates share its bound, the row's head names it. */
  readonly limit?: LimitId;
  /** A value that is not worth a row when all have it. */
  readonly idle?: number;
  /** 5 to 95 %, printed in a row beneath. */
  readonly figure?: (candidate: CandidateResult) => Figure;
}

interface Group {
  readonly title: string;
  readonly rows: readonly Row[];
}

const LENGTH: Printing = { dimension: 'length', unit: 'mm', decimals: 1 };
const MASS: Printing = { dimension: 'mass', unit: 'g', decimals: 0 };
const OHMS: Printing = { dimension: 'resistance', unit: 'mohm', decimals: 0 };
const PERCENT: Printing = { dimension: 'fraction', unit: '%', decimals: 1 };
const ENERGY: Printing = { dimension: 'energy', unit: 'W·h', decimals: 1 };
const CLOCK: Printing = { dimension: 'time', unit: 's', decimals: 0 };
const RATIO: Printing = { dimension: 'ratio', unit: '1', decimals: 2 };

const headline = (
  words: string,
  channel: ChannelId,
  figure: keyof CandidateResult['headline'],
  rest: Pick<Row, 'better' | 'limit' | 'idle'>,
): Row => ({
  words,
  printing: channelPrinting(channel),
  value: ({ headline: figures }) => figures[figure]?.nominal,
  figure: ({ headline: figures }) => figures[figure]!,
  ...rest,
});
const atMoment = (words: string, channel: ChannelId, rest: Pick<Row, 'better' | 'idle'> = {}): Row => ({
  words,
  printing: channelPrinting(channel),
  value: ({ moment }) => moment.channels[channel],
  ...rest,
});

const GROUPS: readonly Group[] = [
  {
    title: 'Fits',
    rows: [
      { words: 'diameter', printing: LENGTH, value: ({ facts }) => facts.canDiameter },
      { words: 'length', printing: LENGTH, value: ({ facts }) => facts.canLength },
      { words: 'mass', printing: MASS, value: ({ facts }) => facts.mass, better: 'less' },
      { words: 'winding resistance', printing: OHMS, value: ({ facts }) => facts.resistance },
      { words: 'gear ratio', printing: RATIO, value: ({ facts }) => facts.gearRatio, idle: 1 },
    ],
  },
  {
    title: 'Performs',
    rows: [
      { words: 'best climb', printing: channelPrinting('climbRate'), value: bestClimb, better: 'more' },
      {
        ...headline('top speed', 'vehicleSpeed', 'topSpeed', { better: 'more', idle: 0 }),
        value: (candidate) => (bestClimb(candidate) === undefined ? candidate.headline.topSpeed.nominal : undefined),
      },
      atMoment('speed at the hardest moment', 'vehicleSpeed', { better: 'more', idle: 0 }),
      atMoment('thrust there', 'thrust', { idle: 0 }),
      atMoment('motor speed at the hardest moment', 'shaftSpeed'),
      atMoment('shaft power there', 'shaftPower', { better: 'more' }),
      headline('peak motor current', 'motorCurrent', 'peakMotorCurrent', { limit: 'motorCurrent' }),
      headline('peak input power', 'inputPower', 'peakInputPower', { limit: 'inputPower' }),
      {
        words: 'energy of the cells that became useful',
        printing: PERCENT,
        value: ({ headline: { driveEfficiency } }) => driveEfficiency.nominal,
        better: 'more',
        idle: 0,
      },
    ],
  },
  {
    title: 'Heats',
    rows: [
      headline('peak of the winding', 'windingTemperature', 'peakWindingTemperature', { better: 'less', limit: 'windingTemperature' }),
      headline('peak of the can', 'canTemperature', 'peakCanTemperature', { better: 'less' }),
      headline('peak of the magnets', 'magnetTemperature', 'peakMagnetTemperature', { better: 'less', limit: 'magnetTemperature' }),
      headline('peak of the controller', 'controllerTemperature', 'peakControllerTemperature', {
        better: 'less',
        limit: 'controllerTemperature',
      }),
      headline('peak of the cells', 'cellTemperature', 'peakCellTemperature', { better: 'less', limit: 'cellTemperature' }),
    ],
  },
  {
    title: 'Lasts',
    rows: [
      { words: 'run time', printing: CLOCK, value: ({ headline: { runTime } }) => runTime.nominal, better: 'more', limit: 'runTime' },
      headline('charge left', 'charge', 'chargeLeft', { better: 'more', limit: 'reserve' }),
      {
        words: 'energy taken',
        printing: ENERGY,
        value: ({ headline: { energy } }) => energy.nominal,
        better: 'less',
        limit: 'batteryEnergy',
      },
      headline('peak battery current', 'batteryCurrent', 'peakBatteryCurrent', { limit: 'batteryCurrent' }),
      {
        words: 'driven again and again until the reserve',
        printing: CLOCK,
        value: ({ headline: { timeToReserve } }) => timeToReserve?.nominal,
        better: 'more',
      },
      { words: 'until the cut-off', printing: CLOCK, value: ({ headline: { timeToCutoff } }) => timeToCutoff?.nominal, better: 'more' },
    ],
  },
];

/** Rows that say nothing: a speed or thrust where no vehicle is, a gear of 1, a time that nobody reaches. */
function silent({ value, idle }: Row, candidates: readonly CandidateResult[]): boolean {
  const values = candidates.map(value);
  return values.every((one) => one === undefined || !Number.isFinite(one) || one === idle);
}

export function sideBySide({ candidates }: RunResult, looks: readonly Look[]): Html {
  const columns = candidates.length + 1;
  const groups = GROUPS.map(({ title, rows }) => ({ title, rows: rows.filter((row) => !silent(row, candidates)) })).filter(
    ({ rows }) => rows.length > 0,
  );
  const table = html`<table class="cmp${candidates.length > 4 ? ' many' : ''}"><thead><tr><td></td>${looks.map((look) => candidateHead(look))}</tr></thead><tbody>
${groups.map(
  ({ title, rows }) => html`<tr class="grp"><th colspan="${columns}" scope="rowgroup">${title}</th></tr>
${title === 'Fits' ? fitsRow(candidates) : title === 'Lasts' ? endRow(candidates) : ''}${rows.map((row) => rowOf(row, candidates))}`,
)}</tbody></table>`;
  return scrolling('Candidates side by side', table);
}

/** Said only when one of them does not. */
const fitsRow = (candidates: readonly CandidateResult[]): Html | undefined =>
  candidates.every(({ facts }) => facts.fits)
    ? undefined
    : html`<tr><th scope="row">fits the space</th>${candidates.map(({ facts }) => html`<td class="txt">${facts.fits ? 'yes' : html`no<sup>†</sup>`}</td>`)}</tr>\n`;

const ENDS = { finished: 'at its end', 'cut-off': 'at the cut-off', empty: 'empty', failed: 'failed' } as const;
/** Said only when one of them does not come to the end. */
const endRow = (candidates: readonly CandidateResult[]): Html | undefined =>
  candidates.every(({ end }) => end === 'finished')
    ? undefined
    : html`<tr><th scope="row">the run stopped</th>${candidates.map(({ end }) => html`<td class="txt">${ENDS[end]}</td>`)}</tr>\n`;

function rowOf(row: Row, candidates: readonly CandidateResult[]): Html {
  const { words, value, better, limit, figure } = row;
  const printing = withoutIdleDecimals(row.printing, candidates.map(value));
  const limitOf = (candidate: CandidateResult) => candidate.limits.find(({ id }) => id === limit);
  const texts = candidates.map((candidate) => {
    const number = value(candidate);
    return number === undefined ? NO_NUMBER : numberText(number, printing);
  });
  const past = candidates.map((candidate) => limitOf(candidate)?.passedAt !== undefined);
  const bounds = [
    ...new Set(
      candidates.map(limitOf).flatMap((one) => (one === undefined || !Number.isFinite(one.bound) ? [] : [numberText(one.bound, printing)])),
    ),
  ];
  const unit =
    printing.dimension === 'time'
      ? clockUnit(Math.max(0, ...candidates.map((candidate) => value(candidate) ?? 0)))
      : unitSign(printing.unit);
  const head = `${words}${unit === '' ? '' : `, ${unit}`}${bounds.length === 1 ? `; limit ${bounds[0]}` : ''}`;
  const bests = better === undefined ? [] : bestOf(candidates, value, printing, better, past);
  const main = html`<tr><th scope="row">${head}</th>${texts.map((text, index) => numberCell(text, { best: bests.includes(index), past: past[index]! }))}</tr>\n`;
  const under: Html[] = [];
  if (bounds.length > 1) {
    under.push(
      quietRow(
        'its limit',
        candidates.map((candidate) => {
          const own = limitOf(candidate);
          return own === undefined ? NO_NUMBER : numberText(own.bound, printing);
        }),
      ),
    );
  }
  const figures = figure === undefined ? [] : candidates.map(figure);
  if (figures.some((one) => one?.p05 !== undefined && one.p95 !== undefined)) {
    under.push(
      quietRow(
        'the same, 5 to 95\u202f%',
        figures.map((one) =>
          one?.p05 === undefined || one.p95 === undefined ? NO_NUMBER : `${numberText(one.p05, printing)}–${numberText(one.p95, printing)}`,
        ),
      ),
    );
  }
  return html`${main}${under}`;
}

/** Lengths in whole millimetres need no decimals. */
function withoutIdleDecimals(printing: Printing, values: readonly (number | undefined)[]): Printing {
  const idle = printing.dimension === 'length' && values.every((one) => one === undefined || Number.isInteger(printed(one, printing)));
  return idle ? { ...printing, decimals: 0 } : printing;
}

const quietRow = (words: string, texts: readonly string[]): Html =>
  html`<tr class="quiet"><th scope="row">${words}</th>${texts.map((text) => numberCell(text))}</tr>\n`;

/** All that print the best value; nobody when all print the same or one stands alone; never one past its limit, nor one that did not drive the whole run (its mass apart). */
function bestOf(
  candidates: readonly CandidateResult[],
  value: Row['value'],
  printing: Printing,
  better: 'less' | 'more',
  past: readonly boolean[],
): readonly number[] {
  const sign = better === 'less' ? -1 : 1;
  const scores = candidates.map((candidate, index) => {
    const number = value(candidate);
    const counts =
      number !== undefined &&
      Number.isFinite(number) &&
      !past[index] &&
      (candidate.end === 'finished' || (better === 'less' && printing.dimension === 'mass'));
    return counts ? sign * printed(number, printing) : Number.NEGATIVE_INFINITY;
  });
  const top = Math.max(...scores);
  if (top === Number.NEGATIVE_INFINITY || candidates.length < 2 || scores.every((score) => score === top)) return [];
  return scores.flatMap((score, index) => (score === top ? [index] : []));
}
