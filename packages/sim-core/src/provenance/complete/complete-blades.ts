/**
 * A propeller calculated from the shape of its blades → its tables over the angle of the blades, and how far off they may be.
 *
 * (1) doubt of the angle: that of what is known of the blade, × 1.5 below 0.15 m of diameter; where photograph and print lie d > 1.5° apart,
 *     √(its square + (1.5·d)²)
 * (2) points at rest beside it set it (set-by-rest.ts); then the factors carry the reading's own error besides
 *
 * Unknowns are keyed by the propeller, so that candidates with one propeller share its error and different propellers have each its own.
 *
 * @module
 */

import {
  familyGeometry,
  measuredGeometry,
  printedAngle,
  stationAngle,
  twistWithPrintedPitch,
} from '../../parts/propeller/blade-families.js';
import { rotorFromGeometry } from '../../parts/propeller/blade-geometry.js';
import { BLADE_ANGLE_ERROR, type BladeBasis, bladeFan } from '../../parts/propeller/blade-table.js';
import type { PropellerMedium } from '../../parts/propeller/propeller-laws.js';
import { setByRest } from '../../parts/propeller/set-by-rest.js';
import { type Dimension, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { Datum } from '../datum.js';
import type { GivenBladeElement } from '../given.js';
import { CHOICES } from '../rules/choices.js';
import { type Bench, type Curves, chooseConditions, readPoints } from './complete-measured-points.js';
import type { Filler } from './filler.js';

const SMALL = 0.15;
const SMALL_WIDENS = 1.5;
/** Where photograph and print disagree [rad]. */
export const ANGLES_APART = (1.5 * Math.PI) / 180;
const APART_WIDENS = 1.5;
const value = (x: number | Datum): number => (typeof x === 'number' ? x : x.value);

const bladeBasis = ({ stations, pitch, family }: GivenBladeElement): BladeBasis => {
  if (stations === undefined) return family === undefined ? 'assumed-family' : 'family';
  return pitch === undefined ? 'stations' : 'stations-and-pitch';
};

const measuredStations = ({ stations }: GivenBladeElement) =>
  stations?.map((s) => ({ radius: value(s.radius), chord: value(s.chord), twist: value(s.twist) }));

/** Printed less measured angle of a blade that has both, where they disagree [rad]. */
export function anglesApart(given: GivenBladeElement, diameter: number): number | undefined {
  const stations = measuredStations(given);
  if (stations === undefined || given.pitch === undefined) return undefined;
  const apart = printedAngle(given.family ?? CHOICES.family.value, { diameter, pitch: given.pitch.value }) - stationAngle(stations);
  return Math.abs(apart) > ANGLES_APART ? apart : undefined;
}

/** Throws RangeError for a blade that cannot be. `medium` is what it turns in; `bench` what its points were read with. */
export function completeBlades(fill: Filler, given: GivenBladeElement, diameter: number, medium: PropellerMedium, bench: Bench): Curves {
  const { pitch } = given;
  const family = fill.choose('family', given.family);
  const blades = fill.choose('propeller-blades', given.blades);
  const size = pitch === undefined ? undefined : { diameter, pitch: pitch.value, blades };
  const measured = measuredStations(given);
  const geometry = (): Parameters<typeof rotorFromGeometry>[0] => {
    if (measured !== undefined)
      return measuredGeometry(size === undefined ? measured : twistWithPrintedPitch(measured, family, size), family, blades);
    if (size === undefined) throw new RangeError('a blade with neither pitch nor stations');
    return familyGeometry(family, size);
  };
  const rotor = rotorFromGeometry(geometry());
  const basis = bladeBasis(given);
  const wide = Math.hypot(
    BLADE_ANGLE_ERROR[basis] * (diameter < SMALL ? SMALL_WIDENS : 1),
    APART_WIDENS * (anglesApart(given, diameter) ?? 0),
  );
  // to nine digits, so that a size written in another unit is the same blade
  const digits = (x: number | undefined): number | '' => (x === undefined ? '' : Number(x.toPrecision(9)));
  const key = `#${[digits(diameter), blades, family, digits(pitch?.value), measured?.length ?? ''].join('/')}`;
  const own = <D extends Dimension>(datum: Datum<D>): Datum<D> => ({
    ...datum,
    unknown: { ...datum.unknown, key: `${datum.unknown.key}${key}` },
  });

  if (given.points === undefined)
    return {
      ...shape(bladeFan(rotor, 0, wide), own(fill.by(`blade-${basis}-angle`, { error: fill.fixed('blade-angle-error', wide) }))),
      thrustFactor: own(fill.by('blade-thrust-error')),
      powerFactor: own(fill.by('blade-power-error')),
    };
  const readings = { ...given, points: given.points };
  chooseConditions(fill, readings, 'air');
  const { fit, written } = readPoints(readings, 'air', diameter, medium.density, bench);
  if (fit.carried === undefined)
    throw new RangeError(
      'points under way beside a calculated propeller, which points at rest set; give these as kind: measured-points, or leave them out',
    );
  const fastest = Math.max(...given.points.map(({ shaftSpeed }) => shaftSpeed.value)) / (2 * Math.PI);
  const read = (of: 'thrust' | 'power'): number | undefined => (fit.estimated === of ? undefined : fit.table[of][0]);
  const error = (of: 'thrust' | 'power'): number => Math.max(2 * (fit[`${of}Residual`] ?? 0), written[of]);
  const set = setByRest(
    rotor,
    {
      discReynolds: (fastest * diameter ** 2) / medium.kinematicViscosity,
      thrustCoefficient: read('thrust'),
      powerCoefficient: read('power'),
      error: Math.max(...(['thrust', 'power'] as const).filter((of) => read(of) !== undefined).map(error)) / STANDARD_DEVIATIONS_95,
    },
    wide,
  );
  const factor = (of: 'thrust' | 'power'): Datum<'ratio'> =>
    own(
      read(of) === undefined
        ? fill.by(`blade-${of}-error`)
        : fill.by(`blade-set-${of}-error`, {
            written: fill.fixed(`written-${of}-error`, written[of]),
            scatter: fill.fixed(`${of}-scatter`, fit[`${of}Residual`] ?? 0),
          }),
    );
  return {
    ...shape(
      set.fan,
      own(
        fill.by('blade-set-angle', { angle: fill.fixed('blade-angle', set.angle), error: fill.fixed('blade-angle-error', set.angleError) }),
      ),
    ),
    thrustFactor: factor('thrust'),
    powerFactor: factor('power'),
  };
}

const shape = (fan: NonNullable<Curves['shape']>['fan'], amount: Datum<'angle'>): Pick<Curves, 'table' | 'shape'> => ({
  table: fan.table,
  shape: { amount, fan },
});
