/**
 * How the air of a compartment changes what a controller or a pack gives off to it, beside its conductance in still air at sea level.
 *
 *   (1) G = G_still·[1 + c·((n³ + f³)^⅓ − 1)]          (2) n = √(p/p₀)          (3) f = √(p/p₀ · v/v₁)
 *
 * c — share of G_still that is convection, the rest radiates; p — pressure of the air, p₀ — at sea level; v — its speed past the part; v₁ — speed at
 * which a laminar stream takes as much as still air does.
 * *Holds for* parts of some centimetres: v₁ where 3.84·√(v/L) W/(m²·K) on L = 6 cm meets 5 W/(m²·K).
 * *Source* Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eqs. 7.30 (laminar plate, h ∝ √(v·p)) and 9.26 (Ra^¼, h ∝ √p); cube rule 9.64.
 */
import { SEA_LEVEL_PRESSURE } from '../media/standard-atmosphere.js';

/** v₁ [m/s]. */
export const EVEN_SPEED = 0.1;

/** (1) over G_still [1]: `convection` c [1], `pressure` [Pa], `airSpeed` [m/s]. */
export const compartmentFactor = (convection: number, pressure: number, airSpeed: number): number => {
  const relative = pressure / SEA_LEVEL_PRESSURE;
  const still = Math.sqrt(relative);
  if (airSpeed === 0) return 1 + convection * (still - 1);
  const stream = Math.sqrt((relative * airSpeed) / EVEN_SPEED);
  return 1 + convection * (Math.cbrt(still ** 3 + stream ** 3) - 1);
};
