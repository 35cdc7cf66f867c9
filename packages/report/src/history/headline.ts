/** The headline numbers of one run, small enough to be kept in every later report. SI. @module */

import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { channelPrinting, type Printing } from '@shaftwork/sim-core/words';

type HeadlineId = keyof CandidateResult['headline'];

/** What is kept and compared, with how it is printed. */
export const KEPT = {
  peakWindingTemperature: { words: 'peak of the winding', printing: channelPrinting('windingTemperature') },
  peakCanTemperature: { words: 'peak of the can', printing: channelPrinting('canTemperature') },
  peakControllerTemperature: { words: 'peak of the controller', printing: channelPrinting('controllerTemperature') },
  peakMotorCurrent: { words: 'peak motor current', printing: channelPrinting('motorCurrent') },
  topSpeed: { words: 'top speed', printing: channelPrinting('vehicleSpeed') },
  chargeLeft: { words: 'charge left', printing: channelPrinting('charge') },
  energy: { words: 'energy taken', printing: { dimension: 'energy', unit: 'W·h', decimals: 1 } },
  runTime: { words: 'run time', printing: { dimension: 'time', unit: 's', decimals: 0 } },
} as const satisfies { readonly [K in HeadlineId]?: { readonly words: string; readonly printing: Printing } };
export type KeptId = keyof typeof KEPT;
export const KEPT_IDS = Object.keys(KEPT) as readonly KeptId[];

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
