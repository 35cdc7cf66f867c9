/** What was measured against what is predicted, in the terminal: residuals in a table, what they say below it. @module */
import { type MeasuredChannel, type MeasuredResult, measurableOf } from '@shaftwork/sim-core';
import { formatNumber, unitSign } from '@shaftwork/sim-core/quantities';
import { differenceOf, measurablePrinting, numberText, signedText } from '@shaftwork/sim-core/words';
import { BARE, label, own, type Row } from './labels.js';
import { table, wrap } from './table.js';

/** `several`: whether another candidate might have been measured. */
export function measuredText(result: MeasuredResult, several: boolean): string {
  const { file, rows, candidate, named, driven, channels, sentences, taken } = result;
  const whose = !several ? '' : named ? ` on ${candidate}` : ` on ${candidate}, the leader (another: --measured-on)`;
  const sampled = channels.some(({ inside }) => inside !== undefined);
  return [
    wrap(`${driven ? `What ${file} has besides what is driven` : `${file}, ${rows} rows`}, measured${whose}, against the prediction:`),
    table(
      [BARE, label('log'), label('predicted'), label('bias'), label('RMS'), ...(sampled ? [label('in 5–95 %')] : [])],
      channels.map((channel) => row(channel, sampled)),
    ),
    ...sentences.map((sentence) => wrap(sentence)),
    ...(taken.length === 0 ? [] : [wrap(`${taken.map((words) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`).join(' ')}`)]),
    '',
  ].join('\n');
}

/** Means, bias, RMS and the share of the samples within the draws. */
function row({ id, meanMeasured, meanPredicted, bias, rms, inside }: MeasuredChannel, sampled: boolean): Row {
  const { words, shown } = measurableOf(id);
  const printing = measurablePrinting(id);
  const share = inside === undefined ? '–' : `${formatNumber(100 * inside, { decimals: 0 })} %`;
  return [
    own(`${words}, ${unitSign(shown)}`),
    numberText(meanMeasured, printing),
    numberText(meanPredicted, printing),
    signedText(bias, printing),
    differenceOf(rms, printing),
    ...(sampled ? [share] : []),
  ];
}
