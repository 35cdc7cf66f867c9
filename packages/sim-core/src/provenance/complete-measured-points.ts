/**
 * A propeller known by measurements → its coefficients, and how far off they may be.
 *
 * (1) torque from the pack's current at full throttle: (k_t·i − loss torque)·ratio·efficiency, the motor cold
 * (2) half-width of a factor = max(2·scatter about the fit, what was written beside the points; 5 % where nothing was)
 *     a propeller measured at rest alone that a vehicle carries to speed: what its fall with speed leaves open besides
 * (3) written: √(mean ((thrust or torque)² + (2·speed)²)) over the points, shares of the value; power counts the speed three times, a current
 *     the torque constant besides
 *
 * *Leaves out*: that one instrument's error is shared by all its points; (3) does not shrink with their number.
 */
import { airDensity } from '../media/air.js';
import { pressureAtAltitude } from '../media/standard-atmosphere.js';
import type { Gearbox } from '../parts/gearbox.js';
import type { Motor } from '../parts/motor.js';
import type { CoefficientTable } from '../parts/propeller/coefficient-table.js';
import { tableFromMeasuredPoints } from '../parts/propeller/measured-points.js';
import { halfWidth95 } from '../quantities/spread.js';
import { completeGearbox } from './complete-gearbox.js';
import { completeMotor } from './complete-motor.js';
import type { Datum } from './datum.js';
import { createFiller, type Filler } from './filler.js';
import type { GivenDrive, GivenMeasuredPoints } from './given.js';
import { readsCurrent } from './measured-with.js';

export interface Medium {
  readonly airTemperature: Datum;
  readonly airPressure: Datum;
  readonly waterTemperature: Datum;
  readonly waterKind: 'fresh' | 'sea' | undefined;
}

/** Coefficients, and how far off they may be as one factor each. */
export interface Curves {
  readonly table: CoefficientTable;
  readonly thrustFactor: Datum;
  readonly powerFactor: Datum;
}

/** What a measurement is read with where nothing else is said: the surroundings, and this candidate's own drive. */
export interface Bench {
  readonly medium: Medium;
  readonly drive: GivenDrive;
}

interface Turning {
  readonly motor: Motor<Datum>;
  readonly gearbox: Gearbox<Datum>;
}

type Point = GivenMeasuredPoints['points'][number];

/** Throws RangeError for points that cannot be. `density` is that of the scenario [kg/m³]. */
export function completeMeasuredPoints(
  fill: Filler,
  given: GivenMeasuredPoints,
  diameter: number,
  density: number,
  { medium, drive }: Bench,
): Curves {
  const turning = turningPart(given.bench ?? drive);
  const fit = tableFromMeasuredPoints(
    given.points.map((point) => ({
      angularSpeed: point.shaftSpeed.value,
      ...(point.thrust && { thrust: point.thrust.value }),
      ...(point.torque && { torque: point.torque.value }),
      ...(point.shaftPower && { shaftPower: point.shaftPower.value }),
      ...(readsCurrent(point) && { torque: torqueFromCurrent(point, turning) }),
      ...(point.vehicleSpeed && { advanceSpeed: point.vehicleSpeed.value }),
    })),
    diameter,
    given.medium === 'water' ? density : measuredDensity(given, density, medium),
    given.medium ?? 'air',
  );
  const factor = (of: 'thrust' | 'power', scatter: number, share: number): Datum => {
    if (fit.estimated === of) return fill.fixed(`merit-${of}-error`, 1);
    const written = fill.fixed(`written-${of}-error`, share);
    if (fit.restAlone && drive.vehicle !== undefined) return fill.by(`carried-${of}-error`, written, fill.fixed(`${of}-scatter`, scatter));
    if (given.points.length === 1) return fill.by(`one-point-${of}-error`, written);
    return fill.by(`fitted-${of}-error`, written, fill.fixed(`${of}-scatter`, scatter));
  };
  return {
    table: fit.table,
    thrustFactor: factor('thrust', fit.thrustResidual ?? 0, writtenError(given.points, thrustError)),
    powerFactor: factor(
      'power',
      fit.powerResidual ?? 0,
      writtenError(given.points, (point) => powerError(point, turning.motor)),
    ),
  };
}

/** Motor and gear of a candidate; what it lacks is told where that candidate is completed. */
function turningPart(given: GivenDrive): Turning {
  const fill = createFiller('bench');
  return { motor: completeMotor(fill, given), gearbox: completeGearbox(fill, given) };
}

/** Density of the air where it was measured, of the scenario's own where that is not said [kg/m³]. */
function measuredDensity({ measuredAt }: GivenMeasuredPoints, density: number, medium: Medium): number {
  if (measuredAt === undefined) return density;
  const { air, altitude } = measuredAt;
  const pressure = altitude === undefined ? medium.airPressure.value : pressureAtAltitude(altitude.value);
  return airDensity((air ?? medium.airTemperature).value, pressure);
}

/** Equation 1 [N·m]. */
function torqueFromCurrent({ shaftSpeed, batteryCurrent, voltage }: Point, { motor, gearbox }: Turning): number {
  const current = batteryCurrent!.value;
  const [kt, ratio] = [motor.torqueConstant.value, gearbox.ratio.value];
  const shaft = shaftSpeed.value * ratio;
  const most = voltage === undefined ? Number.POSITIVE_INFINITY : (voltage.value - current * motor.resistance.value) / kt;
  // Kv is good to some per cent
  if (shaft > 1.1 * most)
    throw new RangeError(
      'a speed that this motor does not reach at that voltage and current; a point by current must be taken with this motor and gear',
    );
  const loss =
    motor.hysteresisTorque.value + motor.frictionTorque.value + motor.eddyTorque.value * shaft + motor.windageTorque.value * shaft * shaft;
  return (kt * current - loss) * ratio * gearbox.efficiency.value;
}

/** Half-width of the 95 % interval as a share of the value [1]. */
function share(datum: Datum | undefined): number {
  if (datum === undefined) return 0;
  const { spread } = datum.unknown;
  return spread.shape === 'normal' ? halfWidth95(spread) / Math.abs(datum.value) : halfWidth95(spread);
}

/** Squared shares of equation 3. */
const thrustError = ({ thrust, shaftSpeed }: Point): number => share(thrust) ** 2 + (2 * share(shaftSpeed)) ** 2;
const powerError = (point: Point, motor: Motor<Datum>): number => {
  const { torque, shaftPower, batteryCurrent, shaftSpeed } = point;
  const speed = share(shaftSpeed);
  if (torque !== undefined) return share(torque) ** 2 + (2 * speed) ** 2;
  if (shaftPower !== undefined) return share(shaftPower) ** 2 + (3 * speed) ** 2;
  return share(batteryCurrent) ** 2 + share(motor.torqueConstant) ** 2 + (2 * speed) ** 2;
};

const writtenError = (points: readonly Point[], square: (point: Point) => number): number =>
  Math.sqrt(points.reduce((sum, point) => sum + square(point), 0) / points.length);
