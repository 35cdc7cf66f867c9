/**
 * Heat that the can's side and its ends give to air and surroundings, told apart.
 *
 *   (1) Q = f·h·A·(T_can − T_air) + A·q_radiation            (2) share of turning: h_spin = openness·h_spin,free
 *
 * In (2) openness works on the coefficient: the side's grows with ω^⅔ and the disc's with ω^½, so the speeds passed on are ω·openness^1.5
 * and ω·openness². *Holds for* the range of convection.ts; NaN outside 181–1000 K, so that a wild trial state is refused, never believed.
 * An openness drawn below nothing is nothing. *Leaves out* for an outrunner that its fixed end neither turns nor is free: both ends are taken as the bell's. *Sign* positive out of the can.
 *
 * @module
 */

import { cylinderEndCoefficient, cylinderSideCoefficient } from './convection.js';
import type { HeatPaths } from './heat-paths.js';
import { radiationFlux } from './radiation.js';

type CanPaths = Pick<
  HeatPaths,
  'sideArea' | 'sideCovered' | 'endArea' | 'canDiameter' | 'canLength' | 'convectionFactor' | 'emissivity' | 'openness'
>;

/** Side of the can that nothing covers [m²]. */
export const freeSide = ({ sideArea, sideCovered }: Pick<HeatPaths, 'sideArea' | 'sideCovered'>): number => sideArea * (1 - sideCovered);

/** Film temperatures the correlations accept end far beyond any motor. */
const COLDEST = 181;
const HOTTEST = 1000;

/** (1) Heat of the side [W]: `can`, `air` [K], `pressure` [Pa], `airSpeed` along the can [m/s], `spin` of the can [rad/s]. */
export function canSideHeat(paths: CanPaths, can: number, air: number, pressure: number, airSpeed: number, spin: number): number {
  const area = freeSide(paths);
  if (area === 0) return 0;
  if (!(can > COLDEST && can < HOTTEST)) return Number.NaN;
  const { openness, canDiameter, canLength } = paths;
  const turning = openness > 0 ? spin * openness * Math.sqrt(openness) : 0;
  const h = cylinderSideCoefficient(can, air, pressure, canDiameter, canLength, 0, airSpeed, turning);
  return area * (paths.convectionFactor * h * (can - air) + radiationFlux(can, air, paths.emissivity));
}

/** (1) Heat of both ends [W]; arguments as for the side. */
export function canEndHeat(paths: CanPaths, can: number, air: number, pressure: number, airSpeed: number, spin: number): number {
  if (paths.endArea === 0) return 0;
  if (!(can > COLDEST && can < HOTTEST)) return Number.NaN;
  const h = cylinderEndCoefficient(can, air, pressure, paths.canDiameter, airSpeed, paths.openness > 0 ? spin * paths.openness ** 2 : 0);
  return paths.endArea * (paths.convectionFactor * h * (can - air) + radiationFlux(can, air, paths.emissivity));
}
