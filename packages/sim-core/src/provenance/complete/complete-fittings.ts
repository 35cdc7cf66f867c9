/** What is fitted to the motor for cooling: sink, strap, coil, jacket; and how thick and heavy all of it is. @module */

import { finSpacing } from '../../heat/fins.js';
import type { FittedSink, HullStrap, StatedJacket, WaterCoil } from '../../heat/heat-paths.js';
import type { Motor } from '../../parts/motor.js';
import type { Data, Datum } from '../datum.js';
import type { GivenCooling, GivenDrive, Joint } from '../given.js';
import type { InputsOf } from '../rules/rules.js';
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
    readonly sink: FittedSink<Data> | undefined;
    readonly jacket: GivenCooling['waterJacket'];
    readonly coil: WaterCoil<Data> | undefined;
    readonly strapMass: Datum<'mass'> | undefined;
    readonly cooling: GivenCooling | undefined;
    readonly motor: Motor<Data>;
  },
): { readonly addedThickness: Datum<'length'>; readonly addedMass: Datum<'mass'> } {
  const { canDiameter: can, canLength: length } = motor;
  const { fan, air } = cooling ?? {};
  const onCan = motor.layout === 'inrunner';
  const thickness: InputsOf<'thickest'> = {
    sink: onCan && sink?.covers === 'can' ? fill.by('fins-round-can', { height: sink.fins.finHeight }) : undefined,
    coil: onCan && coil !== undefined ? fill.by('tube-round-can', { bore: coil.bore }) : undefined,
    jacket: onCan && jacket !== undefined ? (jacket.thickness ?? fill.by('jacket-round-can')) : undefined,
    fan: fan?.diameter && fill.by('fan-beyond-can', { fan: fan.diameter, can }),
    cowl: air?.cowl?.gap,
  };
  const mass: InputsOf<'sum'> = {
    sink: sink && sinkMass(fill, sink),
    coil: coil && fill.by('tube-mass', { bore: coil.bore, length: coil.length }),
    jacket: jacket && fill.by('jacket-mass', { can, length }),
    strap: strapMass,
    fan: fan?.diameter && (fan.mass ?? fill.by('fan-mass', { diameter: fan.diameter })),
  };
  const any = (inputs: object): boolean => Object.values(inputs).some((input) => input !== undefined);
  return {
    addedThickness: any(thickness) ? fill.by('thickest', thickness) : fill.by('nothing-round-can'),
    addedMass: any(mass) ? fill.by('sum', mass) : fill.by('nothing-added'),
  };
}

function sinkMass(fill: Filler, { fins }: FittedSink<Data>): Datum<'mass'> {
  const { finHeight: height, finThickness: thickness, length, breadth } = fins;
  return fill.by('sink-mass', { fins: fill.fixed('fin-count', fins.fins), height, thickness, length, breadth });
}

const jointOf = (fill: Filler, joint: Joint) => fill.by(`joint-${joint}`);

/** Metal or a heat pipe from the motor to the hull. */
export function completeStrap(fill: Filler, strap: NonNullable<GivenCooling['strap']>): HullStrap<Data> & { readonly mass: Datum<'mass'> } {
  const area = fill.need(strap.crossSection, 'area', strap.place, 'cross_section', 'breadth times thickness of the strap');
  const length = fill.need(strap.length, 'length', strap.place, 'length', 'from the motor to where it lies on the hull');
  const material = fill.choose('strap-material', strap.material);
  const conductivity = material === 'heat-pipe' ? fill.by('pipe-conductivity') : fill.ofKind('strap-conductivity', material);
  return {
    conductance: fill.by('strap', { area, length, conductivity, joints: strap.contact ?? fill.by('strap-joints') }),
    covers: fill.choose('strap-covers', strap.covers),
    mass: fill.by(material === 'aluminium' ? 'aluminium-strap-mass' : 'copper-strap-mass', { area, length }),
  };
}

/** Fins, and the joint under them. */
export function completeSink(fill: Filler, sink: NonNullable<GivenCooling['heatSink']>): FittedSink<Data> {
  const { place } = sink;
  if (sink.fins === undefined) fill.missing(place, 'fins', 'the number of fins', 'count them');
  const length = fill.need(sink.length, 'length', place, 'length', 'the base along the fins, by caliper');
  const breadth = fill.need(sink.breadth, 'length', place, 'breadth', 'the base across the fins; round a can its circumference');
  const fins = {
    fins: sink.fins ?? 2,
    finHeight: fill.need(sink.finHeight, 'length', place, 'fin_height', 'the height of a fin above its base, by caliper'),
    finThickness: fill.need(sink.finThickness, 'length', place, 'fin_thickness', 'by caliper; about 1 mm'),
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
    contact: sink.contact ?? fill.by('sink-joint', { length, breadth, joint: jointOf(fill, fill.choose('sink-joint', sink.joint)) }),
    covers: fill.choose('sink-covers', sink.covers),
  };
}

/** A tube round the motor, with the water that a scoop or a pump moves through it. */
export function completeCoil(fill: Filler, coil: NonNullable<GivenCooling['waterCoil']>, ambient: GivenDrive['ambient']): WaterCoil<Data> {
  const bore = fill.need(coil.bore, 'length', coil.place, 'bore', 'the inner diameter of the tube');
  const length = fill.need(coil.length, 'length', coil.place, 'length', 'turns times the circumference of the can');
  return {
    bore,
    length,
    speedShare: coil.shareOfBoatSpeed ?? (coil.pump === undefined ? fill.by('coil-speed') : fill.by('no-scoop')),
    pumpSpeed: coil.pump === undefined ? fill.by('no-pump') : fill.by('pump-speed', { flow: coil.pump, bore }),
    contact: coil.contact ?? fill.by('coil-joint', { length }),
    water: fill.choose('water', ambient?.waterKind),
    covers: fill.choose('coil-covers', coil.covers),
  };
}

/** Share of the speed at which a jacket is said to hold below which no draw of it goes [1]. */
const SLOWEST_RATED = 0.1;

/** A jacket whose conductance was stated. */
export function completeJacket(fill: Filler, jacket: NonNullable<GivenCooling['waterJacket']>): StatedJacket<Data> {
  const conductance = fill.need(
    jacket.conductance,
    'conductance',
    jacket.place,
    'conductance',
    'watts carried away per kelvin between can and water; 1 to 3 W/K for model jackets',
  );
  const speed = fill.need(jacket.atSpeed, 'speed', jacket.place, 'at_speed', 'the boat’s speed at which that conductance holds');
  return {
    conductance,
    // no jacket is rated at rest, however wide the tolerance
    speed: { ...speed, within: { from: SLOWEST_RATED * speed.value, to: Number.POSITIVE_INFINITY } },
    restShare: jacket.restShare ?? fill.by('jacket-rest'),
    covers: fill.choose('jacket-covers', jacket.covers),
  };
}
