/**
 * Liquid water at about one atmosphere, fresh or sea, from temperature T [K] (t = T − 0 °C).
 *
 *   (1) 1/ρ = (R·10/10⁵)·[a₅ + Σ aₙ·α^n + Σ bₘ·β^m],  α = 10/(593 − T), β = 10/(T − 232), R = 461.51805 J/(kg·K)
 *   (2) cp  = −R·[c₃ + (T/10)·(Σ n(n+1)·cₙ·α^(n+2) + Σ m(m+1)·dₘ·β^(m+2))]
 *   (3) μ   = 10⁻⁶·(280.68·x^−1.9 + 511.45·x^−7.7 + 61.131·x^−19.6 + 0.45903·x^−40),  x = T/300
 *   (4) k   = 1.6630·x^−1.15 − 1.7781·x^−3.4 + 1.1567·x^−6.0 − 0.432115·x^−7.6
 *   sea, salinity S = 35:
 *   (5) ρ = ρ_fresh + A·S + B·S^1.5 + C·S², A, B polynomials of t
 *   (6) μ = μ_fresh·(1 + A·s + B·s²), s = 0.03516504 kg/kg,  A = 1.541 + 0.01998·t − 9.52·10⁻⁵·t²,  B = 7.974 − 0.07561·t + 4.724·10⁻⁴·t²
 *   (7) k = k_fresh / (1 + 0.00022·1000·s)
 *   (8) cp = Σ (p + q·1000s + r·(1000s)²)·T^j,  j = 0…3
 *   (9) ln(p_v/p_c) = (T_c/T)·(a₁τ + a₂τ^1.5 + a₃τ³ + a₄τ^3.5 + a₅τ⁴ + a₆τ^7.5),  τ = 1 − T/T_c; sea water × (1 − 0.000537·S)
 *
 * *Holds for* 0–60 °C; outside, a RangeError. Errors (their authors): fresh ρ 1 ppm, cp 0.1 %, μ 1 %, k 2 %; sea ρ 0.01 kg/m³ to 40 °C (above,
 * extrapolated: within 0.05 % of Sharqawy et al.), μ 1.5 %, k 3 %, cp 0.3 %; vapour pressure 0.1 %.
 * *Leaves out* brackish water, depth and dissolved air. Thermal expansion is not offered: Çengel's table A-9 misprints it at 5 and 10 °C.
 * *Source* (1)–(4) IAPWS SR6-08(2011), eqs. 2, 4, 7, 8, tables 1, 2, 5, 6; (5) F.J. Millero & A. Poisson, Deep-Sea Research 28A, 1981, in N.P. Fofonoff & R.C.
 * Millard, UNESCO Technical Papers in Marine Science 44, 1983; (6) M.H. Sharqawy, J.H. Lienhard & S.M. Zubair, Desalination and
 * Water Treatment 16, 2010, eq. 22; (7), (8) K.G. Nayar et al., Desalination 390, 2016, and D.T. Jamieson et al., 1969, as reprinted in Sharqawy
 * et al., eq. 9; (9) IAPWS SR1-86(1992), eq. 1 (coefficients from memory, checked against table A-9), salt R.A. Robinson 1954 (memory).
 *
 * @module
 */

import { ZERO_CELSIUS } from '../quantities/constants.js';

/** Fresh water of lakes and taps, or standard sea water. */
export type WaterKind = 'fresh' | 'sea';

/** Density above which a medium is water rather than air [kg/m³]. */
export const LIQUID = 100;

/** Temperatures between which these laws hold [K]. */
export const LIQUID_WATER = { from: ZERO_CELSIUS, to: ZERO_CELSIUS + 60 } as const;
const GAS_CONSTANT = 461.51805;
/** Practical salinity of standard sea water [1], and the same as mass of salt per mass of water [kg/kg]. */
const PRACTICAL_SALINITY = 35;
const SALT_SHARE = 0.03516504;
const CRITICAL_TEMPERATURE = 647.096;
const CRITICAL_PRESSURE = 22.064e6;

const requireLiquid = (temperature: number): void => {
  const { from, to } = LIQUID_WATER;
  if (!(temperature >= from && temperature <= to))
    throw new RangeError(`Water properties hold from ${from} to ${to} K (0 to 60 °C); asked for ${temperature} K.`);
};

/** (5) Kilograms by which the salt of sea water raises a cubic metre's mass [kg/m³], t [°C]. */
const saltDensity = (t: number): number => {
  const a = 0.824493 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)));
  const b = -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6);
  return PRACTICAL_SALINITY * (a + b * Math.sqrt(PRACTICAL_SALINITY) + 4.8314e-4 * PRACTICAL_SALINITY);
};

