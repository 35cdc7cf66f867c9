/**
 * A propeller known by measurements → its coefficients, and how far off they may be.
 *
 * (1) torque from the supply's voltage and current: by balance of power (bench-reading.ts), the motor cold, × ratio·efficiency; without the
 *     voltage (k_t·i − loss torque), which is off by 20 to 40 %
 * (2) half-width of a factor = max(2·scatter about the fit, what was written beside the points; 5 % where nothing was)
 *     a propeller measured at rest alone that a vehicle carries to speed: what its fall with speed leaves open besides
 * (3) written: √(mean ((thrust or torque)² + (2·speed)²)) over the points, shares of the value; power counts the speed three times,
 *     a current the voltage and the error of (1) besides
 *
 * *Leaves out*: that one instrument's error is shared by all its points; (3) does not shrink with their number.
 *
 * @module
 */

import type { PropellerLoad } from '../../drive/drive-system.js';
import { airDensity } from '../../media/air.js';
import { pressureAtAltitude } from '../../media/standard-atmosphere.js';
import type { Controller } from '../../parts/controller.js';
import type { Gearbox } from '../../parts/gearbox.js';
import { lossTorque, type Motor } from '../../parts/motor.js';
import { type MeasuredTable, tableFromMeasuredPoints } from '../../parts/propeller/measured-points.js';
import { certain } from '../../problems/certain.js';
import { halfWidth95 } from '../../quantities/spread.js';
import { torqueByPower } from '../bench-reading.js';
import { type Data, type Datum, isDatum } from '../datum.js';
import type { GivenDrive, GivenMeasuredPoints, GivenReadings } from '../given.js';
import { completeController } from './complete-electrics.js';
import { completeGearbox } from './complete-gearbox.js';
import { completeMotor } from './complete-motor.js';
import { createFiller, type Filler } from './filler.js';
import { readsCurrent } from './measured-with.js';

export interface Medium {
  readonly airTemperature: Datum<'temperature'>;
  readonly airPressure: Datum<'pressure'>;
  readonly waterTemperature: Datum<'temperature'>;
  readonly waterKind: 'fresh' | 'sea' | undefined;
}

/** Coefficients, and how far off they may be: one factor each, and what of the shape is unknown. */
export type Curves = Pick<PropellerLoad<Data>, 'table' | 'shape' | 'thrustFactor' | 'powerFactor'>;

/** What a measurement is read with where nothing else is said: the surroundings, and this candidate's own drive. */
export interface Bench {
  readonly medium: Medium;
  readonly drive: GivenDrive;
}

interface Turning {
  readonly motor: Motor;
  readonly controller: Controller;
  readonly gearbox: Gearbox;
}

type Point = GivenReadings['points'][number];

/** Measurements fitted, with what was written beside them by equation 3. */
export interface ReadPoints {
  readonly fit: MeasuredTable;
  readonly written: { readonly thrust: number; readonly power: number };
}

/** Throws RangeError for points that cannot be. `density` is that of the scenario [kg/m³]. */
export function readPoints(
  given: GivenReadings,
  turnsIn: 'air' | 'water',
  diameter: number,
  density: number,
  { medium, drive }: Bench,
): ReadPoints {
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
    turnsIn === 'water' ? density : measuredDensity(given, density, medium),
    turnsIn,
  );
  const written = {
    thrust: writtenError(given.points, thrustError),
    power: writtenError(given.points, powerError),
  };
  return { fit, written };
}

/** Notes what points were taken in and with where nothing is said of it. */
export function chooseConditions(fill: Filler, given: GivenReadings, turnsIn: 'air' | 'water'): void {
  if (turnsIn === 'air' && given.measuredAt === undefined) fill.take('measured-at');
  if (given.points.some(readsCurrent)) fill.choose('measured-with', given.measuredWith);
}

/** As `readPoints`; the table is the measurement itself. */
export function completeMeasuredPoints(
  fill: Filler,
  given: GivenMeasuredPoints,
  diameter: number,
  density: number,
  bench: Bench,
  turnsIn: 'air' | 'water',
): Curves {
  chooseConditions(fill, given, turnsIn);
  const { fit, written: shares } = readPoints(given, turnsIn, diameter, density, bench);
  // a bench stays at rest, where all of the fan is one
  const carried = bench.drive.vehicle === undefined ? undefined : fit.carried;
  const factor = (of: 'thrust' | 'power', scatter: number, share: number): Datum<'ratio'> => {
    if (fit.estimated === of) return fill.by(`merit-${of}-error`);
    const written = fill.fixed(`written-${of}-error`, share);
    if (carried !== undefined) return fill.by(`carried-${of}-error`, { written, scatter: fill.fixed(`${of}-scatter`, scatter) });
    if (given.points.length === 1) return fill.by(`one-point-${of}-error`, { written });
    return fill.by(`fitted-${of}-error`, { written, scatter: fill.fixed(`${of}-scatter`, scatter) });
  };
  return {
    table: fit.table,
    ...(carried && { shape: { amount: fill.by('carried-reach', { error: fill.fixed('reach-error', carried.step) }), fan: carried } }),
    thrustFactor: factor('thrust', fit.thrustResidual ?? 0, shares.thrust),
    powerFactor: factor('power', fit.powerResidual ?? 0, shares.power),
  };
}

