/** The load as given → the one form the solver meets: a coefficient table with its factors, or a wheel. */
import type { Load } from '../drive/drive-system.js';
import { airDensity } from '../media/air.js';
import { pressureAtAltitude } from '../media/standard-atmosphere.js';
import type { Gearbox } from '../parts/gearbox.js';
import type { Motor } from '../parts/motor.js';
import { familyGeometry, measuredGeometry, twistWithPrintedPitch } from '../parts/propeller/blade-families.js';
import { rotorFromGeometry } from '../parts/propeller/blade-geometry.js';
import { type BladeBasis, bladeElementTable } from '../parts/propeller/blade-table.js';
import { type CoefficientTable, createCoefficientTable } from '../parts/propeller/coefficient-table.js';
import { marineTable } from '../parts/propeller/marine-coasting.js';
import { marineRangeProblems } from '../parts/propeller/marine-series.js';
import { tableFromMeasuredPoints } from '../parts/propeller/measured-points.js';
import type { Datum } from './datum.js';
import type { Filler } from './filler.js';
import type { GivenBladeElement, GivenDrive, GivenMeasuredPoints, GivenPropeller } from './given.js';

interface Medium {
  readonly airTemperature: Datum;
  readonly airPressure: Datum;
  readonly waterTemperature: Datum;
  readonly waterKind: 'fresh' | 'sea' | undefined;
}

const value = (x: number | Datum): number => (typeof x === 'number' ? x : x.value);

export function completeLoad(fill: Filler, given: GivenDrive, medium: Medium, motor: Motor<Datum>, gearbox: Gearbox<Datum>): Load<Datum> {
  const { wheel, propeller } = given;
  if (wheel !== undefined) {
    return {
      kind: 'wheel',
      radius: fill.need(wheel.radius, wheel.place, 'radius', 'half the tyre’s diameter, measured under load'),
      grip: wheel.grip ?? fill.fixed('tyre-grip', 0.9),
      drivenShare: wheel.drivenShare ?? fill.fixed('all-wheels-driven', 1),
      inertia: wheel.inertia ?? fill.fixed('no-inertia', 0),
    };
  }
  const place = propeller?.place ?? { ...given.place, path: 'propeller' };
  if (propeller === undefined) fill.missing(place, 'kind', 'a propeller or a wheel', 'say what the motor turns');
  const diameter = fill.need(propeller?.diameter, place, 'diameter', 'printed on the blade as diameter × pitch');
  const inWater = propeller?.kind === 'marine-series' || propeller?.medium === 'water';
  const kind = medium.waterKind ?? 'fresh';
  const density = inWater
    ? fill.by(`${kind}-water-density`, medium.waterTemperature)
    : fill.by('air-density', medium.airTemperature, medium.airPressure);
  const kinematicViscosity = inWater
    ? fill.by(`${kind}-water-viscosity`, medium.waterTemperature)
    : fill.by('air-viscosity', medium.airTemperature, medium.airPressure);
  const errors = factors(fill, propeller);
  return {
    kind: 'propeller',
    diameter,
    ...errors,
    density,
    kinematicViscosity,
    wakeFraction: propeller?.wakeFraction ?? fill.fixed('no-wake', 0),
    thrustDeduction: propeller?.thrustDeduction ?? fill.fixed('no-deduction', 0),
    shaftEfficiency: propeller?.shaftEfficiency ?? fill.fixed('shaft-efficiency', 1),
    inertia: propeller?.inertia ?? fill.by(inWater ? 'screw-inertia' : 'propeller-inertia', diameter),
    folding: propeller?.folding ?? (propeller?.kind === 'blade-element' && propeller.family === 'folding'),
    table:
      propeller === undefined || Number.isNaN(diameter.value)
        ? EMPTY
        : tableOf(fill, propeller, diameter.value, density.value, { medium, motor, gearbox }),
  };
}

/** Pitch over diameter of air propellers, with room to spare; common practice, no published source. */
const LEAST_PITCH = 0.15;
const MOST_PITCH = 2.5;

/** Stands in where the propeller is missing; the problem keeps it from ever being used. */
const EMPTY = createCoefficientTable([
  { advanceRatio: 0, thrustCoefficient: Number.MIN_VALUE, powerCoefficient: Number.MIN_VALUE },
  { advanceRatio: 1, thrustCoefficient: Number.MIN_VALUE, powerCoefficient: Number.MIN_VALUE },
]);

const bladeBasis = ({ stations, pitch }: GivenBladeElement): BladeBasis =>
  stations === undefined ? 'family' : pitch === undefined ? 'stations' : 'stations-and-pitch';

function factors(fill: Filler, propeller: GivenPropeller | undefined): { thrustFactor: Datum; powerFactor: Datum } {
  switch (propeller?.kind) {
    case 'marine-series':
      return { thrustFactor: fill.fixed('marine-thrust-error', 1), powerFactor: fill.fixed('marine-power-error', 1) };
    case 'blade-element': {
      const basis = bladeBasis(propeller);
      return { thrustFactor: fill.fixed(`blade-${basis}-thrust-error`, 1), powerFactor: fill.fixed(`blade-${basis}-power-error`, 1) };
    }
    case 'measured-points': {
      const { points } = propeller;
      const thrust = points.some((point) => point.thrust !== undefined);
      const power = points.some(
        (point) => point.torque !== undefined || point.shaftPower !== undefined || point.batteryCurrent !== undefined,
      );
      return {
        thrustFactor: fill.fixed(thrust ? 'coefficient-error' : 'merit-thrust-error', 1),
        powerFactor: fill.fixed(power ? 'power-coefficient-error' : 'merit-power-error', 1),
      };
    }
    case 'coefficients':
      return {
        thrustFactor: propeller.thrustFactor ?? fill.fixed('coefficient-error', 1),
        powerFactor: propeller.powerFactor ?? fill.fixed('power-coefficient-error', 1),
      };
    default:
      return { thrustFactor: fill.fixed('coefficient-error', 1), powerFactor: fill.fixed('power-coefficient-error', 1) };
  }
}

