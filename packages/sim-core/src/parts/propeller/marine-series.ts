/**
 * Open-water thrust and torque of a marine screw of the Wageningen B-series.
 *
 * (1) J = V_a/(nD),  V_a the speed of advance
 * (2) KT = thrust/(ρ n² D⁴) = Σ C·J^s·(P/D)^t·(AE/A0)^u·Z^v         39 terms, Rn = 2·10⁶
 * (3) KQ = torque/(ρ n² D⁵), likewise                                47 terms
 * (4) above Rn = 2·10⁶: KT + ΔKT, KQ + ΔKQ, polynomials in log10(Rn) − 0.301
 * (5) η0 = J·KT/(2π·KQ)
 *
 * Equations 2 and 3 are cubics in J for a given screw, so they are kept as such.
 * *Holds for*: fixed pitch, Z 2–7, AE/A0 0.30–1.05, P/D 0.5–1.4, first quadrant from J = 0 to KT = 0, deeply immersed, no cavitation.
 * *Leaves out*: model scale: at Rn of 1–4·10⁵ drag is higher than the series says and nothing is corrected below 2·10⁶; surface-piercing screws.
 * *Sign*: thrust forward, torque into the screw.
 * *Source*: M. W. C. Oosterveld & P. van Oossanen, International Shipbuilding Progress 22 (251), 1975, tables 5 and 6.
 *
 * @module
 */

import { type SeriesTerm, THRUST_TERMS, TORQUE_TERMS } from './marine-series-terms.js';
import { evaluatePolynomial, firstZero, type Polynomial } from './polynomial-table.js';

/** The numbers by which the series knows a screw. */
export interface MarineScrew {
  /** Z — number of blades [1]. */
  readonly blades: number;
  /** AE/A0 — expanded blade area over disc area [1]. */
  readonly areaRatio: number;
  /** P/D — pitch at 0.7 R over diameter [1]. */
  readonly pitchRatio: number;
}

/** Range of the series: what `marineOpenWater` accepts. */
export const MARINE_SERIES_RANGE = {
  blades: { from: 2, to: 7 },
  areaRatio: { from: 0.3, to: 1.05 },
  pitchRatio: { from: 0.5, to: 1.4 },
} as const;

/** Rn above which the correction applies [1]. */
export const MARINE_CORRECTION_FROM = 2e6;
/** Rn up to which the correction was published for [1]. */
const MARINE_CORRECTION_TO = 2e9;

/** A screw's KT and KQ as cubics in J, with the advance ratio where KT vanishes. */
export interface MarineOpenWater {
  readonly thrust: Polynomial;
  readonly torque: Polynomial;
  /** J at KT = 0, the end of the series' first quadrant [1]. */
  readonly zeroThrust: number;
}

/** What lies outside the series, in words, one sentence each; empty where the screw is inside. */
export function marineRangeProblems(screw: MarineScrew): readonly string[] {
  const problems: string[] = [];
  const { blades, areaRatio, pitchRatio } = MARINE_SERIES_RANGE;
  const inside = (value: number, range: { readonly from: number; readonly to: number }) => value >= range.from && value <= range.to;
  if (!Number.isInteger(screw.blades) || !inside(screw.blades, blades)) {
    problems.push(`the B-series has screws of ${blades.from} to ${blades.to} blades, not ${screw.blades}`);
  }
  if (!inside(screw.areaRatio, areaRatio)) {
    problems.push(`the B-series covers area ratios of ${areaRatio.from} to ${areaRatio.to}, not ${screw.areaRatio}`);
  }
  if (!inside(screw.pitchRatio, pitchRatio)) {
    problems.push(
      `the B-series covers pitch ratios of ${pitchRatio.from} to ${pitchRatio.to}, not ${Number(screw.pitchRatio.toPrecision(6))}`,
    );
  }
  return problems;
}

/**
 * Equations 2 to 4 collected into cubics in J. `reynolds` is Rn at 0.75 R; left out or up to 2·10⁶, nothing is corrected.
 * Throws RangeError for a screw outside the series, or Rn that is not positive or above 2·10⁹.
 */
