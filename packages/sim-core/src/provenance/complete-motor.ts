/** The motor from its sheet. */
import type { Motor } from '../parts/motor.js';
import type { Datum } from './datum.js';
import type { Filler } from './filler.js';
import type { GivenDrive } from './given.js';

export function completeMotor(fill: Filler, given: GivenDrive): Motor<Datum> {
  const sheet = given.motor;
  const place = sheet?.place ?? { ...given.place, path: 'motor' };
  if (sheet?.layout === undefined) fill.missing(place, 'layout', 'layout', 'outrunner if the can turns with the shaft, else inrunner');
  const layout = sheet?.layout ?? 'inrunner';
  const kv = fill.need(sheet?.kv, place, 'kv', 'on every spec sheet, in rpm/V; or spin it and divide rpm by volts');
  const torqueConstant = fill.by(sheet?.kvMeasured === 'back-emf' ? 'kt-from-back-emf' : 'kt-from-kv', kv);
  const written = fill.need(
    sheet?.resistance,
    place,
    'resistance',
    'spec sheet, Ri or Rm; or pass a known current through two leads and read the millivolts',
  );
  const resistance = sheet?.resistanceBetween === 'phase-and-star' ? fill.by('line-from-phase', written) : written;
  const mass = fill.need(sheet?.mass, place, 'mass', 'spec sheet, or a kitchen scale');
  const diameter = fill.need(sheet?.can?.diameter, place, 'can.diameter', 'the outside of the can, by caliper; often in the motor’s name');
  const length = fill.need(sheet?.can?.length, place, 'can.length', 'the can without the shaft, by caliper');
  const points = sheet?.noLoad ?? [];
  const first = points[0];
  const current = fill.need(
    first?.current,
    place,
    'no_load.current',
    'spec sheet, Io or no-load current; or the ammeter with nothing on the shaft',
  );
  const voltage = fill.need(first?.voltage, place, 'no_load.voltage', 'the voltage that stands beside the no-load current');
  const last = points[points.length - 1];
  let constant: Datum;
  let eddyTorque: Datum;
  if (points.length > 1) {
    const inputs = [torqueConstant, resistance, current, voltage, last.current, last.voltage];
    constant = fill.by('constant-loss-from-two', ...inputs);
    eddyTorque = fill.by('speed-loss-from-two', ...inputs);
    if (!(constant.value >= 0 && eddyTorque.value >= 0)) {
      fill.problems.push({
        kind: 'conflict',
        place: { ...place, path: `${place.path}.no_load` },
        expected: 'a no-load current that rises gently with voltage',
        found: 'points whose loss torque falls with speed, or vanishes at rest',
        hint: 'measure both points with the same wiring, or give one point only',
      });
    }
  } else {
    const share = fill.fixed('constant-loss-share', 0.5);
    constant = fill.by('constant-loss-torque', torqueConstant, resistance, current, voltage, share);
    eddyTorque = fill.by('speed-loss-torque', torqueConstant, resistance, current, voltage, share);
  }
  const friction = fill.fixed('friction-share', 0.3);
  if (sheet?.poles === undefined || sheet.poles % 2 !== 0) {
    if (sheet?.poles !== undefined) fill.missing(place, 'poles', 'an even number of poles', 'count the magnets');
  }
  return {
    torqueConstant,
    resistance,
    resistanceCoefficient: fill.fixed('copper-coefficient', 0.00393),
    fluxCoefficient: fill.fixed('flux-coefficient', ['SH', 'UH', 'EH', 'AH'].includes(sheet?.magnetGrade ?? 'M') ? -0.0011 : -0.0012),
    hysteresisTorque: fill.by('hysteresis-torque', constant, friction),
    eddyTorque,
    frictionTorque: fill.by('friction-torque', constant, friction),
    windageTorque: fill.fixed('no-windage', 0),
    magnetLossShare: fill.fixed('magnet-loss-share', 0.07),
    rotorInertia: sheet?.rotorInertia ?? fill.by(`${layout}-inertia`, mass, diameter),
    mass,
    canDiameter: diameter,
    canLength: length,
    polePairs: (sheet?.poles ?? (layout === 'inrunner' ? 4 : 14)) / 2,
    layout,
  };
}
