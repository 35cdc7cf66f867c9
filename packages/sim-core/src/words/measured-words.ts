/** What a log says of a prediction: how its clock was laid on the run, where the means part, and which assumption explains it. @module */
import { listed } from '../problems/listed.js';
import { type MeasurableId, measurableOf } from '../provenance/measurables.js';
import { type Dimension, formatNumber, formatQuantity, STANDARD_DEVIATIONS_95, toUnit } from '../quantities/index.js';
import type { MeasuredChannel, MeasuredMove, MeasuredResult, SensorScale } from '../results/measured-result.js';
import { capital, differenceText, numberText, type Printing, quantityText } from './printing.js';

/** How something measured is shown. */
export const measurablePrinting = (id: MeasurableId): Printing => {
  const { dimension, shown, decimals } = measurableOf(id);
  return { dimension, unit: shown, decimals };
};

const seconds = (value: number): string => formatQuantity(value, 'time', { unit: 's', decimals: 1 });
const share = (value: number): string => `${formatNumber(100 * value, { decimals: 0 })}\u202f%`;
const two = (value: number): string => formatNumber(value, { decimals: 2 });

/** A difference of SI values as it is shown: of temperatures in kelvins. */
export const differenceOf = (value: number, printing: Printing): string =>
  differenceText(printing.dimension === 'temperature' ? value : toUnit(value, printing.unit), printing);
/** The same with its sign: "+1.2 A". */
export const signedText = (value: number, printing: Printing): string => `${value < 0 ? '−' : '+'}${differenceOf(value, printing)}`;

function clockSentences({ clock, file }: Pick<MeasuredResult, 'clock' | 'file'>): readonly string[] {
  const { by, begins, column, correlation, alike, better } = clock;
  if (by === 'profile') return [];
  if (by === 'given') return [`The run begins at ${seconds(begins)} of the clock of ${file}, as was said.`];
  if (by === 'column' && column !== undefined && correlation !== undefined) {
    const rival = alike === undefined ? '' : ` ${seconds(alike)} would fit nearly as well: look whether the laps are the same.`;
    return [
      `By its ${measurableOf(column).words} the run begins at ${seconds(begins)} of the clock of ${file}; the two follow one another to ${two(correlation)} of 1.${rival}`,
    ];
  }
  const told = `The first row of ${file}, ${seconds(begins)} by its clock, is taken for the beginning of the run.`;
  if (better === undefined) return [told];
  return [
    `${told} Its ${measurableOf(better.column).words} would follow the prediction far better, to ${two(better.correlation)} of 1 in place of ${two(better.now)}, if the run began at ${seconds(better.begins)}: write align: ${better.column} under measured:, or begins: with the time that you know.`,
  ];
}

/** How far a mean lies outside the draws and what the instrument errs by, over the prediction [1]; 0 inside. */
function outside({ meanMeasured, meanPredicted, meanBand, deviation }: MeasuredChannel): number {
  if (meanBand === undefined) return 0;
  const room = STANDARD_DEVIATIONS_95 * deviation;
  const beyond = Math.max(meanMeasured - meanBand.p95 - room, meanBand.p05 - room - meanMeasured, 0);
  return beyond / Math.max(Math.abs(meanPredicted), room);
}

const MOST_OTHERS = 3;
/** Sensors are seldom off by more than this factor: common practice, no published source. */
const NO_SCALE = 1.5;

