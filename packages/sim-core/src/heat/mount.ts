/**
 * Heat that the motor gives off by what it is bolted to: a firewall, a bulkhead, an arm. The mount is a surface, not a sink at air temperature.
 *
 *   (1) 1/G = 1/G_joint + 1/(h·A)          (2) h = blend(natural, laminar stream) + radiation, on the length √(A/2)
 *
 * G_joint — bearing tube of an outrunner, flange of an inrunner; A — both faces of the mount; G is G_joint where no surface is known.
 * *Holds for* a mount that conducts well enough to be warm all over; give its conductance where it does not. h is taken at the temperature of the body
 * that stands on it, which is at most a tenth too much since natural convection and radiation go with about the quarter power.
 * *Leaves out* what the mount itself stores, and heat on into the airframe. *Sign* positive out of the motor.
 * *Source* (2) Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eqs. 9.26, 7.30 and 1.9. Outrunners on a bench settle after the cut 1.7 to 2.2
 * times more slowly than with a mount that stays at air temperature (Kennesaw State University UAS bench, fourteen runs).
 *
 * @module
 */

import { airConductivity, airKinematicViscosity, airPrandtl } from '../media/air.js';
import { blendCoefficients, plateCoefficient } from './convection.js';
import type { HeatPaths } from './heat-paths.js';
import { laminarPlateNusselt } from './nusselt-forced.js';
import { radiationCoefficient } from './radiation.js';

type MountPaths = Pick<HeatPaths, 'toMount' | 'mount'>;

/** Film temperatures the correlations accept end far beyond any motor. */
const COLDEST = 181;
const HOTTEST = 1000;

/** L of (2) [m]: the edge of a square as large as one face. */
export const mountLength = (area: number): number => Math.sqrt(0.5 * area);

/** (2) [W/(m²·K)]: `surface` and `air` [K], `pressure` [Pa], `airSpeed` along it [m/s]. */
function mountCoefficient(length: number, emissivity: number, surface: number, air: number, pressure: number, airSpeed: number): number {
  const still = plateCoefficient(surface, air, pressure, length, 0);
  const film = 0.5 * (surface + air);
  const reynolds = (Math.abs(airSpeed) * length) / airKinematicViscosity(film, pressure);
  const stream = airSpeed === 0 ? 0 : (laminarPlateNusselt(reynolds, airPrandtl(film)) * airConductivity(film)) / length;
  return blendCoefficients(still, stream) + radiationCoefficient(surface, air, emissivity);
}

/** Joint and surface in series [W/K]: h of (2) gives (1). */
export const throughMount = (joint: number, area: number, coefficient: number): number => {
  const surface = coefficient * area;
  return (joint * surface) / (joint + surface);
};

/** (1) Heat of the mount [W] from the body on it, at `body` [K]; arguments as for (2). NaN outside 181–1000 K. */
export function mountHeat({ toMount, mount }: MountPaths, body: number, air: number, pressure: number, airSpeed: number): number {
  if (toMount === 0 || mount === undefined) return toMount * (body - air);
  if (!(body > COLDEST && body < HOTTEST)) return Number.NaN;
  const h = mountCoefficient(mountLength(mount.area), mount.emissivity, body, air, pressure, airSpeed);
  return throughMount(toMount, mount.area, h) * (body - air);
}
