/**
 * Blades of the usual kinds of model propeller, for when only diameter, pitch and number of blades are known.
 *
 * (1) θ = min(45°, atan(P/(π·D·x)) + ε)      constant pitch; what is printed is the pitch of the face, ε below the chord
 * (2) chord, camber, thickness and ε by family
 * (3) chord/R ∝ D^(−1/4): small blades are made broader for their size; three and more blades are made a quarter narrower than two
 *
 * Families: `thin` moulded for electric motors, wide inboard, fine tips; `broad` wide throughout, very thin and strongly cambered, for slow
 * flight; `stout` even and thicker, for engines and general use; `folding` narrow at the root with a long fine blade.
 * Camber 4 % (`folding` 4.5 %) where blades are moulded over a four-digit section, 0.3 of the thickness where they have the flat face of a
 * Clark Y. ε ¾° there on `stout` (photographed less printed angles at 0.75 R average that), 0.61° on thinner blades (as far as the bias over
 * eight propellers lets it), −0.8° on a hollow face: half of what fourteen propellers of two makers ask for, which differ by 1.3°.
 * *Holds for* P/D 0.3–1.3. *Leaves out* sweep (a swept-back blade pulls a sixth less), drooped or square tips, pitch that varies along the blade.
 * *Source*: common practice, no published source, and not independent of test/checks/outside/propellers.ts: the chords of `thin` and
 * `broad` are rounded from the four propellers of those kinds there, the camber of `broad` and the exponent of (3) were settled after
 * seeing the errors pooled over all eight. test/measured/propellers.ts compares all four, two to four blades and P/D 0.27–1.3 with 137 propellers
 * of the UIUC Propeller Database.
 *
 * @module
 */

import type { BladeGeometry, BladeStation } from './blade-geometry.js';

/** The usual kinds of blade. */
export type BladeFamily = 'thin' | 'broad' | 'stout' | 'folding';

/** The families, by name. */
export const BLADE_FAMILIES: readonly BladeFamily[] = ['thin', 'broad', 'stout', 'folding'];

const DEGREE = Math.PI / 180;
const STEEPEST_ROOT = 45 * DEGREE;
/** ε of a flat face under a blade as thick as `stout`, and under a thinner one [rad]. */
const FLAT_FACE = 0.75 * DEGREE;
const THINNER_FACE = 0.61 * DEGREE;
/** ε of `broad`: real blades stand flatter than what is printed on them says [rad]. */
const HOLLOW_FACE = -0.8 * DEGREE;

/** x, c/R, thickness over chord; camber and ε [rad] are one number a family. */
const SHAPES: Readonly<
  Record<
    BladeFamily,
    {
      readonly camber: number;
      readonly faceToChord: number;
      readonly stations: readonly (readonly [radius: number, chord: number, thickness: number])[];
    }
  >
> = {
  thin: {
    camber: 0.04,
    faceToChord: THINNER_FACE,
    stations: [
      [0.15, 0.14, 0.16],
      [0.25, 0.175, 0.12],
      [0.4, 0.205, 0.1],
      [0.5, 0.2, 0.09],
      [0.6, 0.18, 0.085],
      [0.7, 0.15, 0.08],
      [0.8, 0.117, 0.08],
      [0.9, 0.085, 0.08],
      [0.95, 0.065, 0.08],
      [1, 0.04, 0.08],
    ],
  },
  broad: {
    camber: 0.075,
    faceToChord: HOLLOW_FACE,
    stations: [
      [0.15, 0.115, 0.1],
      [0.25, 0.155, 0.07],
      [0.4, 0.2, 0.055],
      [0.5, 0.215, 0.05],
      [0.6, 0.215, 0.045],
      [0.7, 0.2, 0.045],
      [0.8, 0.172, 0.045],
      [0.9, 0.125, 0.045],
      [0.95, 0.088, 0.045],
      [1, 0.045, 0.045],
    ],
  },
  stout: {
    camber: 0.032,
    faceToChord: FLAT_FACE,
    stations: [
      [0.15, 0.16, 0.2],
      [0.25, 0.158, 0.16],
      [0.4, 0.162, 0.13],
      [0.5, 0.165, 0.12],
      [0.6, 0.165, 0.11],
      [0.7, 0.157, 0.105],
      [0.8, 0.14, 0.1],
      [0.9, 0.108, 0.1],
      [0.95, 0.08, 0.1],
      [1, 0.04, 0.1],
    ],
  },
  folding: {
    camber: 0.045,
    faceToChord: THINNER_FACE,
    stations: [
      [0.15, 0.09, 0.18],
      [0.25, 0.115, 0.13],
      [0.4, 0.145, 0.1],
      [0.5, 0.152, 0.09],
      [0.6, 0.15, 0.08],
      [0.7, 0.138, 0.075],
      [0.8, 0.118, 0.07],
      [0.9, 0.09, 0.07],
      [0.95, 0.068, 0.07],
      [1, 0.035, 0.07],
    ],
  },
};

