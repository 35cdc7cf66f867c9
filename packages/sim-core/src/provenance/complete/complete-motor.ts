/** The motor from its sheet. @module */

import type { Motor } from '../../parts/motor.js';
import type { Dimension } from '../../quantities/index.js';
import { type Data, type Datum, givenDatum, type Place, valuesOf } from '../datum.js';
import { FROM_READING, type GivenDrive, type GivenMotor, writtenResistance } from '../given.js';
import { lineThrough, losesPower, MOST_LOST } from '../no-load.js';
import { inputsOf } from '../rules/rules.js';
import { LEAST_DROP } from '../rules/rules-motor.js';
import { completeSwitches } from './complete-electrics.js';
import { completeGearbox } from './complete-gearbox.js';
import type { Filler } from './filler.js';

/** What the bench reading of this motor asks for. */
function resistanceFromReading(
  fill: Filler,
  given: GivenDrive,
  torqueConstant: Datum<'torqueConstant'>,
  polePairs: number,
): Datum<'resistance'> {
  const sheet = given.motor;
  const reading = sheet?.reading;
  const place = sheet?.place ?? given.place;
  if (reading === undefined)
    return fill.need(
      undefined,
      'resistance',
      place,
      'resistance',
      'from-reading needs a point of the propeller with voltage, battery_current and shaft_speed at full throttle, measured_with this motor',
    );
  const inductance = writtenInductance(fill, sheet);
  const resistance = fill.by(given.controller?.drive === 'sinusoidal' ? 'resistance-from-sinusoidal-reading' : 'resistance-from-reading', {
    torqueConstant,
    voltage: reading.voltage,
    current: reading.current,
    speed: reading.shaftSpeed,
    ratio: completeGearbox(fill, given).ratio,
    polePairs: fill.fixed('pole-pairs', polePairs),
    ...(inductance === undefined ? { inductanceTime: fill.by('inductance-time') } : { inductance }),
    ...completeSwitches(fill, given),
  });
  // the law stops at a fiftieth of what voltage over current would be
  if (resistance.value <= (1.001 * LEAST_DROP * reading.voltage.value) / reading.current.value)
    fill.problems.push({
      kind: 'conflict',
      place: { ...place, path: `${place.path}.resistance` },
      expected: 'a reading that leaves some voltage for the winding',
      found: 'Kv times the voltage hardly above the speed that was read',
      hint: 'Kv is too low for this reading, or its voltage was read before the wires: measure Kv without load',
    });
  return resistance;
}

/** Between lines; written between the same two points as the resistance. */
function writtenInductance(fill: Filler, sheet: GivenMotor | undefined): Datum<'inductance'> | undefined {
  if (sheet?.inductance === undefined) return undefined;
  return sheet.resistanceBetween === 'phase-and-star' ? fill.by('inductance-from-phase', { phase: sheet.inductance }) : sheet.inductance;
}

/** Between lines, at 20 °C. */
function measuredResistance(
  fill: Filler,
  sheet: GivenMotor | undefined,
  copper: Datum<'temperatureCoefficient'>,
): Datum<'resistance'> | undefined {
  const written = writtenResistance(sheet);
  if (written === undefined) return undefined;
  const between = fill.choose('resistance-between', sheet?.resistanceBetween);
  const lines = between === 'phase-and-star' ? fill.by('line-from-phase', { phase: written }) : written;
  if (sheet?.resistanceAt !== undefined)
    return fill.by('resistance-at-room', { resistance: lines, at: sheet.resistanceAt, coefficient: copper });
  fill.take('resistance-at');
  return lines;
}

/** From Kv, else from a no-load point with its speed. */
function completeTorqueConstant(
  fill: Filler,
  sheet: GivenMotor | undefined,
  place: Place,
  resistance: Datum<'resistance'> | undefined,
): Datum<'torqueConstant'> {
  const { speed, voltage, current } = sheet?.noLoad?.[0] ?? {};
  if (sheet?.kv === undefined && speed !== undefined && voltage !== undefined)
    return fill.by('kt-from-no-load-speed', {
      voltage,
      speed,
      ...(current === undefined || resistance === undefined ? {} : { current, resistance }),
    });
  const kv = fill.need(sheet?.kv, 'speedConstant', place, 'kv', 'on every spec sheet, in rpm/V; or give no_load with voltage and speed');
  return fill.by(fill.choose('kv-measured', sheet?.kvMeasured) === 'back-emf' ? 'kt-from-back-emf' : 'kt-from-kv', { kv });
}

