/**
 * Doubt and why at the JSON edge: SI figures become shown units, every numeric key ends in its unit; chances, shares and errors are plain.
 *
 * @module
 */

import { toUnit } from '../quantities/index.js';
import { TEMPERATURE_CHANNELS } from '../results/channels.js';
import type { DoubtResult, Sensitivity } from '../results/doubt-result.js';
import type { WhyResult } from '../results/why-result.js';
import { isJsonDimension, withUnit } from './json-units.js';

/** `name` with its unit, and the value in it; what has no unit here stays plain. */
function inUnit(name: string, value: number, dimension: string): [string, number] {
  return isJsonDimension(dimension) ? withUnit(name, value, dimension) : [name, value];
}

const degrees = (values: readonly number[]): number[] => values.map((value) => toUnit(value, '°C'));

const sensitivityJson = ({ words, dimension, standardDeviation, shares, rest }: Sensitivity): object => ({
  words,
  ...Object.fromEntries([inUnit('standardDeviation', standardDeviation, dimension)]),
  shares,
  rest,
});

/** The doubt as plain JSON, units in the keys. */
export function doubtJson({ candidates, comparisons, peaks, leaders, ...plain }: DoubtResult): object {
  return {
    ...plain,
    candidates: candidates.map(({ curves, sensitivities, canAfterStop, ...rest }) => ({
      ...rest,
      ...(canAfterStop === undefined
        ? {}
        : {
            canAfterStop: Object.fromEntries(
              (['p05', 'p50', 'p95'] as const).map((edge) => [`${edge}_degC`, toUnit(canAfterStop[edge], '°C')]),
            ),
          }),
      curves: {
        time_s: curves.time,
        running: curves.running,
        ...Object.fromEntries(
          TEMPERATURE_CHANNELS.flatMap((id) =>
            (['p05', 'p50', 'p95'] as const).map((edge) => [`${id}_${edge}_degC`, degrees(curves.channels[id][edge])]),
          ),
        ),
      },
      sensitivities: sensitivities.map(sensitivityJson),
    })),
    comparisons: comparisons.map(({ difference: { words, dimension, ...values }, ...rest }) => ({
      ...rest,
      difference: { words, ...Object.fromEntries(Object.entries(values).map(([key, value]) => inUnit(key, value, dimension))) },
    })),
    peaks: {
      channel: peaks.channel,
      words: peaks.words,
      candidates: peaks.candidates.map(({ name, draws, bound }) => ({
        name,
        draws_degC: degrees(draws),
        ...(bound === undefined ? {} : { bound_degC: toUnit(bound, '°C') }),
      })),
    },
    ...(leaders === undefined ? {} : { leaders: { ...leaders, sensitivity: sensitivityJson(leaders.sensitivity) } }),
  };
}

/** The answer to why as plain JSON, units in the keys. */
export function whyJson({ splits, ...plain }: WhyResult): object {
  return {
    ...plain,
    splits: splits.map(({ quantity, words, dimension, from, to, difference, parts, interaction, interactionsExceedParts }) => {
      const gap = dimension === 'temperature' ? 'temperatureDifference' : dimension;
      return {
        quantity,
        words,
        ...Object.fromEntries([inUnit('from', from, dimension), inUnit('to', to, dimension), inUnit('difference', difference, gap)]),
        parts: parts.map(({ id, words: told, value, ways }) => ({
          id,
          words: told,
          ...Object.fromEntries([inUnit('value', value, gap)]),
          ...(ways === undefined
            ? {}
            : {
                ways: ways.map((way) => ({ id: way.id, words: way.words, ...Object.fromEntries([inUnit('value', way.value, gap)]) })),
              }),
        })),
        ...(interaction === undefined
          ? {}
          : { interaction: { between: interaction.between, ...Object.fromEntries([inUnit('value', interaction.value, gap)]) } }),
        interactionsExceedParts,
      };
    }),
  };
}
