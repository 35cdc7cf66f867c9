import { cylinderEndCoefficient, cylinderSideCoefficient } from './convection.js';
import type { HeatPaths } from './heat-paths.js';
import { radiationFlux } from './radiation.js';

/** Film temperatures the correlations accept end far beyond any motor; a wild trial state of an integrator is answered with NaN. */
const COLDEST = 181;
const HOTTEST = 1000;

/**
 * Heat [W] that the can's side and ends give to air and surroundings: Q = f·(h_side·A_side + h_end·A_ends)·(T_can − T_air) + radiation.
 *
 * `can`, `air` [K], `pressure` [Pa], `airSpeed` along the can [m/s], `spin` of the can [rad/s]; f is the factor on convection.
 * A surface of no area gives nothing. NaN outside 181–1000 K. *Sign* positive out of the can.
 */
export function canHeatFlow(
  paths: Pick<HeatPaths, 'sideArea' | 'endArea' | 'canDiameter' | 'canLength' | 'convectionFactor' | 'emissivity'>,
  can: number,
  air: number,
  pressure: number,
  airSpeed: number,
  spin: number,
): number {
  const { sideArea, endArea } = paths;
  if (sideArea + endArea === 0) return 0;
  if (!(can > COLDEST && can < HOTTEST)) return Number.NaN;
  let conductance = 0;
  if (sideArea > 0)
    conductance += sideArea * cylinderSideCoefficient(can, air, pressure, paths.canDiameter, paths.canLength, 0, airSpeed, spin);
  if (endArea > 0) conductance += endArea * cylinderEndCoefficient(can, air, pressure, paths.canDiameter, airSpeed, spin);
  return paths.convectionFactor * conductance * (can - air) + (sideArea + endArea) * radiationFlux(can, air, paths.emissivity);
}
