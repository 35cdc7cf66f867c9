/**
 * Temperatures past which a part is no longer what was calculated: a run ends there.
 *
 * Winding: usual enamel softens and is cut through by its neighbours (IEC 60317-13, class 200, from memory). Magnets: Curie temperature of Nd₂Fe₁₄B,
 * 585 K (J. M. D. Coey, Magnetism and Magnetic Materials, 2010, table 11, from memory). Controller: tin–silver–copper solder melts (JEITA alloy SAC305,
 * from memory). Cells: beyond the onset of thermal runaway of every lithium chemistry (common practice, no published source).
 *
 * @module
 */

import { fromUnit } from '../quantities/convert.js';
import type { Limits } from './drive-system.js';
import { type ByHeatLimit, byHeatLimit } from './heat-limits.js';

const DAMAGE: ByHeatLimit = {
  windingTemperature: fromUnit(320, '°C'),
  magnetTemperature: 585,
  controllerTemperature: fromUnit(217, '°C'),
  cellTemperature: fromUnit(250, '°C'),
};

/** Where the body that each limit watches is destroyed [K]: never below the limit; Infinity where none watches it. */
export const damageTemperatures = (limits: Limits): ByHeatLimit =>
  byHeatLimit((id) => (limits[id] === Number.POSITIVE_INFINITY ? limits[id] : Math.max(limits[id], DAMAGE[id])));
