/**
 * American wire gauge: a number that falls by one for each step to a thicker conductor.
 *
 * (1) d = 0.127 mm · 92^((36 − n)/39)
 * (2) A = π·d²/4
 *
 * *Holds for* solid conductors; a stranded one of the same number has the same metal area. *Leaves out* the multi-nought sizes' spelling
 * (4/0 is n = −3).
 * *Source*: ASTM B258, Standard Specification for Standard Nominal Diameters and Cross-Sectional Areas of AWG Sizes of Solid Round Wires.
 *
 * @module
 */

const SMALLEST_DIAMETER = 0.127e-3; // of gauge 36 [m]
const SMALLEST_GAUGE = 36;
/** Sizes the standard lists, 4/0 to 56 (from memory); beyond them a number is no gauge. */
export const THICKEST_GAUGE = -3;
export const THINNEST_GAUGE = 56;
const STEP = 92 ** (1 / 39);

/** Equations 1 and 2: metal area [m²] of a gauge number. */
export function areaOfGauge(gauge: number): number {
  const diameter = SMALLEST_DIAMETER * STEP ** (SMALLEST_GAUGE - gauge);
  return (Math.PI * diameter ** 2) / 4;
}

/** Equations 1 and 2 solved for n: gauge number of a metal area [m²]; throws RangeError for an area that is not positive. */
export function gaugeOfArea(area: number): number {
  if (!(area > 0)) throw new RangeError(`a wire of ${area} m² has no gauge number`);
  const diameter = Math.sqrt((4 * area) / Math.PI);
  return SMALLEST_GAUGE - Math.log(diameter / SMALLEST_DIAMETER) / Math.log(STEP);
}
