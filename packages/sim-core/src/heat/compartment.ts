/**
 * How the air of a compartment changes what a controller or a pack gives off to it, beside its conductance in still air at sea level.
 *
 *   (1) G = G_still·[1 + c·((n³ + f³)^⅓ − 1)]          (2) n = √(p/p₀)          (3) f = √(p/p₀ · v/v₁)
 *
 * c — share of G_still that is convection, the rest radiates; p — pressure of the air, p₀ — at sea level; v — its speed past the part; v₁ — speed at
 * which a laminar stream takes as much as still air does.
 * *Holds for* parts of some centimetres: v₁ where 3.84·√(v/L) W/(m²·K) on L = 6 cm meets 5 W/(m²·K).
 * *Source* Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eqs. 7.30 (laminar plate, h ∝ √(v·p)) and 9.26 (Ra^¼, h ∝ √p); cube rule 9.64.
 *
 * @module
 */

import { SEA_LEVEL_PRESSURE } from '../media/standard-atmosphere.js';

/** v₁ [m/s]. */
export const EVEN_SPEED = 0.1;

/** (n³ + f³)^⅓ of (2) and (3) [1], as √(p/p₀)·(1 + (v/v₁)^1.5)^⅓: `pressure` [Pa], `airSpeed` [m/s]. */
export const compartmentConvection = (pressure: number, airSpeed: number): number => {
  const still = Math.sqrt(pressure / SEA_LEVEL_PRESSURE);
  if (airSpeed === 0) return still;
  const even = airSpeed / EVEN_SPEED;
  return still * Math.cbrt(1 + even * Math.sqrt(even));
};

/** (1) over G_still [1]: `share` c [1], `convection` as `compartmentConvection` gives it [1]. */
export const compartmentFactor = (share: number, convection: number): number => 1 + share * (convection - 1);
