/** The load as given → the one form the solver meets: a coefficient table with its factors, or a wheel. @module */

import type { Load, Screw } from '../../drive/drive-system.js';
import { createCoefficientTable } from '../../parts/propeller/coefficient-table.js';
import { carriedPast } from '../../parts/propeller/fall-with-speed.js';
import { marineTable } from '../../parts/propeller/marine-coasting.js';
import { marineRangeProblems } from '../../parts/propeller/marine-series.js';
import type { PropellerMedium } from '../../parts/propeller/propeller-laws.js';
import { STANDARD_GRAVITY } from '../../quantities/constants.js';
import { formatQuantity } from '../../quantities/index.js';
import type { Data, Datum } from '../datum.js';
import type { GivenDrive, GivenMarineSeries, GivenPropeller } from '../given.js';
import { completeBlades } from './complete-blades.js';
import { type Bench, type Curves, completeMeasuredPoints, type Medium } from './complete-measured-points.js';
import type { Filler } from './filler.js';

const value = (x: number | Datum): number => (typeof x === 'number' ? x : x.value);

export function completeLoad(fill: Filler, given: GivenDrive, medium: Medium): Load<Data> {
  const { wheel, propeller } = given;
  if (wheel !== undefined) {
    return {
      kind: 'wheel',
      radius: fill.need(wheel.radius, 'length', wheel.place, 'radius', 'half the tyre’s diameter, measured under load'),
      grip: wheel.grip ?? fill.by('tyre-grip'),
      drivenShare: wheel.drivenShare ?? fill.by('all-wheels-driven'),
      inertia: wheel.inertia ?? fill.by('no-inertia'),
    };
  }
  const place = propeller?.place ?? { ...given.place, path: 'propeller' };
  if (propeller === undefined) fill.missing(place, 'kind', 'a propeller or a wheel', 'say what the motor turns');
  const diameter = fill.need(propeller?.diameter, 'length', place, 'diameter', 'printed on the blade as diameter × pitch');
  const turnsIn = propeller === undefined ? 'air' : propeller.kind === 'marine-series' ? 'water' : fill.choose('medium', propeller.medium);
  const inWater = turnsIn === 'water';
  const kind = inWater ? fill.choose('water', medium.waterKind) : 'fresh';
  const density = inWater
    ? fill.by(`${kind}-water-density`, { temperature: medium.waterTemperature })
    : fill.by('air-density', { temperature: medium.airTemperature, pressure: medium.airPressure });
  const kinematicViscosity = inWater
    ? fill.by(`${kind}-water-viscosity`, { temperature: medium.waterTemperature })
    : fill.by('air-viscosity', { temperature: medium.airTemperature, pressure: medium.airPressure });
  return {
    kind: 'propeller',
    diameter,
    density,
    kinematicViscosity,
    wakeFraction: propeller?.wakeFraction ?? fill.by('no-wake'),
    thrustDeduction: propeller?.thrustDeduction ?? fill.by('no-deduction'),
    shaftEfficiency: propeller?.shaftEfficiency ?? fill.by('shaft-efficiency'),
    inertia: propeller?.inertia ?? fill.by(inWater ? 'screw-inertia' : 'propeller-inertia', { diameter }),
    folding: folds(fill, propeller),
    ...(propeller?.kind === 'marine-series' && { screw: screwOf(fill, propeller, diameter, medium, { kind, density: density.value }) }),
    ...(propeller === undefined || Number.isNaN(diameter.value)
      ? { table: EMPTY, ...usualErrors(fill) }
      : curvesOf(
          fill,
          propeller,
          diameter.value,
          { density: density.value, kinematicViscosity: kinematicViscosity.value },
          { medium, drive: given },
          turnsIn,
        )),
  };
}

/** Folding blades fold; whether others do is for whoever has them to say. */
function folds(fill: Filler, propeller: GivenPropeller | undefined): boolean {
  if (propeller === undefined || propeller.kind === 'marine-series') return propeller?.folding ?? false;
  return propeller.folding ?? (propeller.kind === 'blade-element' && propeller.family === 'folding' ? true : fill.take('folding'));
}

function screwOf(
  fill: Filler,
  propeller: GivenMarineSeries,
  diameter: Datum<'length'>,
  medium: Medium,
  water: { readonly kind: 'fresh' | 'sea'; readonly density: number },
): Screw<Data> {
  const { waterTemperature: temperature, airPressure } = medium;
  const screw = {
    blades: fill.choose('screw-blades', propeller.blades),
    areaRatio: propeller.areaRatio ?? fill.by('screw-area'),
    immersion: propeller.immersion ?? fill.by('screw-immersion', { diameter }),
    vapourPressure: fill.by(`${water.kind}-vapour-pressure`, { temperature }),
  };
  const pressure = airPressure.value + water.density * STANDARD_GRAVITY * screw.immersion.value;
  if (pressure <= screw.vapourPressure.value)
    fill.problems.push({
      kind: 'conflict',
      place: temperature.origin.kind === 'given' ? temperature.origin.place : propeller.place,
      expected: 'water that does not boil at the screw',
      found: `${formatQuantity(temperature.value, 'temperature', { unit: '°C', decimals: 0 })} under ${formatQuantity(airPressure.value, 'pressure')}`,
      hint: 'see the pressure of the ambient, which is that of the air, and the temperature of the water',
    });
  return screw;
}

