/** Which way the motor's heat leaves: the surfaces by which a motor is chosen. @module */

import { HEAT_WAY_IDS, type HeatWay } from '../heat/heat-ways.js';
import type { CandidateResult } from './run-result.js';

/** All ways but the own surfaces of controller and cells. */
export const MOTOR_WAYS: readonly HeatWay[] = HEAT_WAY_IDS.filter((way) => way !== 'controller' && way !== 'cells');

/** Share of what leaves by `MOTOR_WAYS` over the run that leaves by `way` [1]; 0 where nothing leaves. */
export function shareByWay({ energy: { heatLeaves } }: Pick<CandidateResult, 'energy'>, way: HeatWay): number {
  const all = MOTOR_WAYS.reduce((sum, each) => sum + heatLeaves[each], 0);
  return all > 0 ? heatLeaves[way] / all : 0;
}
