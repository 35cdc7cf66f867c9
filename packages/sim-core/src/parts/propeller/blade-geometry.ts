/**
 * The shape of a blade, station by station, and its cut into elements.
 *
 * (1) edges x_i = x_0 + (1 − x_0)·sin(½π·i/N)        close together at the tip, where the load falls
 * (2) chord, twist, camber and thickness between stations: shape-preserving cubics; past the last station its values are held
 *
 * *Holds for* a blade from the first station to the tip; what lies inside the first station (hub, spinner) carries nothing.
 *
 *
 *
 * @module
 */

import { lastOf } from '../../problems/certain.js';
/** One station along a blade. */
import type { BladeElement, Rotor } from './blade-element.js';
import { type ThinSection, thinSectionPolar } from './section-polar.js';
import { shapePreservingSlopes } from './shape-preserving-slopes.js';

/** One station along a blade. */
export interface BladeStation extends ThinSection {
  /** x = r/R — distance from the axis over tip radius [1]. */
  readonly radius: number;
  /** c/R — chord over tip radius [1]. */
  readonly chord: number;
  /** θ — angle between chord and disc [rad]. */
  readonly twist: number;
}

/** The shape of a blade, station by station. */
export interface BladeGeometry {
  /** B [1]. */
  readonly blades: number;
  /** x_h — hub radius over R, at most the first station's [1]. */
  readonly hubRadius: number;
  readonly stations: readonly BladeStation[];
}

/** Elements that leave less than half a percent of cutting error (tested). */
const ELEMENTS = 14;

/** Equations 1 and 2. Throws RangeError for a blade that cannot be. */
export function rotorFromGeometry(geometry: BladeGeometry, count: number = ELEMENTS): Rotor {
  checkGeometry(geometry);
  const { blades, hubRadius, stations } = geometry;
  const radii = Float64Array.from(stations, (station) => station.radius);
  const along = (take: (station: BladeStation) => number) => curve(radii, Float64Array.from(stations, take));
  const chordAt = along((station) => station.chord);
  const twistAt = along((station) => station.twist);
  const camberAt = along((station) => station.camber);
  const thicknessAt = along((station) => station.thickness);
  const first = radii[0];
  const edge = (i: number) => first + (1 - first) * Math.sin((Math.PI * i) / (2 * count));
  const elements = Array.from({ length: count }, (_, i): BladeElement => {
    const radius = (edge(i) + edge(i + 1)) / 2;
    const chord = chordAt(radius);
    return {
      radius,
      width: edge(i + 1) - edge(i),
      chord,
      twist: twistAt(radius),
      polar: thinSectionPolar({ camber: camberAt(radius), thickness: thicknessAt(radius) }, chord / radius),
    };
  });
  return { blades, hubRadius, losses: true, elements };
}

function checkGeometry({ blades, hubRadius, stations }: BladeGeometry): void {
  if (!Number.isInteger(blades) || blades < 1) throw new RangeError(`a propeller has a whole number of blades, not ${blades}`);
  if (stations.length < 3) throw new RangeError(`a blade needs at least three stations, this one has ${stations.length}`);
  if (!(hubRadius >= 0 && hubRadius <= stations[0].radius)) {
    throw new RangeError(`the hub radius ${hubRadius} must lie between 0 and the first station at ${stations[0].radius} of the tip radius`);
  }
  for (const [index, station] of stations.entries()) {
    const where = `blade station ${index + 1}`;
    const { radius, chord, twist, camber, thickness } = station;
    if (![radius, chord, twist, camber, thickness].every(Number.isFinite))
      throw new RangeError(`${where} holds a value that is not a finite number`);
    if (!(radius > 0 && radius <= 1)) throw new RangeError(`${where}: the radius ${radius} must lie between 0 and 1 of the tip radius`);
    if (index > 0 && radius <= stations[index - 1].radius)
      throw new RangeError(`${where}: the radius ${radius} does not increase; sort the stations`);
    if (!(chord > 0)) throw new RangeError(`${where}: the chord ${chord} must be positive`);
    if (Math.abs(twist) >= Math.PI / 2) throw new RangeError(`${where}: the twist must lie within ±90°`);
  }
  if (lastOf(stations).radius < 0.9) throw new RangeError('the last blade station must lie at 0.9 of the tip radius or further out');
}

/** Equation 2: a shape-preserving cubic through the points, held past its ends. */
function curve(x: Float64Array, y: Float64Array): (at: number) => number {
  const slopes = shapePreservingSlopes(x, y);
  const last = x.length - 1;
  return (at) => {
    if (at <= x[0]) return y[0];
    if (at >= x[last]) return y[last];
    let i = 0;
    while (at > x[i + 1]) i++;
    const h = x[i + 1] - x[i];
    const s = (at - x[i]) / h;
    const rise = y[i + 1] - y[i];
    const start = h * slopes[i];
    const end = h * slopes[i + 1];
    return y[i] + s * (start + s * (3 * rise - 2 * start - end + s * (start + end - 2 * rise)));
  };
}
