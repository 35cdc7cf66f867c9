/** What candidates are ranked by: which figure, which way, and in which words; a name of the schema without a row here does not compile. @module */

import type { Objective } from '../provenance/given.js';
import type { Dimension } from '../quantities/index.js';
import type { CandidateResult } from './run-result.js';

/** The figures that an objective is read from, nominal or in one sample. */
export interface ObjectiveFigures {
  /** Peak winding temperature [K]. */
  readonly winding: number;
  /** To the reserve, to the cut-off, or as long as nothing ended it [s]. */
  readonly time: number;
  /** [m/s] */
  readonly topSpeed: number;
  /** Of the motor [kg]. */
  readonly mass: number;
}

interface ObjectiveFacts {
  readonly figure: keyof ObjectiveFigures;
  /** Which is better. */
  readonly better: 'less' | 'more';
  readonly words: string;
  /** Dimension of a difference, and the SI unit of the figure and of a difference. */
  readonly difference: Dimension;
  readonly unit: string;
  /** Who is best by it. */
  readonly best: string;
}

export const OBJECTIVE = {
  coolest: {
    figure: 'winding',
    better: 'less',
    words: 'peak winding temperature',
    difference: 'temperatureDifference',
    unit: 'K',
    best: 'the coolest',
  },
  longest: {
    figure: 'time',
    better: 'more',
    words: 'time the pack lasts',
    difference: 'time',
    unit: 's',
    best: 'the one that lasts longest',
  },
  fastest: { figure: 'topSpeed', better: 'more', words: 'top speed', difference: 'speed', unit: 'm/s', best: 'the fastest' },
  lightest: { figure: 'mass', better: 'less', words: 'mass', difference: 'mass', unit: 'kg', best: 'the lightest' },
} as const satisfies Record<Objective, ObjectiveFacts>;

/** The objective's figure, turned so that less is better. */
export function objectiveOf(figures: ObjectiveFigures, objective: Objective): number {
  const { figure, better } = OBJECTIVE[objective];
  return better === 'less' ? figures[figure] : -figures[figure];
}

/** A candidate's figures, nominal. */
export const objectiveFigures = ({
  headline,
  facts,
  outlasts,
}: Pick<CandidateResult, 'headline' | 'facts' | 'outlasts'>): ObjectiveFigures => ({
  winding: headline.peakWindingTemperature.nominal,
  time: (headline.timeToReserve ?? headline.timeToCutoff)?.nominal ?? outlasts ?? headline.runTime.nominal,
  topSpeed: headline.topSpeed.nominal,
  mass: facts.mass,
});
