/**
 * What a thermometer on or in a motor reads: a share of the excess it is meant for, late.
 *
 *   (1) reading = T_air + θ,  dθ/dt = (s·θ_source − θ)/τ          (2) s = s₀/(1 + r·v/(10 m/s)) in a stream v
 *   (3) infrared: ε_set·T_read⁴ + (1 − ε_set)·T_air⁴ = ε·T⁴ + (1 − ε)·T_air⁴
 *
 * s₀ — share at rest [1]; τ — lag [s]; r — hold of the passing air; ε — emissivity of the surface, ε_set — the one that the instrument is set to.
 * *Holds for* sensors of model builders: bare junctions and small beads. *Leaves out* heat along the leads, and the band of wavelengths in (3).
 * *Source* beside the coils: thirteen runs whose energy is known and fourteen that were left to cool, Kennesaw State University UAS bench: 0.36 of the mean excess at
 * rest, 0.15–0.24 in the wash, 35–81 s. The other places: common practice, no published source. (3) Incropera et al., 6th ed., eqs. 1.7 and 12.42.
 *
 * @module
 */

import type { Body, HeatPaths } from './heat-paths.js';

/** One place for a thermometer. */
export interface ThermometerPlace {
  /** Where it sits, after "a thermometer". */
  readonly words: string;
  /** What it is meant for: one body, the fixed end, or the mean of the whole motor by heat capacity. */
  readonly of: Body | 'end' | 'motor';
  /** s₀ [1], and the factor either way that holds 95 % of such thermometers. */
  readonly share: number;
  /** Factor either way on s₀ that holds 95 % of such thermometers [1]. */
  readonly factor: number;
  /** τ [s] */
  readonly lag: number;
  /** r [1] */
  readonly film: number;
}

/** Places for a thermometer, and what it reads there. */
export const THERMOMETER_PLACES = {
  'on-can': { words: 'held to the can', of: 'can', share: 0.95, factor: 1.1, lag: 4, film: 0 },
  'on-end': { words: 'held to the fixed end', of: 'end', share: 0.95, factor: 1.1, lag: 4, film: 0 },
  'beside-coils': { words: 'beside the coils', of: 'motor', share: 0.36, factor: 2, lag: 50, film: 0.55 },
  'in-slot': { words: 'between the wires of a slot', of: 'winding', share: 0.95, factor: 1.1, lag: 3, film: 0 },
  'on-controller': { words: 'held to the controller', of: 'controller', share: 0.85, factor: 1.3, lag: 8, film: 0 },
  'on-cells': { words: 'held to the cells', of: 'cells', share: 0.9, factor: 1.15, lag: 8, film: 0 },
} as const satisfies Record<string, ThermometerPlace>;
/** One of `THERMOMETER_PLACES`. */
export type ThermometerPlaceId = keyof typeof THERMOMETER_PLACES;

/** ε_set of most infrared thermometers [1]. */
export const INSTRUMENT_EMISSIVITY = 0.95;

/** (2) Share [1] in a stream of `speed` [m/s]. */
export const thermometerShare = ({ share, film }: Pick<ThermometerPlace, 'share' | 'film'>, speed: number): number =>
  share / (1 + (film * Math.abs(speed)) / 10);

/** (1) θ [K] after `duration` [s] in which the share's source stayed at `towards` = s·θ_source [K]. */
export const thermometerAfter = (theta: number, towards: number, lag: number, duration: number): number =>
  towards + (theta - towards) * Math.exp(-duration / lag);

/** (3) The surface's temperature [K] from an infrared `reading` [K] of a surface of `emissivity` ε in `surroundings` [K]. */
export const surfaceOfInfrared = (reading: number, emissivity: number, surroundings: number, set = INSTRUMENT_EMISSIVITY): number =>
  (surroundings ** 4 + (set / emissivity) * (reading ** 4 - surroundings ** 4)) ** 0.25;

/** (3) What an infrared thermometer reads [K] on a `surface` [K]. */
export const infraredReading = (surface: number, emissivity: number, surroundings: number, set = INSTRUMENT_EMISSIVITY): number =>
  (surroundings ** 4 + (emissivity / set) * (surface ** 4 - surroundings ** 4)) ** 0.25;

/** What a thermometer is exposed to at a moment `t` [s], that is the excess of its source [K], and the speed of the air that passes it [m/s]. */
export interface Exposure {
  readonly t: number;
  readonly excess: number;
  readonly speed: number;
}

/** (1), (2) θ [K] at each moment, in balance at the first; between two the mean excess and the later one's air. */
export function followThermometer(place: ThermometerPlace, moments: readonly Exposure[]): number[] {
  const out: number[] = [];
  moments.forEach((now, k) => {
    const before = moments[k - 1];
    const share = thermometerShare(place, now.speed);
    out.push(
      before === undefined
        ? share * now.excess
        : thermometerAfter(out[k - 1], share * 0.5 * (before.excess + now.excess), place.lag, now.t - before.t),
    );
  });
  return out;
}

/** What the place is meant for [K], from the temperatures of bodies and fixed end; the mean of the motor goes by heat capacity. */
export function thermometerSource(
  { of }: Pick<ThermometerPlace, 'of'>,
  capacity: HeatPaths['capacity'],
  temperature: Readonly<Record<Body | 'end', number>>,
): number {
  if (of !== 'motor') return temperature[of];
  const parts = ['winding', 'stator', 'can', 'magnets'] as const;
  const whole = parts.reduce((sum, part) => sum + capacity[part], 0);
  return parts.reduce((sum, part) => sum + (capacity[part] / whole) * temperature[part], 0);
}
