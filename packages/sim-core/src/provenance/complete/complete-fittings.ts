/** What is fitted to the motor for cooling: sink, strap, coil, jacket; and how thick and heavy all of it is. @module */

import { finSpacing } from '../../heat/fins.js';
import type { FittedSink, HullStrap, StatedJacket, WaterCoil } from '../../heat/heat-paths.js';
import type { Motor } from '../../parts/motor.js';
import type { Datum } from '../datum.js';
import type { GivenCooling, GivenDrive, Joint } from '../given.js';
import type { Filler } from './filler.js';

/** What stands all round the can, fins on a can, a coil or a jacket round it, and what all of it weighs. */
export function added(
  fill: Filler,
  {
    sink,
    jacket,
    coil,
    strapMass,
    cooling,
    motor,
  }: {
    readonly sink: FittedSink<Datum> | undefined;
    readonly jacket: GivenCooling['waterJacket'];
    readonly coil: WaterCoil<Datum> | undefined;
    readonly strapMass: Datum | undefined;
    readonly cooling: GivenCooling | undefined;
    readonly motor: Motor<Datum>;
  },
): { readonly addedThickness: Datum; readonly addedMass: Datum } {
  const thicknesses: Datum[] = [];
  const masses: Datum[] = [];
  if (sink !== undefined) {
    const { fins } = sink;
    if (sink.covers === 'can') thicknesses.push(fill.by('fins-round-can', fins.finHeight));
    masses.push(fill.by('sink-mass', fill.fixed('fin-count', fins.fins), fins.finHeight, fins.finThickness, fins.length, fins.breadth));
  }
  if (coil !== undefined) {
    thicknesses.push(fill.by('tube-round-can', coil.bore));
    masses.push(fill.by('tube-mass', coil.bore, coil.length));
  }
  if (jacket !== undefined) {
    thicknesses.push(jacket.thickness ?? fill.by('jacket-round-can'));
    masses.push(fill.by('jacket-mass', motor.canDiameter, motor.canLength));
  }
  if (strapMass !== undefined) masses.push(strapMass);
  const onCan = motor.layout === 'inrunner' ? thicknesses : [];
  const { fan } = cooling ?? {};
  if (fan?.diameter !== undefined) {
    onCan.push(fill.by('fan-beyond-can', fan.diameter, motor.canDiameter));
    masses.push(fan.mass ?? fill.by('fan-mass', fan.diameter));
  }
  if (cooling?.air?.cowl?.gap !== undefined) onCan.push(cooling.air.cowl.gap);
  return {
    addedThickness: onCan.length === 0 ? fill.by('nothing-round-can') : fill.by('thickest', ...onCan),
    addedMass: masses.length === 0 ? fill.by('nothing-added') : fill.by('sum', ...masses),
  };
}

const jointOf = (fill: Filler, joint: Joint): Datum => fill.by(`joint-${joint}`);

/** Metal or a heat pipe from the motor to the hull. */
export function completeStrap(fill: Filler, strap: NonNullable<GivenCooling['strap']>): HullStrap<Datum> & { readonly mass: Datum } {
  const area = fill.need(strap.crossSection, strap.place, 'cross_section', 'breadth times thickness of the strap');
  const length = fill.need(strap.length, strap.place, 'length', 'from the motor to where it lies on the hull');
  const material = fill.choose('strap-material', strap.material);
  const conductivity = material === 'heat-pipe' ? fill.by('pipe-conductivity') : fill.ofKind('strap-conductivity', material);
  return {
    conductance: fill.by('strap', area, length, conductivity, strap.contact ?? fill.by('strap-joints')),
    covers: fill.choose('strap-covers', strap.covers),
    mass: fill.by(material === 'aluminium' ? 'aluminium-strap-mass' : 'copper-strap-mass', area, length),
  };
}

/** Fins, and the joint under them. */
export function completeSink(fill: Filler, sink: NonNullable<GivenCooling['heatSink']>): FittedSink<Datum> {
  const { place } = sink;
  if (sink.fins === undefined) fill.missing(place, 'fins', 'the number of fins', 'count them');
  const length = fill.need(sink.length, place, 'length', 'the base along the fins, by caliper');
  const breadth = fill.need(sink.breadth, place, 'breadth', 'the base across the fins; round a can its circumference');
  const fins = {
    fins: sink.fins ?? 2,
    finHeight: fill.need(sink.finHeight, place, 'fin_height', 'the height of a fin above its base, by caliper'),
    finThickness: fill.need(sink.finThickness, place, 'fin_thickness', 'by caliper; about 1 mm'),
    length,
    breadth,
    conductivity: fill.ofKind('fin-conductivity', fill.choose('sink-material', sink.material)),
  };
  try {
    finSpacing({
      fins: fins.fins,
      finHeight: fins.finHeight.value,
      finThickness: fins.finThickness.value,
      length: length.value,
      breadth: breadth.value,
      conductivity: 1,
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    if (!Number.isNaN(breadth.value))
      fill.problems.push({
        kind: 'conflict',
        place,
        expected: 'fins that leave spacing between them',
        found: error.message,
        hint: 'fins times fin_thickness must be less than breadth',
      });
  }
  return {
    fins,
    contact: sink.contact ?? fill.by('sink-joint', length, breadth, jointOf(fill, fill.choose('sink-joint', sink.joint))),
    covers: fill.choose('sink-covers', sink.covers),
  };
}

/** A tube round the motor, with the water that a scoop or a pump moves through it. */
export function completeCoil(fill: Filler, coil: NonNullable<GivenCooling['waterCoil']>, ambient: GivenDrive['ambient']): WaterCoil<Datum> {
  const bore = fill.need(coil.bore, coil.place, 'bore', 'the inner diameter of the tube');
  const length = fill.need(coil.length, coil.place, 'length', 'turns times the circumference of the can');
  return {
    bore,
    length,
    speedShare: coil.shareOfBoatSpeed ?? (coil.pump === undefined ? fill.by('coil-speed') : fill.by('no-scoop')),
    pumpSpeed: coil.pump === undefined ? fill.by('no-pump') : fill.by('pump-speed', coil.pump, bore),
    contact: coil.contact ?? fill.by('coil-joint', length),
    water: fill.choose('water', ambient?.waterKind),
    covers: fill.choose('coil-covers', coil.covers),
  };
}

/** A jacket whose conductance was stated. */
export const completeJacket = (fill: Filler, jacket: NonNullable<GivenCooling['waterJacket']>): StatedJacket<Datum> => ({
  conductance: fill.need(
    jacket.conductance,
    jacket.place,
    'conductance',
    'watts carried away per kelvin between can and water; 1 to 3 W/K for model jackets',
  ),
  speed: fill.need(jacket.atSpeed, jacket.place, 'at_speed', 'the boat’s speed at which that conductance holds'),
  restShare: jacket.restShare ?? fill.by('jacket-rest'),
  covers: fill.choose('jacket-covers', jacket.covers),
});
