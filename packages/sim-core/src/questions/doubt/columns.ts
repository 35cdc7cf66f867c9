/** The rows of a doubt study read as columns, candidate by candidate. @module */

import { profileDuration } from '../../drive/profile.js';
import { quantileOfSorted, sortedSample } from '../../numerics/quantiles.js';
import type { Objective } from '../../provenance/given.js';
import { objectiveFigures, objectiveOf } from '../../results/objectives.js';
import type { CandidateResult } from '../../results/run-result.js';
import type { Standing } from '../judge/rank.js';
import type { DoubtPlan } from './plan.js';
import { ROW_FIGURES, type RowFigure, rowIndex, sampleStart } from './sample.js';

/** 5 %, 50 % and 95 % of a sample. */
export const band = (values: ArrayLike<number>): { p05: number; p50: number; p95: number } => {
  const sorted = sortedSample(values);
  return { p05: quantileOfSorted(sorted, 0.05), p50: quantileOfSorted(sorted, 0.5), p95: quantileOfSorted(sorted, 0.95) };
};

/** One candidate's samples: a column a figure. */
export interface Samples {
  readonly result: CandidateResult;
  readonly column: (figure: RowFigure) => Float64Array;
  readonly at: (sample: number, body: number, time: number) => number;
  readonly standings: readonly Standing[];
}

export function samplesOf(plan: DoubtPlan, rows: Float64Array, result: CandidateResult, candidate: number, length: number): Samples {
  const { samples, objective, times } = plan;
  const start = (i: number): number => sampleStart(plan, i) + candidate * length;
  const column = (figure: RowFigure): Float64Array => {
    const k = rowIndex(figure);
    return Float64Array.from({ length: samples }, (_, i) => rows[start(i) + k]);
  };
  const value = (i: number, figure: RowFigure): number => rows[start(i) + rowIndex(figure)];
  const duration = profileDuration(plan.profile);
  const standings = Array.from({ length: samples }, (_, i): Standing => {
    const winding = value(i, 'windingTemperature');
    return {
      fits: result.facts.fits,
      feasible: value(i, 'end') === 0 && value(i, 'passed') === 0,
      holds: value(i, 'stepsLost') === 0,
      driven: value(i, 'runTime') / duration,
      failures: bits(value(i, 'passed')) + value(i, 'stepsLost'),
      lack: value(i, 'lack'),
      objective: objectiveOf({ winding, time: value(i, 'lasting'), topSpeed: value(i, 'topSpeed'), mass: value(i, 'mass') }, objective),
      winding,
    };
  });
  return {
    result,
    column,
    standings,
    at: (sample, body, time) => rows[start(sample) + ROW_FIGURES.length + body * times.length + time],
  };
}

/** How many bits of a mask are set. */
function bits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest > 0; rest >>= 1) count += rest & 1;
  return count;
}

export const nominalObjective = (result: CandidateResult, objective: Objective): number => objectiveOf(objectiveFigures(result), objective);

export const differences = (better: Samples, worse: Samples): Float64Array =>
  Float64Array.from(better.standings, (standing, i) => worse.standings[i].objective - standing.objective);
