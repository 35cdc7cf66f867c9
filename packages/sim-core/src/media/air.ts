/**
 * Dry air as an ideal gas: what convection and propellers need to know of it, from temperature T [K] and pressure p [Pa].
 *
 *   (1) ρ  = p / (R·T)
 *   (2) μ  = 1.458·10⁻⁶·T^1.5 / (T + 110.4)
 *   (3) k  = 2.648151·10⁻³·T^1.5 / (T + 245.4·10^(−12/T))
 *   (4) cp = 1034.09 − 0.284887·T + 7.816818·10⁻⁴·T² − 4.970786·10⁻⁷·T³ + 1.077024·10⁻¹⁰·T⁴
 *   (5) Pr = μ·cp / k,  ν = μ/ρ
 *
 * *Holds for* 180–1050 K and pressures of the lower atmosphere (ideal gas: error of ρ below 0.1 %); outside, a RangeError.
 * Errors against Çengel & Ghajar, table A-15, −50 to 250 °C: ρ 0.1 %, μ 1.2 %, cp 0.6 %. Conductivity lies 1.4–2.7 % above that table
 * and Pr 2.0–3.1 % below, because the table is low there: Lemmon & Jacobsen (2004), table V, give 0.02635 W/(m·K) at 300 K (memory),
 * equation 3 gives 0.02627, the table 0.02565. The standard wins; h moves by about 1.5 %.
 * *Leaves out* humidity (saturated air of 30 °C is 1.6 % lighter) and the pressure dependence of μ, k and cp.
 * *Source* (1)–(3) ISO 2533:1975, section 2, eqs. of state, of dynamic viscosity and of thermal conductivity; (4) T.F. Irvine & P.E. Liley,
 * Steam and Gas Tables with Computer Equations, Academic Press 1984 (250–1050 K; memory, checked against table A-15).
 *
 * @module
 */

import { DRY_AIR_GAS_CONSTANT } from '../quantities/constants.js';

/** Lower end of the correlations [K]. */
export const COLDEST_AIR = 180;
/** Upper end of the correlations [K]. */
export const HOTTEST_AIR = 1050;

const requireInRange = (temperature: number): void => {
  if (!(temperature >= COLDEST_AIR && temperature <= HOTTEST_AIR))
    throw new RangeError(`Air properties hold from ${COLDEST_AIR} to ${HOTTEST_AIR} K; asked for ${temperature} K.`);
};

/** (1) Density ρ [kg/m³] at `temperature` [K] and `pressure` [Pa]; throws RangeError outside the range or for a pressure that is not positive. */
export const airDensity = (temperature: number, pressure: number): number => {
  requireInRange(temperature);
  if (!(pressure > 0)) throw new RangeError(`Air needs a positive pressure; asked for ${pressure} Pa.`);
  return pressure / (DRY_AIR_GAS_CONSTANT * temperature);
};

/** (2) Dynamic viscosity μ [Pa·s] (Sutherland's law) at `temperature` [K]; throws RangeError outside the range. */
export const airViscosity = (temperature: number): number => {
  requireInRange(temperature);
  return (1.458e-6 * temperature * Math.sqrt(temperature)) / (temperature + 110.4);
};

/** (5) Kinematic viscosity ν [m²/s] at `temperature` [K] and `pressure` [Pa]; throws as density does. */
export const airKinematicViscosity = (temperature: number, pressure: number): number =>
  airViscosity(temperature) / airDensity(temperature, pressure);

/** (3) Thermal conductivity k [W/(m·K)] at `temperature` [K]; throws RangeError outside the range. */
export const airConductivity = (temperature: number): number => {
  requireInRange(temperature);
  return (2.648151e-3 * temperature * Math.sqrt(temperature)) / (temperature + 245.4 * Math.exp((-12 * Math.LN10) / temperature));
};

/** (4) Specific heat cp [J/(kg·K)] at `temperature` [K]; throws RangeError outside the range. */
export const airSpecificHeat = (temperature: number): number => {
  requireInRange(temperature);
  return 1034.09 + temperature * (-0.284887 + temperature * (7.816818e-4 + temperature * (-4.970786e-7 + temperature * 1.077024e-10)));
};

/** (5) Prandtl number Pr [1] at `temperature` [K]; throws RangeError outside the range. */
export const airPrandtl = (temperature: number): number =>
  (airViscosity(temperature) * airSpecificHeat(temperature)) / airConductivity(temperature);
