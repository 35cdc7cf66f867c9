/**
 * Convection inside a tube: the water of a cooling coil or jacket passage, and how much heat a small stream can carry at all.
 *
 *   (1) laminar:    Nu = 3.66 (wall at one temperature)
 *   (2) turbulent:  Nu = (f/8)·(Re − 1000)·Pr / [1 + 12.7·√(f/8)·(Pr^⅔ − 1)],  f = (0.790·ln Re − 1.64)⁻²
 *   (3) between:    Nu = (1 − γ)·3.66 + γ·Nu₂(4000),  γ = (Re − 2300)/1700
 *   (4) capacity:   G = ṁcp·[1 − exp(−hA/(ṁcp))]: effectiveness of a wall at one temperature
 *
 * Nu, Re — on the tube's hydraulic diameter and mean speed; hA — wall conductance [W/K]; ṁcp — capacity rate of the stream [W/K].
 * *Holds for* (1) long tubes, Re < 2300; (2) 4000 < Re < 5·10⁶, 0.5 < Pr < 2000; continuous in Re. Scatter 10 % turbulent.
 * *Leaves out* entry lengths and bends, which raise Nu, and fouling, which lowers it. (4) rates the stream by its temperature at the inlet.
 * *Source* (1) Incropera et al., 6th ed., eq. 8.55; (2) V. Gnielinski 1976 in Incropera, eqs. 8.62 and 8.21; (3) V. Gnielinski, Int. J. Heat Mass
 * Transfer 63, 2013, 134 (memory); (4) Incropera, eq. 11.36a.
 *
 * @module
 */

const LAMINAR_LIMIT = 2300;
const TURBULENT_LIMIT = 4000;

/** (1) Nu [1] of long laminar flow, wall at one temperature. */
export const LAMINAR_ISOTHERMAL_NUSSELT = 3.66;
/** (2) Nu [1] of turbulent flow. */
export const gnielinskiNusselt = (reynolds: number, prandtl: number): number => {
  const eighth = (0.79 * Math.log(reynolds) - 1.64) ** -2 / 8;
  return (eighth * (reynolds - 1000) * prandtl) / (1 + 12.7 * Math.sqrt(eighth) * (Math.cbrt(prandtl) ** 2 - 1));
};

/** (1)–(3) Nu [1] of flow in a tube whose wall has one temperature, any `reynolds` ≥ 0. */
export const tubeNusselt = (reynolds: number, prandtl: number): number => {
  if (reynolds <= LAMINAR_LIMIT) return LAMINAR_ISOTHERMAL_NUSSELT;
  if (reynolds >= TURBULENT_LIMIT) return gnielinskiNusselt(reynolds, prandtl);
  const share = (reynolds - LAMINAR_LIMIT) / (TURBULENT_LIMIT - LAMINAR_LIMIT);
  return (1 - share) * LAMINAR_ISOTHERMAL_NUSSELT + share * gnielinskiNusselt(TURBULENT_LIMIT, prandtl);
};

/** (4) Conductance [W/K] from wall to inlet water of a `wallConductance` hA [W/K] fed by a stream of `capacityRate` ṁcp [W/K]; none without a stream. */
export const capacityLimitedConductance = (wallConductance: number, capacityRate: number): number =>
  capacityRate === 0 ? 0 : -capacityRate * Math.expm1(-wallConductance / capacityRate);
