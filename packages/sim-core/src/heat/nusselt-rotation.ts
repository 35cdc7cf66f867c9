/**
 * Convection a turning body makes for itself in air that is otherwise still: the side of a cylinder and its flat ends.
 *
 *   (1) cylinder, side:       Nu = 0.133·Re^⅔·Pr^⅓,  Re = ω·D²/ν
 *   (2) disc, laminar:        Nu = K·Re^½,  K = 0.326·(Pr/0.71)^0.59,  Re = ω·R²/ν
 *   (3) disc, Re > Re_c:      Nu = K·Re^½·(Re_c/Re) + 0.015·Re^0.8·[1 − (Re_c/Re)^1.3],  Re_c = 250 000
 *
 * Nu — (1) h·D/k, (2), (3) h·R/k, the mean over the disc; ω — angular speed, either way round, all properties at film temperature.
 * *Holds for* (1) Re < 4.3·10⁵, 0.7 < Pr < 670; (2), (3) air, 0.65 < Pr < 0.75. Re = 0 gives 0: buoyancy is blended in by the caller.
 * *Uncertain*: (1) is the highest of the published laws. Others for air (e.g. Nu = 0.11·(½·Re²)^0.35 in Kreith's textbook, memory) take Re with the
 * surface speed, ω·D²/(2ν), and give 0.60–0.65 of (1); what (1) is off by may reach −40 to +20 %. For a maker's flat outrunner of 43.5 mm whose 1.57 K/W to ambient
 * is printed, (1) with (2) and radiation gives 1.7–1.9, the lower laws 2.4: so (1) is kept.
 * *Leaves out* the air pumped through an open bell, a shroud near the surface, and in (1) the onset: below Re ≈ 10³ rotation hardly counts, and
 * buoyancy then rules the blend anyway.
 * *Source* (1) Incropera et al., 7th ed., problem 9.62 (there Re = Ω·D²/ν), after K.M. Becker, Int. J. Heat Mass Transfer 6, 1963, 1053;
 * (2) von Kármán's similar solution of the disc, isothermal wall, integrated in the tests; (3) E.C. Cobb & O.A. Saunders, Proc. Royal Society A 236, 1956, and F. Kreith,
 * Principles of Heat Transfer (both from memory): laminar inside, turbulent outside the radius where Re_c is reached.
 *
 * @module
 */

const CRITICAL_DISC_REYNOLDS = 250000;

/** (1) Nu [1] of a turning cylinder's side from `reynolds` ω·D²/ν. */
export const turningCylinderNusselt = (reynolds: number, prandtl: number): number => 0.133 * Math.cbrt(reynolds * reynolds * prandtl);

/** (2), (3) Mean Nu [1] of a turning disc on its radius from `reynolds` ω·R²/ν. Continuous at Re_c, where the slope changes. */
export const turningDiscNusselt = (reynolds: number, prandtl: number): number => {
  const laminar = 0.326 * (prandtl / 0.71) ** 0.59 * Math.sqrt(reynolds);
  if (reynolds <= CRITICAL_DISC_REYNOLDS) return laminar;
  const inner = CRITICAL_DISC_REYNOLDS / reynolds;
  return laminar * inner + 0.015 * reynolds ** 0.8 * (1 - inner ** 1.3);
};
