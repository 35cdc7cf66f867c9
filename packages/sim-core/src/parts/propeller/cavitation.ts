/**
 * How near a marine screw comes to cavitating: a cavitation number and the smallest blade area of common design practice.
 *
 * (1) σ = (p − p_v)/(½ρV²)
 * (2) (AE/A0)_min = (1.3 + 0.3 Z)·thrust/((p − p_v)·D²) + k
 * (3) p = p_air + ρ·g·h at the shaft's immersion h
 *
 * *Holds for*: screws of ships; on models a caution, not a limit. k is 0 for fast twin-screw hulls, 0.1 for other twin-screw and 0.2
 * for single-screw hulls.
 * *Source*: J. auf’m Keller, "Enige aspecten bij het ontwerpen van scheepsschroeven", Schip en Werf 33 (24), 1966 (formula from memory).
 *
 * @module
 */

/** The water at a screw. */
export interface ScrewPressure {
  /** p — absolute pressure at the shaft, equation 3 [Pa]. */
  readonly pressure: number;
  /** p_v — vapour pressure of the water [Pa]. */
  readonly vapourPressure: number;
}

/** k of (2), by number of shafts [1]. */
export const KELLER_ALLOWANCE = { 'fast-twin': 0, twin: 0.1, single: 0.2 } as const;

/** Equation 1 with a reference speed [m/s] and density [kg/m³]; Infinity at rest. Throws RangeError where p is not above p_v. */
export function cavitationNumber(water: ScrewPressure, density: number, speed: number): number {
  return pressureMargin(water) / (0.5 * density * speed ** 2);
}

/** Equation 2 with thrust [N] and diameter [m]. Throws RangeError where p is not above p_v. */
export function kellerMinimumAreaRatio(
  screw: { readonly blades: number; readonly diameter: number; readonly hull: keyof typeof KELLER_ALLOWANCE },
  thrust: number,
  water: ScrewPressure,
): number {
  return ((1.3 + 0.3 * screw.blades) * thrust) / (pressureMargin(water) * screw.diameter ** 2) + KELLER_ALLOWANCE[screw.hull];
}

function pressureMargin(water: ScrewPressure): number {
  const margin = water.pressure - water.vapourPressure;
  if (!(margin > 0)) {
    throw new RangeError(
      `water at ${water.pressure} Pa boils: the pressure at the shaft must exceed the vapour pressure of ${water.vapourPressure} Pa`,
    );
  }
  return margin;
}