/** (1), (5) Density ρ [kg/m³] at `temperature` [K]; throws RangeError outside 0–60 °C. */
export const waterDensity = (kind: WaterKind, temperature: number): number => {
  requireLiquid(temperature);
  const a = 10 / (593 - temperature);
  const b = 10 / (temperature - 232);
  const hot = a ** 4 * (6744.58446 + a * (-222521.604 + a * a * (100231247 + a * (-1635521180 + a * 8322996580))));
  const cold =
    b * (5.78545292e-3 + b * (-0.0153195665 + b * (0.0311337859 + b * (-0.0423546241 + b * (0.0338713507 + b * -0.0119946761)))));
  const fresh = 1e5 / (GAS_CONSTANT * 10 * (0.0193763157 + hot + cold));
  return kind === 'sea' ? fresh + saltDensity(temperature - ZERO_CELSIUS) : fresh;
};

/** (2), (8) Specific heat cp [J/(kg·K)] at `temperature` [K]; throws RangeError outside 0–60 °C. */
export const waterSpecificHeat = (kind: WaterKind, temperature: number): number => {
  requireLiquid(temperature);
  if (kind === 'sea') {
    const s = 1000 * SALT_SHARE;
    const p = 5328 + s * (-97.6 + s * 0.404);
    const q = -6.913 + s * (0.7351 - s * 3.15e-3);
    const r = 9.6e-3 + s * (-1.927e-3 + s * 8.23e-6);
    const u = 2.5e-6 + s * (1.666e-6 - s * 7.125e-9);
    return p + temperature * (q + temperature * (r + temperature * u));
  }
  const a = 10 / (593 - temperature);
  const b = 10 / (temperature - 232);
  const hot = a ** 6 * (20 * -166147.0539 + a * (30 * 2708781.64 + a * a * 56 * -155719154.4));
  const cold = b ** 4 * (6 * -0.8237426256 + b * (12 * 1.908956353 + b * (20 * -2.017597384 + b * 30 * 0.8546361348)));
  return -GAS_CONSTANT * (-8.983025854 + (temperature / 10) * (hot + cold));
};

/** (3), (6) Dynamic viscosity μ [Pa·s] at `temperature` [K]; throws RangeError outside 0–60 °C. */
export const waterViscosity = (kind: WaterKind, temperature: number): number => {
  requireLiquid(temperature);
  const x = temperature / 300;
  const fresh = 1e-6 * (280.68 * x ** -1.9 + 511.45 * x ** -7.7 + 61.131 * x ** -19.6 + 0.45903 * x ** -40);
  if (kind === 'fresh') return fresh;
  const t = temperature - ZERO_CELSIUS;
  const a = 1.541 + t * (0.01998 - t * 9.52e-5);
  const b = 7.974 + t * (-0.07561 + t * 4.724e-4);
  return fresh * (1 + SALT_SHARE * (a + SALT_SHARE * b));
};

/** (4), (7) Thermal conductivity k [W/(m·K)] at `temperature` [K]; throws RangeError outside 0–60 °C. */
export const waterConductivity = (kind: WaterKind, temperature: number): number => {
  requireLiquid(temperature);
  const x = temperature / 300;
  const fresh = 1.663 * x ** -1.15 - 1.7781 * x ** -3.4 + 1.1567 * x ** -6 - 0.432115 * x ** -7.6;
  return kind === 'sea' ? fresh / (1 + 0.22 * SALT_SHARE) : fresh;
};

/** Kinematic viscosity ν = μ/ρ [m²/s] at `temperature` [K]; throws RangeError outside 0–60 °C. */
export const waterKinematicViscosity = (kind: WaterKind, temperature: number): number =>
  waterViscosity(kind, temperature) / waterDensity(kind, temperature);

/** Prandtl number μ·cp/k [1] at `temperature` [K]; throws RangeError outside 0–60 °C. */
export const waterPrandtl = (kind: WaterKind, temperature: number): number =>
  (waterViscosity(kind, temperature) * waterSpecificHeat(kind, temperature)) / waterConductivity(kind, temperature);

/** (9) Vapour pressure p_v [Pa] at `temperature` [K], below which a screw cavitates; throws RangeError outside 0–60 °C. */
export const waterVapourPressure = (kind: WaterKind, temperature: number): number => {
  requireLiquid(temperature);
  const tau = 1 - temperature / CRITICAL_TEMPERATURE;
  const root = Math.sqrt(tau);
  const sum =
    tau *
    (-7.85951783 +
      1.84408259 * root +
      tau * tau * (-11.7866497 + 22.6807411 * root) +
      tau ** 3 * -15.9618719 +
      1.80122502 * tau ** 6 * root);
  const fresh = CRITICAL_PRESSURE * Math.exp((CRITICAL_TEMPERATURE / temperature) * sum);
  return kind === 'sea' ? fresh * (1 - 5.37e-4 * PRACTICAL_SALINITY) : fresh;
};
