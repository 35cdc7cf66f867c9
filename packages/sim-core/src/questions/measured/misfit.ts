/**
 * How far a prediction is from what was measured: residuals over what the instrument errs by, each channel with one voice.
 *
 *   (1) S = mean over channels of Σ w·((m − p)/σ)²/Σ w,  σ the instrument's deviation
 *   (2) w = min(1, 5·max(median |m − p|, σ)/|m − p|): a spike of a sensor counts no more than five usual residuals
 *
 * *Source* of (2): the weights of P.J. Huber, "Robust estimation of a location parameter", Annals of Mathematical Statistics 35, 1964 (from memory).
 * @module
 */
import { quantileOfSorted, sortedSample } from '../../numerics/quantiles.js';
import { measurableOf } from '../../provenance/measurables.js';
import { STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { ComparedColumn } from './moments.js';

const SPIKE = 5;

/** σ of a column [SI]. */
export function deviationOf({ id, measured }: Pick<ComparedColumn, 'id' | 'measured'>): number {
  const { error } = measurableOf(id);
  const half = 'amount' in error ? error.amount : error.share * measured.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  return half / STANDARD_DEVIATIONS_95;
}

export interface Misfit {
  /** Weighed residuals of a prediction, channels one after another: their squares add up to (1). Where there is no prediction they are 0. */
  readonly residuals: (predicted: readonly Float64Array[]) => Float64Array;
  /** Where each channel begins among them. */
  readonly begins: readonly number[];
}

/** The weights are those of the `nominal` prediction. */
export function misfitOf(columns: readonly ComparedColumn[], nominal: readonly Float64Array[]): Misfit {
  const scales = columns.map((column, c) => {
    const sigma = deviationOf(column);
    const off = column.measured.map((m, i) => (column.counts[i] ? Math.abs(m - nominal[c][i]) : Number.NaN));
    const usual = Math.max(sigma, quantileOfSorted(sortedSample(off.filter((each) => !Number.isNaN(each))), 0.5));
    const weights = off.map((each) => (Number.isNaN(each) ? 0 : Math.min(1, (SPIKE * usual) / each)));
    const whole = weights.reduce((sum, each) => sum + each, 0) * columns.length;
    return weights.map((weight) => Math.sqrt(weight / whole) / sigma);
  });
  const begins = columns.map((_, c) => columns.slice(0, c).reduce((sum, { at }) => sum + at.length, 0));
  const length = columns.reduce((sum, { at }) => sum + at.length, 0);
  return {
    begins,
    residuals: (predicted) => {
      const out = new Float64Array(length);
      columns.forEach(({ measured }, c) => {
        for (let i = 0; i < measured.length; i++) {
          const off = (measured[i] - predicted[c][i]) * scales[c][i];
          out[begins[c] + i] = Number.isNaN(off) ? 0 : off;
        }
      });
      return out;
    },
  };
}

export const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, each, k) => sum + each * b[k], 0);
