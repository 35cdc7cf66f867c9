/** Which way the motor's heat leaves: the surfaces by which a motor is chosen. @module */

import { HEAT_WAY_IDS, type HeatWay } from '../heat/heat-ways.js';
import type { CandidateResult } from './run-result.js';

/** All ways but the own surfaces of controller and cells. */
export const MOTOR_WAYS: readonly HeatWay[] = HEAT_WAY_IDS.filter((way) => way !== 'controller' && way !== 'cells');

/** Less than this share of the motor's heat is nothing to choose by [1]. */
export const SLIGHT_SHARE = 0.02;

/** Share of what leaves by `MOTOR_WAYS` over the run that leaves by `way` [1]; 0 where nothing leaves. */
export function shareByWay({ energy: { heatLeaves } }: Pick<CandidateResult, 'energy'>, way: HeatWay): number {
  const all = MOTOR_WAYS.reduce((sum, each) => sum + heatLeaves[each], 0);
  return all > 0 ? heatLeaves[way] / all : 0;
}

/** Whether so little leaves this way, of every candidate, over the run and at the hardest moment, that nobody need look: a can cooled by water gives the air nothing. */
export function isSlightWay(way: HeatWay, candidates: readonly Pick<CandidateResult, 'energy' | 'moment'>[]): boolean {
  return candidates.every((candidate) => {
    const { leaves } = candidate.moment;
    const all = MOTOR_WAYS.reduce((sum, each) => sum + Math.abs(leaves[each]), 0);
    return Math.abs(shareByWay(candidate, way)) < SLIGHT_SHARE && Math.abs(leaves[way]) <= SLIGHT_SHARE * all;
  });
}