export function completeMotor(fill: Filler, given: GivenDrive): Motor<Data> {
  const sheet = given.motor;
  const place = sheet?.place ?? { ...given.place, path: 'motor' };
  if (sheet?.layout === undefined) fill.missing(place, 'layout', 'layout', 'outrunner if the can turns with the shaft, else inrunner');
  const layout = sheet?.layout ?? 'inrunner';
  const copper = fill.by('copper-coefficient');
  const measured = measuredResistance(fill, sheet, copper);
  const torqueConstant = completeTorqueConstant(fill, sheet, place, measured);
  const mass = fill.need(sheet?.mass, 'mass', place, 'mass', 'spec sheet, or a kitchen scale');
  const polePairs = fill.choose(`${layout}-poles`, sheet?.poles) / 2;
  const resistance =
    sheet?.resistance === FROM_READING
      ? resistanceFromReading(fill, given, torqueConstant, polePairs)
      : (measured ?? fill.by(`${layout}-resistance`, { torqueConstant, mass }));
  const diameter = fill.need(
    sheet?.can?.diameter,
    'length',
    place,
    'can.diameter',
    'the outside of the can, by caliper; often in the motor’s name',
  );
  const length = fill.need(sheet?.can?.length, 'length', place, 'can.length', 'the can without the shaft, by caliper');
  const points = sheet?.noLoad ?? [];
  const current = points[0]?.current ?? fill.by(`${layout}-no-load-current`, { torqueConstant, mass });
  const voltage = points[0]?.voltage ?? fill.by('no-load-voltage');
  for (const point of points) {
    const lost = ((point.current ?? current).value * resistance.value) / (point.voltage ?? voltage).value;
    if (lost > MOST_LOST)
      fill.problems.push({
        kind: 'conflict',
        place: { ...place, path: `${place.path}.no_load` },
        expected: 'a no-load voltage of which the resistance takes a few per cent',
        found: `${(100 * lost).toPrecision(2)} % taken by no-load current times resistance`,
        hint: 'look at the units: resistance in mohm, no-load current in A, seldom above a tenth of the rated one',
      });
  }
  const last = points.at(-1);
  let constant: Datum<'torque'>;
  let eddyTorque: Datum<'torquePerSpeed'>;
  if (points.length > 1) {
    const need = <D extends 'current' | 'voltage'>(datum: Datum<D> | undefined, dimension: D): Datum<D> =>
      fill.need(datum, dimension, place, `no_load.${dimension}`, 'of several no-load points each needs its current and its voltage');
    const [first] = points;
    const inputs = {
      torqueConstant,
      resistance,
      current: need(first.current, 'current'),
      voltage: need(first.voltage, 'voltage'),
      lastCurrent: need(last?.current, 'current'),
      lastVoltage: need(last?.voltage, 'voltage'),
    };
    constant = fill.by('constant-loss-from-two', inputs);
    eddyTorque = fill.by('speed-loss-from-two', inputs);
    const read = valuesOf(inputs);
    if (Object.values(read).every(Number.isFinite) && !losesPower(lineThrough(read))) {
      fill.problems.push({
        kind: 'conflict',
        place: { ...place, path: `${place.path}.no_load` },
        expected: 'a no-load current that rises gently with voltage',
        found: 'points whose loss torque falls with speed, or vanishes at rest',
        hint: 'measure both points with the same wiring, or give one point only',
      });
    }
  } else {
    const share = fill.by('constant-loss-share');
    constant = fill.by('constant-loss-torque', { torqueConstant, resistance, current, voltage, share });
    eddyTorque = fill.by('speed-loss-torque', { torqueConstant, resistance, current, voltage, share });
  }
  const friction = fill.by('friction-share');
  if (sheet?.poles === undefined || sheet.poles % 2 !== 0) {
    if (sheet?.poles !== undefined) fill.missing(place, 'poles', 'an even number of poles', 'count the magnets');
  }
  return {
    torqueConstant,
    resistance,
    inductance: writtenInductance(fill, sheet) ?? fill.by('inductance-from-resistance', { resistance, time: fill.by('inductance-time') }),
    resistanceCoefficient: copper,
    fluxCoefficient: fill.ofKind('flux-coefficient', sheet?.magnetGrade ?? 'M'),
    hysteresisTorque: fill.by('hysteresis-torque', { constant, friction }),
    eddyTorque,
    frictionTorque: fill.by('friction-torque', { constant, friction }),
    windageTorque: fill.by('no-windage'),
    magnetLossShare: fill.by('magnet-loss-share'),
    rotorInertia: sheet?.rotorInertia ?? fill.by(`${layout}-inertia`, { mass, diameter }),
    mass,
    canDiameter: diameter,
    canLength: length,
    polePairs,
    layout,
  };
}

/**
 * A drive whose motor's sheet has no gaps in resistance and no-load point: what `data` was completed with stands as if written, so that
 * laws of shape and winding have something to scale.
 */
export function writtenOut(given: GivenDrive, data: Motor<Data>): GivenDrive {
  const sheet = given.motor;
  if (sheet === undefined) return given;
  const asWritten = <D extends Dimension>(subject: string, { dimension, value, unknown }: Datum<D>): Datum<D> =>
    givenDatum(subject, dimension, value, unknown.spread, { ...sheet.place, path: subject });
  const { current, voltage } = inputsOf(data.eddyTorque, 'speed-loss-torque') ?? inputsOf(data.eddyTorque, 'speed-loss-from-two') ?? {};
  const [first, ...more] = sheet.noLoad ?? [];
  const noLoad =
    current === undefined || voltage === undefined
      ? sheet.noLoad
      : [
          {
            ...first,
            current: first?.current ?? asWritten('motor.no_load.current', current),
            voltage: first?.voltage ?? asWritten('motor.no_load.voltage', voltage),
          },
          ...more,
        ];
  return {
    ...given,
    motor: {
      ...sheet,
      resistance: writtenResistance(sheet) ?? asWritten('motor.resistance', data.resistance),
      ...(noLoad === undefined ? {} : { noLoad }),
    },
  };
}
