/** Which body each limit of temperature watches: the one list of them, in the order they are told. @module */

import type { Body } from '../heat/heat-paths.js';
import type { Limits } from './drive-system.js';

export const HEAT_LIMIT_BODY = {
  windingTemperature: 'winding',
  magnetTemperature: 'magnets',
  controllerTemperature: 'controller',
  cellTemperature: 'cells',
} as const satisfies { readonly [K in keyof Limits]?: Body };

/** The temperature limits that a rating may meet. */
export type HeatLimitId = keyof typeof HEAT_LIMIT_BODY;
export const HEAT_LIMITS = Object.keys(HEAT_LIMIT_BODY) as readonly HeatLimitId[];
export type LimitedBody = (typeof HEAT_LIMIT_BODY)[HeatLimitId];

export const isHeatLimit = (id: string): id is HeatLimitId => (HEAT_LIMITS as readonly string[]).includes(id);

/** One value for each temperature limit. */
export type ByHeatLimit<T = number> = { readonly [K in HeatLimitId]: T };
export const byHeatLimit = <T>(value: (id: HeatLimitId, k: number) => T): ByHeatLimit<T> =>
  Object.fromEntries(HEAT_LIMITS.map((id, k) => [id, value(id, k)])) as ByHeatLimit<T>;
