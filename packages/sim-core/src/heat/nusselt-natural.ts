/**
 * Natural convection: mean Nusselt numbers of a hot (or cold) body in air that would be still without it.
 *
 *   (1) horizontal cylinder, any flow:    Nu = {0.60 + 0.387·Ra^⅙ / [1 + (0.559/Pr)^(9/16)]^(8/27)}²
 *   (2) vertical plate, any flow:         Nu = {0.825 + 0.387·Ra^⅙ / [1 + (0.492/Pr)^(9/16)]^(8/27)}²
 *   (3) channel of two isothermal plates: Nu = [576/(Ra·S/L)² + 2.87/(Ra·S/L)^½]^(−½), Ra and Nu on the spacing S
 *
 * Nu — h·D/k with diameter or height; Ra — g·β·ΔT·D³·Pr/ν²; Pr — Prandtl number, all at film temperature.
 * *Holds for* (1) Ra < 10¹², (2) all Ra, (3) 0.1 < Ra·S/L < 10⁵; Ra = 0 leaves conduction alone (3: none). Scatter 15–25 %.
 * *Leaves out* a cylinder's ends and a short body's edge flow, which raise h; a wall close by, which may lower it. Where Ra → 0 the slope of Nu is
 * unbounded, but the heat flow Nu·ΔT is smooth.
 * *Source* (1), (2) S.W. Churchill & H.H.S. Chu, Int. J. Heat Mass Transfer 18, 1975, 1049 and 1323, as in Incropera, DeWitt, Bergman & Lavine, Fundamentals of
 * Heat and Mass Transfer, 6th ed., eqs. 9.34 and 9.26; (3) A. Bar-Cohen & W.M. Rohsenow, J. Heat Transfer 106, 1984, in
 * Incropera, eq. 9.47 and table 9.3 (memory).
 *
 * @module
 */

// The exponents written as roots: an engine's general power costs about ten times as much, and this runs millions of times.
/** x^(9/16) */
const nineSixteenths = (x: number): number => Math.sqrt(Math.sqrt(x * x * Math.sqrt(Math.sqrt(x))));
/** x^(8/27) */
const eightTwentySevenths = (x: number): number => {
  const square = x * x;
  const fourth = square * square;
  return Math.cbrt(Math.cbrt(Math.cbrt(fourth * fourth)));
};

/** (1) Nu [1] of a horizontal cylinder from `rayleigh` on its diameter. */
export const cylinderNaturalNusselt = (rayleigh: number, prandtl: number): number => {
  const root = 0.6 + (0.387 * Math.sqrt(Math.cbrt(rayleigh))) / eightTwentySevenths(1 + nineSixteenths(0.559 / prandtl));
  return root * root;
};

/** (2) Nu [1] of a vertical plate from `rayleigh` on its height. */
export const plateNaturalNusselt = (rayleigh: number, prandtl: number): number => {
  const root = 0.825 + (0.387 * Math.sqrt(Math.cbrt(rayleigh))) / eightTwentySevenths(1 + nineSixteenths(0.492 / prandtl));
  return root * root;
};

/** (3) Nu [1] on the spacing between two fins, from Ra·S/L; `channelRayleigh` 0 gives 0. */
export const channelNaturalNusselt = (channelRayleigh: number): number =>
  channelRayleigh / Math.sqrt(576 + 2.87 * channelRayleigh * Math.sqrt(channelRayleigh));
