/** What was measured at the JSON edge: shown units, every numeric key ends in its unit; shares, correlations and deviations are plain. @module */
import { measurableOf } from '../provenance/measurables.js';
import { toUnit } from '../quantities/index.js';
import type { MeasuredChannel, MeasuredMove, MeasuredResult } from '../results/measured-result.js';

function channelJson({
  id,
  time,
  measured,
  predicted,
  counts,
  bands,
  bias,
  rms,
  meanMeasured,
  meanPredicted,
  meanBand,
  inside,
}: MeasuredChannel): object {
  const { words, dimension, shown, suffix } = measurableOf(id);
  const level = (value: number): number => toUnit(value, shown);
  const levels = (values: readonly number[]): (number | null)[] => values.map((value) => (Number.isFinite(value) ? level(value) : null));
  // differences of temperatures are in kelvins
  const [off, offSuffix] = dimension === 'temperature' ? [(value: number): number => value, 'K'] : [level, suffix];
  return {
    id,
    words,
    [`bias_${offSuffix}`]: off(bias),
    [`rms_${offSuffix}`]: off(rms),
    ...(inside === undefined ? {} : { inside }),
    [`meanMeasured_${suffix}`]: level(meanMeasured),
    [`meanPredicted_${suffix}`]: level(meanPredicted),
    ...(meanBand === undefined
      ? {}
      : { [`meanPredicted_p05_${suffix}`]: level(meanBand.p05), [`meanPredicted_p95_${suffix}`]: level(meanBand.p95) }),
    time_s: time,
    counts,
    [`measured_${suffix}`]: levels(measured),
    [`predicted_${suffix}`]: levels(predicted),
    ...(bands === undefined
      ? {}
      : Object.fromEntries((['p05', 'p50', 'p95'] as const).map((edge) => [`${edge}_${suffix}`, levels(bands[edge])]))),
  };
}

/** A number in SI with the name of its unit beside it: each is of another dimension. */
const moveJson = ({ subject, words, dimension, value, moved, deviations, explains }: MeasuredMove): object => ({
  subject,
  words,
  dimension,
  value,
  moved,
  deviations,
  explains,
});

/** The comparison as plain JSON, units in the keys. */
export function measuredJson({
  channels,
  explanation,
  clock: { begins, better, alike, ...clock },
  from,
  to,
  ...plain
}: MeasuredResult): object {
  const moves =
    explanation.kind === 'one'
      ? { best: moveJson(explanation.best), alike: explanation.alike.map(moveJson) }
      : explanation.kind === 'none' && explanation.best !== undefined
        ? { best: moveJson(explanation.best) }
        : {};
  return {
    ...plain,
    clock: {
      ...clock,
      begins_s: begins,
      ...(alike === undefined ? {} : { alike_s: alike }),
      ...(better === undefined
        ? {}
        : { better: { column: better.column, begins_s: better.begins, correlation: better.correlation, now: better.now } }),
    },
    from_s: from,
    to_s: to,
    channels: channels.map(channelJson),
    explanation: { kind: explanation.kind, ...moves },
  };
}
