/** The headline numbers of one run, small enough to be kept in every later report. SI. @module */

import type { HeadlineId, RunResult } from '@shaftwork/sim-core';

/** What is kept and compared; words and printing are the headline's own. */
export const KEPT_IDS = [
  'peakWindingTemperature',
  'peakCanTemperature',
  'peakControllerTemperature',
  'peakMotorCurrent',
  'topSpeed',
  'chargeLeft',
  'energy',
  'runTime',
] as const satisfies readonly HeadlineId[];

/** The figures of a run that are kept to compare. */
export interface Headline {
  readonly date?: string;
  readonly version: string;
  readonly hash: string;
  /** The first of the ranking when it meets every limit. */
  readonly choice?: string;
  readonly candidates: readonly {
    readonly name: string;
    readonly feasible: boolean;
    readonly figures: { readonly [K in HeadlineId]?: number };
  }[];
}

/** What is kept of a run. */
export function headlineOf(result: RunResult, date?: string): Headline {
  const first = result.candidates.find(({ name }) => name === result.ranking[0]);
  return {
    ...(date === undefined ? {} : { date }),
    version: result.version,
    hash: result.scenario.hash,
    ...(first?.feasible ? { choice: first.name } : {}),
    candidates: result.candidates.map(({ name, feasible, headline }) => ({
      name,
      feasible,
      figures: Object.fromEntries(
        KEPT_IDS.flatMap((id) => {
          const value = headline[id]?.nominal;
          return value !== undefined && Number.isFinite(value) ? [[id, Number(value.toPrecision(9))]] : [];
        }),
      ),
    })),
  };
}