/** Pitch over diameter of air propellers, with room to spare; common practice, no published source. */
const LEAST_PITCH = 0.15;
const MOST_PITCH = 2.5;

/** Stands in where the propeller is missing; the problem keeps it from ever being used. */
const EMPTY = createCoefficientTable([
  { advanceRatio: 0, thrustCoefficient: Number.MIN_VALUE, powerCoefficient: Number.MIN_VALUE },
  { advanceRatio: 1, thrustCoefficient: Number.MIN_VALUE, powerCoefficient: Number.MIN_VALUE },
]);

const usualErrors = (fill: Filler, medium: 'air' | 'water' = 'water') => ({
  thrustFactor: fill.by(medium === 'air' ? 'air-coefficient-error' : 'coefficient-error'),
  powerFactor: fill.by(medium === 'air' ? 'air-power-coefficient-error' : 'power-coefficient-error'),
});

function curvesOf(
  fill: Filler,
  propeller: GivenPropeller,
  diameter: number,
  fluid: PropellerMedium,
  bench: Bench,
  turnsIn: 'air' | 'water',
): Curves {
  const refused = (path: string, found: string, hint: string): Curves => {
    fill.problems.push({
      kind: 'out-of-range',
      place: { ...propeller.place, path: `${propeller.place.path}.${path}` },
      expected: 'a propeller inside its model',
      found,
      hint,
    });
    return { table: EMPTY, ...usualErrors(fill) };
  };
  try {
    switch (propeller.kind) {
      case 'coefficients': {
        // held down to rest, it would turn the shaft faster and faster out of nothing
        const least = propeller.table[0].power;
        if (least < 0)
          return refused(
            'table',
            `a power coefficient of ${least} in the first row, which holds from rest on`,
            'a propeller at rest takes power to turn: see the sign of that row, or begin the table at an advance ratio where it takes power',
          );
        const usual = usualErrors(fill, turnsIn);
        return {
          table: carriedPast(
            propeller.table.map((row) => ({
              advanceRatio: value(row.advanceRatio),
              thrustCoefficient: value(row.thrust),
              powerCoefficient: value(row.power),
            })),
            turnsIn,
          ),
          thrustFactor: propeller.thrustFactor ?? usual.thrustFactor,
          powerFactor: propeller.powerFactor ?? usual.powerFactor,
        };
      }
      case 'measured-points':
        return completeMeasuredPoints(fill, propeller, diameter, fluid.density, bench, turnsIn);
      case 'marine-series': {
        const pitchRatio = propeller.pitchRatio?.value ?? (propeller.pitch === undefined ? Number.NaN : propeller.pitch.value / diameter);
        const screw = {
          blades: fill.choose('screw-blades', propeller.blades),
          areaRatio: (propeller.areaRatio ?? fill.by('screw-area')).value,
          pitchRatio,
        };
        if (Number.isNaN(pitchRatio))
          return refused('pitch_ratio', 'no pitch', 'give pitch_ratio, or pitch; both stand on the screw or in its list');
        const outside = marineRangeProblems(screw);
        if (outside.length > 0)
          return refused('kind', outside.join('; '), 'use kind: measured-points or coefficients for a screw outside the series');
        return {
          table: marineTable(screw),
          thrustFactor: fill.by('marine-thrust-error'),
          powerFactor: fill.by('marine-power-error'),
        };
      }
      case 'blade-element': {
        const pitchRatio = (propeller.pitch?.value ?? diameter) / diameter;
        if (!(pitchRatio >= LEAST_PITCH && pitchRatio <= MOST_PITCH))
          return refused(
            'pitch',
            `a pitch of ${pitchRatio.toPrecision(2)} diameters`,
            `air propellers have ${LEAST_PITCH} to ${MOST_PITCH} diameters of pitch; are both in the same unit, and the right way round?`,
          );
        if (propeller.stations === undefined && propeller.pitch === undefined)
          return refused('pitch', 'no pitch', 'printed on the blade as diameter × pitch');
        return completeBlades(fill, propeller, diameter, fluid, bench);
      }
    }
  } catch (error) {
    if (error instanceof RangeError) return refused('kind', error.message, 'correct the numbers of the propeller');
    throw error;
  }
}
