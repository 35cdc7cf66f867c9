/** What was identified, at the JSON edge: numbers in the units people read, each with the name of its unit. @module */
import { type Dimension, handyUnit, toUnit } from '../quantities/index.js';
import type { FoundNumber, IdentifyResult } from '../results/identify-result.js';

const shown = (value: number, dimension: Dimension, of = value): number => toUnit(value, handyUnit(of, dimension));

function numberJson({ key, words, of, at, dimension, value, low, high, told, instead }: FoundNumber): object {
  return {
    key,
    words,
    ...(of === undefined ? {} : { of }),
    ...(at === undefined ? {} : { at: { value: shown(at.value, at.dimension), unit: handyUnit(at.value, at.dimension) } }),
    unit: handyUnit(value, dimension),
    value: shown(value, dimension),
    low: shown(low, dimension, value),
    high: shown(high, dimension, value),
    told,
    ...(instead === undefined ? {} : { instead }),
  };
}

/** One document, schema shaftwork.identify/1. */
export const identifyJson = (result: IdentifyResult): object => ({
  schema: 'shaftwork.identify/1',
  ...result,
  numbers: result.numbers.map(numberJson),
  fits: result.fits.map(({ dimension, left, points, ...fit }) => ({
    ...fit,
    left: shown(left, dimension === 'temperature' ? 'temperatureDifference' : dimension),
    unit: handyUnit(points[0]?.read ?? 1, dimension),
    points: points.map(({ along, read, law, group, weight }) => ({
      along: shown(along, result.along.dimension, points[0]?.along),
      read: shown(read, dimension, points[0]?.read),
      law: shown(law, dimension, points[0]?.read),
      group,
      weight,
    })),
  })),
  along: { words: result.along.words, unit: handyUnit(result.fits[0]?.points[0]?.along ?? 1, result.along.dimension) },
});