/** What a bench measurement with this drive is read with. */
interface Bench {
  readonly medium: Medium;
  readonly motor: Motor<Datum>;
  readonly gearbox: Gearbox<Datum>;
}

/** Density of the air where it was measured, of the scenario's own where that is not said [kg/m³]. */
function measuredDensity({ measuredAt }: GivenMeasuredPoints, density: number, { medium }: Bench): number {
  if (measuredAt === undefined) return density;
  const { air, altitude } = measuredAt;
  const pressure = altitude === undefined ? medium.airPressure.value : pressureAtAltitude(altitude.value);
  return airDensity((air ?? medium.airTemperature).value, pressure);
}

/** Torque of the propeller [N·m] from the pack's current at full throttle through this motor, cold: (k_t·i − loss torque)·ratio·efficiency. */
function torqueFromCurrent(speed: number, current: number, voltage: number | undefined, { motor, gearbox }: Bench): number {
  const [kt, ratio] = [motor.torqueConstant.value, gearbox.ratio.value];
  const shaft = speed * ratio;
  const most = voltage === undefined ? Number.POSITIVE_INFINITY : (voltage - current * motor.resistance.value) / kt;
  // Kv is good to some per cent
  if (shaft > 1.1 * most)
    throw new RangeError(
      'a speed that this motor does not reach at that voltage and current; a point by current must be taken with this motor and gear',
    );
  const loss =
    motor.hysteresisTorque.value + motor.frictionTorque.value + motor.eddyTorque.value * shaft + motor.windageTorque.value * shaft * shaft;
  return (kt * current - loss) * ratio * gearbox.efficiency.value;
}

function tableOf(fill: Filler, propeller: GivenPropeller, diameter: number, density: number, bench: Bench): CoefficientTable {
  const problem = (path: string, found: string, hint: string): CoefficientTable => {
    fill.problems.push({
      kind: 'out-of-range',
      place: { ...propeller.place, path: `${propeller.place.path}.${path}` },
      expected: 'a propeller inside its model',
      found,
      hint,
    });
    return EMPTY;
  };
  try {
    switch (propeller.kind) {
      case 'coefficients':
        return createCoefficientTable(
          propeller.table.map((row) => ({
            advanceRatio: value(row.advanceRatio),
            thrustCoefficient: value(row.thrust),
            powerCoefficient: value(row.power),
          })),
        );
      case 'measured-points':
        return tableFromMeasuredPoints(
          propeller.points.map((point) => ({
            angularSpeed: point.shaftSpeed.value,
            ...(point.thrust && { thrust: point.thrust.value }),
            ...(point.torque && { torque: point.torque.value }),
            ...(point.shaftPower && { shaftPower: point.shaftPower.value }),
            ...(point.batteryCurrent &&
              !point.torque &&
              !point.shaftPower && {
                torque: torqueFromCurrent(point.shaftSpeed.value, point.batteryCurrent.value, point.voltage?.value, bench),
              }),
            ...(point.vehicleSpeed && { advanceSpeed: point.vehicleSpeed.value }),
          })),
          diameter,
          propeller.medium === 'water' ? density : measuredDensity(propeller, density, bench),
        ).table;
      case 'marine-series': {
        const pitchRatio = propeller.pitchRatio?.value ?? (propeller.pitch === undefined ? Number.NaN : propeller.pitch.value / diameter);
        const screw = { blades: propeller.blades ?? 3, areaRatio: propeller.areaRatio?.value ?? 0.5, pitchRatio };
        if (Number.isNaN(pitchRatio))
          return problem('pitch_ratio', 'no pitch', 'give pitch_ratio, or pitch; both stand on the screw or in its list');
        const outside = marineRangeProblems(screw);
        if (outside.length > 0)
          return problem('kind', outside.join('; '), 'use kind: measured-points or coefficients for a screw outside the series');
        return marineTable(screw);
      }
      case 'blade-element': {
        const pitchRatio = (propeller.pitch?.value ?? diameter) / diameter;
        if (!(pitchRatio >= LEAST_PITCH && pitchRatio <= MOST_PITCH))
          return problem(
            'pitch',
            `a pitch of ${pitchRatio.toPrecision(2)} diameters`,
            `air propellers have ${LEAST_PITCH} to ${MOST_PITCH} diameters of pitch; are both in the same unit, and the right way round?`,
          );
        const { family = 'thin-electric', blades = 2, pitch } = propeller;
        if (propeller.stations !== undefined) {
          const measured = propeller.stations.map((s) => ({ radius: value(s.radius), chord: value(s.chord), twist: value(s.twist) }));
          const stations = pitch === undefined ? measured : twistWithPrintedPitch(measured, family, { diameter, pitch: pitch.value });
          return bladeElementTable(rotorFromGeometry(measuredGeometry(stations, family, blades)));
        }
        if (pitch === undefined) return problem('pitch', 'no pitch', 'printed on the blade as diameter × pitch');
        return bladeElementTable(rotorFromGeometry(familyGeometry(family, { diameter, pitch: pitch.value, blades })));
      }
    }
  } catch (error) {
    if (error instanceof RangeError) return problem('kind', error.message, 'correct the numbers of the propeller');
    throw error;
  }
}
