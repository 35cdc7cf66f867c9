/** What was identified, at the JSON edge: numbers in the units people read, each with the name of its unit. @module */
import { type Dimension, handyUnit, toUnit } from '../quantities/index.js';
import type { ChangeResult } from '../results/change-result.js';
import type { FoundNumber, IdentifyResult } from '../results/identify-result.js';
import type { BenchPlan } from '../results/plan-result.js';

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

/** What changed, schema shaftwork.change/1; changes are shares. */
export const changeJson = (result: ChangeResult): object => ({
  schema: 'shaftwork.change/1',
  ...result,
  numbers: result.numbers.map(({ key, words, of, at, dimension, before, after, ...shares }) => ({
    key,
    words,
    ...(of === undefined ? {} : { of }),
    ...(at === undefined ? {} : { at: { value: shown(at.value, at.dimension), unit: handyUnit(at.value, at.dimension) } }),
    unit: handyUnit(before, dimension),
    before: shown(before, dimension),
    after: shown(after, dimension, before),
    ...shares,
  })),
});

/** A bench day, schema shaftwork.bench-plan/1; what is left are shares. */
export const benchPlanJson = ({ runs, limit, ...plan }: BenchPlan): object => ({
  schema: 'shaftwork.bench-plan/1',
  ...plan,
  limit_degC: toUnit(limit, '°C'),
  runs: runs.map(({ winding, duration, ...run }) => ({ ...run, winding_degC: toUnit(winding, '°C'), duration_s: duration })),
});

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
