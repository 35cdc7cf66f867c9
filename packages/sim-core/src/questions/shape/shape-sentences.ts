/** What is said of a family of shapes: the best of them, what makes it so, and how much the shape matters. @module */

import { formatNumber, formatQuantity } from '../../quantities/index.js';
import type { ShapePoint, ShapeResult } from '../../results/shape-result.js';

const celsius = (value: number): string => formatQuantity(value, 'temperature', { unit: '°C', decimals: 0 });
const millimetres = (value: number): string => formatQuantity(value, 'length', { unit: 'mm', decimals: 1 });
const canText = ({ diameter, length, ratio }: ShapePoint): string =>
  `${millimetres(diameter)} × ${millimetres(length)} (diameter : length ${formatNumber(ratio, { significant: 2 })})`;

/** Shapes whose winding peaks within this of the best one's are as good [K]; what a diameter must differ by to be another shape [1]. */
const AS_GOOD = 2;
const ANOTHER_SHAPE = 1.1;

/** How much the shape matters, and whether the best stands at the end of the shapes looked at. */
export function howFlat(best: ShapePoint, family: readonly ShapePoint[]): string[] {
  const good = family.filter(
    ({ fits, meetsLimits, peakWindingTemperature }) =>
      fits && meetsLimits && peakWindingTemperature - best.peakWindingTemperature < AS_GOOD,
  );
  const [thin, thick] = [
    Math.min(best.diameter, ...good.map(({ diameter }) => diameter)),
    Math.max(best.diameter, ...good.map(({ diameter }) => diameter)),
  ];
  const ratios = family.map(({ ratio }) => ratio);
  const atEnd = best.ratio < 1.01 * Math.min(...ratios) ? 'longest' : best.ratio > 0.99 * Math.max(...ratios) ? 'widest' : undefined;
  return [
    ...(thick > ANOTHER_SHAPE * thin
      ? [`From ${millimetres(thin)} to ${millimetres(thick)} across it changes by less than ${AS_GOOD} K: the shape hardly matters there.`]
      : []),
    ...(atEnd === undefined ? [] : [`It is the ${atEnd} shape that was looked at.`]),
  ];
}

/** The best shape within limits and space, and without the space, beside the reference `own`. */
export function shapeSentences(
  own: ShapePoint,
  best: ShapePoint | undefined,
  unbounded: ShapePoint | undefined,
  drivers: ShapeResult['drivers'],
): string[] {
  if (best === undefined) {
    return [
      'No shape of this mass and Kv meets every limit in the space.',
      ...(unbounded === undefined
        ? []
        : [`With more room a can of ${canText(unbounded)} would, at ${celsius(unbounded.peakWindingTemperature)}.`]),
    ];
  }
  const sentences = [
    `At the mass and Kv of the reference the best shape within limits and space is a can of ${canText(best)}: its winding peaks at ${celsius(best.peakWindingTemperature)}, the reference’s, ${canText(own)}, at ${celsius(own.peakWindingTemperature)}.`,
  ];
  const told = drivers.filter(({ change }) => Math.abs(change) >= 1).sort((a, b) => Math.abs(b.change) - Math.abs(a.change));
  if (told.length > 0)
    sentences.push(
      `Each alone: ${told.map(({ words, change }) => `${words} ${change < 0 ? '\u2212' : '+'}${formatNumber(Math.abs(change), { decimals: 0 })} K`).join(', ')}.`,
    );
  if (unbounded !== undefined && Math.abs(unbounded.ratio / best.ratio - 1) > 0.02)
    sentences.push(`Without the space it would be a can of ${canText(unbounded)} at ${celsius(unbounded.peakWindingTemperature)}.`);
  return sentences;
}