const HUB_RADIUS = 0.1;
/** Diameter at which the chords above stand [m]. */
const REFERENCE_DIAMETER = 0.25;
const BREADTH_EXPONENT = 0.25;
/** Chord of three- and more-bladed propellers over that of two-bladed ones, by six 5-inch propellers (no published source) [1]. */
const NARROWER = 0.75;

/** Equations 1 to 3; diameter and pitch in metres. Throws RangeError where one is not positive. Lengths [m], angles [rad]. */
export function familyGeometry(
  family: BladeFamily,
  size: { readonly diameter: number; readonly pitch: number; readonly blades: number },
): BladeGeometry {
  const { camber, stations } = SHAPES[family];
  const twist = printedTwist(family, size);
  const breadth = (REFERENCE_DIAMETER / size.diameter) ** BREADTH_EXPONENT * (size.blades > 2 ? NARROWER : 1);
  return {
    blades: size.blades,
    hubRadius: HUB_RADIUS,
    stations: stations.map(([radius, chord, thickness]) => ({
      radius,
      chord: chord * breadth,
      twist: Math.min(STEEPEST_ROOT, twist(radius)),
      camber,
      thickness,
    })),
  };
}

/** What the printed pitch says of the angle between chord and disc at x [rad]. */
function printedTwist(family: BladeFamily, size: { readonly diameter: number; readonly pitch: number }): (radius: number) => number {
  const { diameter, pitch } = size;
  if (!(diameter > 0 && pitch > 0) || !Number.isFinite(diameter + pitch)) {
    throw new RangeError(`diameter and pitch of a propeller must be positive, not ${diameter} m and ${pitch} m`);
  }
  return (radius) => Math.atan(pitch / (Math.PI * diameter * radius)) + SHAPES[family].faceToChord;
}

/** Share of the printed pitch in the mean of (4). */
const PRINTED_SHARE = 0.5;
const REFERENCE_RADIUS = 0.75;

/**
 * (4) θ' = θ + ½·(atan(P/(0.75·π·D)) + ε − θ(0.75 R))     a blade that was measured and has its pitch printed on it
 *
 * Two independent readings of one angle: a photograph takes the edges of a thin twisted blade to a degree or so, and what is printed is the
 * face's pitch, rounded. Neither is better known than the other, so they count alike, and the blade is turned as a whole. `pitch` and
 * `diameter` in metres. Throws RangeError where one of them is not positive; `rotorFromGeometry` checks the stations.
 * Lengths [m], angles [rad].
 */
export function twistWithPrintedPitch<Station extends { readonly radius: number; readonly twist: number }>(
  stations: readonly Station[],
  family: BladeFamily,
  size: { readonly diameter: number; readonly pitch: number },
): readonly Station[] {
  const turn = PRINTED_SHARE * (printedAngle(family, size) - stationAngle(stations));
  return stations.map((station) => ({ ...station, twist: station.twist + turn }));
}

/** θ at 0.75 R as the printed pitch has it [rad]. Throws RangeError where diameter or pitch are not positive. */
export const printedAngle = (family: BladeFamily, size: { readonly diameter: number; readonly pitch: number }): number =>
  printedTwist(family, size)(REFERENCE_RADIUS);

/** θ at 0.75 R as it was measured [rad]. */
export const stationAngle = (stations: readonly { readonly radius: number; readonly twist: number }[]): number =>
  alongBlade(
    stations.map(({ radius, twist }) => [radius, twist] as const),
    REFERENCE_RADIUS,
  );

/** A blade measured as radius, chord and twist, with camber and thickness of its family; `rotorFromGeometry` checks it. Lengths [m], angles [rad]. */
export function measuredGeometry(
  stations: readonly { readonly radius: number; readonly chord: number; readonly twist: number }[],
  family: BladeFamily,
  blades: number,
): BladeGeometry {
  const shape = SHAPES[family];
  return {
    blades,
    hubRadius: Math.min(HUB_RADIUS, stations[0]?.radius ?? HUB_RADIUS),
    stations: stations.map(
      (station): BladeStation => ({ ...station, camber: shape.camber, thickness: thicknessAt(shape.stations, station.radius) }),
    ),
  };
}

const thicknessAt = (stations: readonly (readonly [number, number, number])[], radius: number): number =>
  alongBlade(
    stations.map(([x, , thickness]) => [x, thickness] as const),
    radius,
  );

/** Straight lines between rows, held past the ends. */
function alongBlade(rows: readonly (readonly [radius: number, value: number])[], radius: number): number {
  const after = rows.findIndex(([x]) => x >= radius);
  if (after <= 0) return (after === 0 ? rows[0] : (rows.at(-1) ?? [0, Number.NaN]))[1];
  const [x0, y0] = rows[after - 1];
  const [x1, y1] = rows[after];
  return y0 + ((y1 - y0) * (radius - x0)) / (x1 - x0);
}