/** Motor, controller and gear of a candidate; what it lacks is told where that candidate is completed. */
function turningPart(given: GivenDrive): Turning {
  const fill = createFiller('bench');
  const motor = completeMotor(fill, given);
  const controller = completeController(fill, given, given.battery?.cells?.series ?? 1, motor.inductance);
  const gearbox = completeGearbox(fill, given);
  return { motor: nominal(motor) as Motor, controller: nominal(controller) as Controller, gearbox: nominal(gearbox) as Gearbox };
}

/** A record with plain numbers in place of data, as they stand. */
const nominal = (record: object): object =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key, isDatum(value) ? value.value : value]));

/** Density of the air where it was measured, of the scenario's own where that is not said [kg/m³]. */
function measuredDensity({ measuredAt }: GivenReadings, density: number, medium: Medium): number {
  if (measuredAt === undefined) return density;
  const { air, altitude } = measuredAt;
  const pressure = altitude === undefined ? medium.airPressure.value : pressureAtAltitude(altitude.value);
  return airDensity((air ?? medium.airTemperature).value, pressure);
}

/** Equation 1 [N·m]. */
function torqueFromCurrent({ shaftSpeed, batteryCurrent, voltage, throttle }: Point, { motor, controller, gearbox }: Turning): number {
  const current = certain(batteryCurrent, 'battery current at a measured point').value;
  const speed = shaftSpeed.value * gearbox.ratio;
  if (voltage === undefined) {
    const torque = motor.torqueConstant * current - lossTorque(motor, speed, 1);
    return torque * gearbox.ratio * gearbox.efficiency;
  }
  const reading = { voltage: voltage.value, current, speed, duty: throttle?.value ?? 1 };
  // Kv is good to some per cent
  if (motor.torqueConstant * speed > 1.1 * reading.duty * reading.voltage)
    throw new RangeError(
      'a speed that this motor does not reach at that voltage and current; a point by current must be taken with this motor and gear',
    );
  const torque = torqueByPower(reading, motor, controller);
  if (!(torque > 0))
    throw new RangeError(
      'a power that this motor, with the resistance it has here, turns into heat alone: write resistance: from-reading, which takes the one that the reading asks for; or the point was taken with another motor or gear, or at another throttle',
    );
  return torque * gearbox.ratio * gearbox.efficiency;
}

/** Half-width of the 95 % interval as a share of the value [1]. */
function share(datum: Datum | undefined): number {
  if (datum === undefined) return 0;
  const { spread } = datum.unknown;
  return spread.shape === 'normal' ? halfWidth95(spread) / Math.abs(datum.value) : halfWidth95(spread);
}

/** Error of (1) beside those of voltage and current: loss torque, warmth of the winding; with the usual ones of a meter ± 6 % in all [1]. */
const BALANCE = 0.03;
/** The same where the voltage was not read [1]. */
const BY_TORQUE_CONSTANT = 0.3;

/** Squared shares of equation 3; nothing where the point does not have the quantity. */
const thrustError = ({ thrust, shaftSpeed }: Point): number | undefined => thrust && share(thrust) ** 2 + (2 * share(shaftSpeed)) ** 2;
const powerError = ({ torque, shaftPower, batteryCurrent, voltage, shaftSpeed }: Point): number | undefined => {
  const speed = share(shaftSpeed);
  if (torque !== undefined) return share(torque) ** 2 + (2 * speed) ** 2;
  if (shaftPower !== undefined) return share(shaftPower) ** 2 + (3 * speed) ** 2;
  if (batteryCurrent === undefined) return undefined;
  const law = voltage === undefined ? BY_TORQUE_CONSTANT : Math.hypot(BALANCE, share(voltage));
  return share(batteryCurrent) ** 2 + law ** 2 + (3 * speed) ** 2;
};

function writtenError(points: readonly Point[], square: (point: Point) => number | undefined): number {
  const squares = points.map(square).filter((each) => each !== undefined);
  return squares.length === 0 ? 0 : Math.sqrt(squares.reduce((sum, each) => sum + each, 0) / squares.length);
}