/** Means that no tolerance allows, and what follows from it. `parts` is what may be other than it is written. */
function meanSentence({ channels, explanation }: Pick<MeasuredResult, 'channels' | 'explanation'>, parts: string): readonly string[] {
  const [worst, ...others] = channels
    .filter(({ id }) => measurableOf(id).place === undefined)
    .map((channel) => ({ channel, off: outside(channel) }))
    .filter(({ off }) => off > 0)
    .sort((a, b) => b.off - a.off)
    .map(({ channel }) => channel);
  if (worst === undefined) return [];
  const text = ({ id }: MeasuredChannel, value: number): string => quantityText(value, measurablePrinting(id));
  const { meanBand } = worst;
  const draws =
    meanBand === undefined
      ? ''
      : ` (${numberText(meanBand.p05, measurablePrinting(worst.id))} to ${text(worst, meanBand.p95)} in 9 of 10 draws)`;
  const more = others
    .slice(0, MOST_OTHERS)
    .map((each) => `${measurableOf(each.id).words} ${text(each, each.meanMeasured)} against ${text(each, each.meanPredicted)}`);
  const also = more.length === 0 ? '' : `, and so ${listed(more)}`;
  const so = explanation.kind === 'one' ? '' : `: ${parts} is not what is written, or a sensor is off`;
  return [
    `The log’s mean ${measurableOf(worst.id).words} is ${text(worst, worst.meanMeasured)}, the prediction ${text(worst, worst.meanPredicted)}${draws}${also}${so}.`,
  ];
}

const moveName = ({ words }: MeasuredMove): string => words.split(/: |, (?=[\d×])/)[0].replace(/ \([^)]*$/, '');
const moveValue = ({ dimension }: MeasuredMove, value: number): string => formatQuantity<Dimension>(value, dimension, { significant: 3 });
const deviations = (move: MeasuredMove): string =>
  `${move.deviations < 0 ? '−' : '+'}${formatNumber(Math.abs(move.deviations), { decimals: 1 })} of its own deviations`;
/** A number and where it would have to move. */
export const moveText = (move: MeasuredMove): string =>
  `${moveName(move)}, ${moveValue(move, move.moved)} in place of ${moveValue(move, move.value)} (${deviations(move)})`;

function sensorSentences({ id, factor, explains }: SensorScale): string {
  const shows = formatNumber(100 * factor, factor < 1 ? { significant: 2 } : { decimals: 0 });
  return [
    `A sensor of the ${measurableOf(id).words} that shows ${shows}\u202f% of what it should would take away ${share(explains)} of the squared residuals.`,
    ...(factor > NO_SCALE || factor < 1 / NO_SCALE
      ? ['So far off it is rather the unit in the head of its column, or a setting of the logger.']
      : []),
    ...(id === 'battery_current' ? ['The charge that the charger put back tells: write charge_put_back: beside the log.'] : []),
  ].join(' ');
}

function explanationSentences({ explanation, sensor, moved }: Pick<MeasuredResult, 'explanation' | 'sensor' | 'moved'>): readonly string[] {
  const scale = sensor === undefined ? [] : [sensorSentences(sensor)];
  if (explanation.kind === 'nothing-to-explain')
    return ['The residuals are no larger than what such instruments err by: there is nothing to explain.', ...scale];
  if (explanation.kind === 'none') {
    const { best } = explanation;
    const nearest =
      best === undefined
        ? 'moving none of them helps'
        : `the one that helps most, ${moveText(best)}, takes away ${share(best.explains)} of the squared residuals`;
    return [`No single one of ${moved} uncertain numbers explains it within three of its deviations: ${nearest}.`, ...scale];
  }
  const { best, alike } = explanation;
  const others =
    alike.length === 0
      ? ''
      : ` ${capital(listed(alike.map((move) => `${moveText(move)}, ${share(move.explains)}`)))} would do nearly as well: this log cannot tell them apart.`;
  return [
    `Of ${moved} uncertain numbers one alone explains it best: ${moveText(best)}, takes away ${share(best.explains)} of the squared residuals.${others}`,
    ...scale,
  ];
}

/** All that is said of a comparison. `parts`: what of the drive may be other than it is written, with its article. */
export const measuredSentences = (result: Omit<MeasuredResult, 'sentences'>, parts: string): readonly string[] => [
  ...meanSentence(result, parts),
  ...(result.nearer === undefined
    ? []
    : [
        `Nobody said whose run it was: ${result.nearer.name} comes much nearer to the log than ${result.candidate}, with ${share(result.nearer.share)} of its squared residuals. Name it by --measured-on, or candidate: under measured:.`,
      ]),
  ...explanationSentences(result),
  ...clockSentences(result),
];
