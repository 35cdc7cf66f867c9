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

export const DAMAGED_BODIES = ['winding', 'magnets', 'controller', 'cells'] as const;
export type DamagedBody = (typeof DAMAGED_BODIES)[number];

const DAMAGE: Readonly<Record<DamagedBody, number>> = {
  winding: fromUnit(320, '°C'),
  magnets: 585,
  controller: fromUnit(217, '°C'),
  cells: fromUnit(250, '°C'),
};

/** Where each body is destroyed [K], in the order of DAMAGED_BODIES: never below its limit; Infinity where none watches it. */
export const damageTemperatures = (limits: Limits): readonly number[] =>
  [limits.windingTemperature, limits.magnetTemperature, limits.controllerTemperature, limits.cellTemperature].map((limit, k) =>
    limit === Number.POSITIVE_INFINITY ? limit : Math.max(limit, DAMAGE[DAMAGED_BODIES[k]]),
  );
