/** Which body each limit of temperature watches: the one list of them, in the order they are told. @module */

import type { Body } from '../heat/heat-paths.js';
import type { Limits } from './drive-system.js';

/** The body that each temperature limit watches. */
export const HEAT_LIMIT_BODY = {
  windingTemperature: 'winding',
  magnetTemperature: 'magnets',
  controllerTemperature: 'controller',
  cellTemperature: 'cells',
} as const satisfies { readonly [K in keyof Limits]?: Body };

/** The temperature limits that a rating may meet. */
export type HeatLimitId = keyof typeof HEAT_LIMIT_BODY;
/** The temperature limits, in the order of their bodies. */
export const HEAT_LIMITS = Object.keys(HEAT_LIMIT_BODY) as readonly HeatLimitId[];
/** A body whose temperature is limited. */
export type LimitedBody = (typeof HEAT_LIMIT_BODY)[HeatLimitId];

/** Whether a limit is one of temperature. */
export const isHeatLimit = (id: string): id is HeatLimitId => (HEAT_LIMITS as readonly string[]).includes(id);

/** One value for each temperature limit. */
export type ByHeatLimit<T = number> = { readonly [K in HeatLimitId]: T };
/** One value for each temperature limit. */
export const byHeatLimit = <T>(value: (id: HeatLimitId, k: number) => T): ByHeatLimit<T> =>
  Object.fromEntries(HEAT_LIMITS.map((id, k) => [id, value(id, k)])) as ByHeatLimit<T>;