export function marineOpenWater(screw: MarineScrew, reynolds?: number): MarineOpenWater {
  const problems = marineRangeProblems(screw);
  if (problems.length > 0) throw new RangeError(problems.join('; '));
  const thrust = collect(THRUST_TERMS, screw);
  const torque = collect(TORQUE_TERMS, screw);
  if (reynolds !== undefined) {
    if (!(reynolds > 0) || reynolds > MARINE_CORRECTION_TO) {
      throw new RangeError(`the Reynolds number of a screw must be positive and at most ${MARINE_CORRECTION_TO}, not ${reynolds}`);
    }
    if (reynolds > MARINE_CORRECTION_FROM) {
      for (const [power, value] of thrustCorrection(screw, reynolds).entries()) thrust[power] += value;
      for (const [power, value] of torqueCorrection(screw, reynolds).entries()) torque[power] += value;
    }
  }
  const zeroThrust = firstZero(thrust, 2 * screw.pitchRatio);
  if (zeroThrust === undefined) throw new RangeError(`the thrust of this screw does not vanish below J = ${2 * screw.pitchRatio}`);
  return { thrust, torque, zeroThrust };
}

function collect(terms: readonly SeriesTerm[], screw: MarineScrew): number[] {
  const cubic = [0, 0, 0, 0];
  for (const [coefficient, j, p, a, z] of terms) {
    cubic[j] += coefficient * screw.pitchRatio ** p * screw.areaRatio ** a * screw.blades ** z;
  }
  return cubic;
}

/** ΔKT of equation 4 as c0 + c1·J + c2·J² (table 6). */
function thrustCorrection(screw: MarineScrew, reynolds: number): readonly [number, number, number] {
  const { blades: z, areaRatio: a, pitchRatio: p } = screw;
  const c = Math.log10(reynolds) - 0.301;
  return [
    0.000353485,
    -0.00478125 * a * p + 0.0000954 * c * z * a * p + 0.0000032049 * c * z ** 2 * a * p ** 3,
    -0.00333758 * a + 0.000257792 * c ** 2 * a + 0.0000643192 * c * p ** 6 - 0.0000110636 * c ** 2 * p ** 6 - 0.0000276305 * c ** 2 * z * a,
  ];
}

/** ΔKQ of equation 4 as c0 + c1·J + c2·J² (table 6). */
function torqueCorrection(screw: MarineScrew, reynolds: number): readonly [number, number, number] {
  const { blades: z, areaRatio: a, pitchRatio: p } = screw;
  const c = Math.log10(reynolds) - 0.301;
  return [
    -0.000591412 +
      0.00696898 * p -
      0.0000666654 * z * p ** 6 +
      0.0160818 * a ** 2 -
      0.000938091 * c * p -
      0.00059593 * c * p ** 2 +
      0.0000782099 * c ** 2 * p ** 2 +
      0.0000230171 * c * z * p ** 6 -
      0.00000184341 * c ** 2 * z * p ** 6 -
      0.00400252 * c * a ** 2 +
      0.000220915 * c ** 2 * a ** 2,
    -0.00000088528 * c ** 2 * z * a * p,
    0.0000052199 * c * z * a,
  ];
}

/** Equations 2, 3 and 5 at one advance ratio. Throws RangeError below 0 or past KT = 0, where the series says nothing. All [1]. */
export function marinePoint(
  openWater: MarineOpenWater,
  advanceRatio: number,
): { readonly thrustCoefficient: number; readonly torqueCoefficient: number; readonly efficiency: number } {
  if (!(advanceRatio >= 0 && advanceRatio <= openWater.zeroThrust)) {
    throw new RangeError(`the series holds from J = 0 to ${openWater.zeroThrust.toFixed(3)} for this screw, not at ${advanceRatio}`);
  }
  const thrustCoefficient = evaluatePolynomial(openWater.thrust, advanceRatio);
  const torqueCoefficient = evaluatePolynomial(openWater.torque, advanceRatio);
  return { thrustCoefficient, torqueCoefficient, efficiency: (advanceRatio * thrustCoefficient) / (2 * Math.PI * torqueCoefficient) };
}
