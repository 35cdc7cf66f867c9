/** The motor's geometry and what was given about its heat → the heat network; every gap filled by rule. @module */

import { finSpacing } from '../../heat/fins.js';
import type { FittedSink, HeatPaths, HullStrap, MountSurface, StatedJacket, WaterCoil } from '../../heat/heat-paths.js';
import type { Battery } from '../../parts/battery/battery.js';
import type { Controller } from '../../parts/controller.js';
import type { Magnet } from '../../parts/magnets.js';
import type { Motor } from '../../parts/motor.js';
import type { Datum, Place } from '../datum.js';
import type { GivenCooling, GivenDrive, Joint } from '../given.js';
import type { Filler } from './filler.js';

export function completeHeat(
  fill: Filler,
  given: GivenDrive,
  motor: Motor<Datum>,
  battery: Battery<Datum>,
  controller: Controller<Datum>,
): HeatPaths<Datum> {
  const thermal = given.motor?.thermal;
  const { layout, canDiameter: diameter, canLength: length, mass } = motor;
  const stack = given.motor?.stackLength ?? fill.by(`${layout}-stack`, length);
  const bore = given.motor?.statorDiameter ?? fill.by(`${layout}-stator-diameter`, diameter);
  const none = fill.by('no-path');
  const outrunner = layout === 'outrunner';
  const cooling = given.cooling;
  const jacket = cooling?.waterJacket;
  const open = cooling?.air?.openness ?? (outrunner ? fill.by('openness') : fill.by('closed-motor'));
  // a catalogue's "housing" is an inrunner's can, but the fixed part of an outrunner, which is its stator; its way to the air is the whole one
  const toHousing = thermal?.windingToHousing;
  const housing = thermal?.housingToAmbient;
  const closedCan = thermal?.canToAir ?? (outrunner ? undefined : housing);
  const shutCan = closedCan !== undefined || housing !== undefined;
  const ownFlow = thermal?.statorToAir;
  const stated = ownFlow?.conductance ?? (outrunner ? housing : undefined);
  const joint = fill.by(outrunner ? 'bearing-tube' : 'flange', diameter);
  const wholeMount = cooling?.mount?.conductance ?? (housing !== undefined || (closedCan !== undefined && !outrunner) ? none : undefined);
  const onBell = (place: Place, found: string): void => {
    fill.problems.push({
      kind: 'conflict',
      place,
      expected: 'cooling on the mount of an outrunner',
      found,
      hint: 'write covers: mount, or choose layout: inrunner',
    });
  };
  const coil = cooling?.waterCoil;
  const sink = cooling?.heatSink;
  if (outrunner && jacket !== undefined && jacket.covers !== 'mount') onBell(jacket.place, 'a jacket on its turning bell');
  if (outrunner && coil !== undefined && coil.covers !== 'mount') onBell(coil.place, 'a water coil on its turning bell');
  if (outrunner && sink !== undefined && (sink.covers ?? 'can') === 'can') onBell(sink.place, 'a heat sink on its turning bell');
  if (jacket !== undefined && coil !== undefined) {
    fill.problems.push({
      kind: 'conflict',
      place: coil.place,
      expected: 'water_jacket or water_coil',
      found: 'both',
      hint: 'a jacket’s stated conductance already holds its tube; keep the one you know more about',
    });
  }
  const sunk = sink !== undefined && (sink.covers ?? 'can') === 'can' && !outrunner;
  const flown = given.vehicle?.wing !== undefined;
  const airScrew = given.propeller !== undefined && given.propeller.kind !== 'marine-series' && given.propeller.medium !== 'water';
  const shut = fill.by('no-share');
  const tube: Tube | undefined =
    coil === undefined
      ? undefined
      : {
          bore: fill.need(coil.bore, coil.place, 'bore', 'the inner diameter of the tube'),
          length: fill.need(coil.length, coil.place, 'length', 'turns times the circumference of the can'),
          speedShare: coil.shareOfBoatSpeed ?? (coil.pump === undefined ? fill.by('coil-speed') : fill.by('no-scoop')),
          pumpSpeed:
            coil.pump === undefined
              ? fill.by('no-pump')
              : fill.by('pump-speed', coil.pump, fill.need(coil.bore, coil.place, 'bore', 'the inner diameter of the tube')),
          contact:
            coil.contact ?? fill.by('coil-joint', fill.need(coil.length, coil.place, 'length', 'turns times the circumference of the can')),
          water: fill.choose('water', given.ambient?.waterKind),
        };
  const strap = cooling?.strap === undefined ? undefined : completeStrap(fill, cooling.strap);
  if (outrunner && cooling?.strap !== undefined && cooling.strap.covers !== 'mount')
    onBell(cooling.strap.place, 'a strap on its turning bell');
  const fan = cooling?.fan;
  const cowl = cooling?.air?.cowl;
  const twice = (place: Place, expected: string, hint: string): void => {
    fill.problems.push({ kind: 'conflict', place, expected, found: 'both', hint });
  };
  if (fan !== undefined && cooling?.air?.speed !== undefined)
    twice(fan.place, 'a fan or the speed of its air', 'keep the speed where it was measured, else the fan');
  if (cowl !== undefined && (cooling?.air?.shareOfSlipstream !== undefined || cooling?.air?.shareOfVehicleSpeed !== undefined))
    twice(cowl.place, 'a cowl or the shares of the air', 'the cowl’s inlet and gap give the share; drop one of them');
  const ducted =
    cowl === undefined
      ? undefined
      : fill.by(
          'cowl-share',
          fill.need(cowl.inlet, cowl.place, 'inlet', 'the opening in front, breadth times height'),
          fill.need(cowl.gap, cowl.place, 'gap', 'half of what the cowl is wider inside than the can'),
          diameter,
        );
  const fitted = sink === undefined ? undefined : completeSink(fill, sink);
  return {
    capacity: {
      winding: thermal?.windingCapacity ?? fill.by('winding-capacity', mass),
      stator: thermal?.statorCapacity ?? fill.by('stator-capacity', mass),
      ...(outrunner && thermal?.canCapacity !== undefined
        ? { can: fill.by('bell-capacity', thermal.canCapacity), magnets: fill.by('bell-magnets-capacity', thermal.canCapacity) }
        : { can: thermal?.canCapacity ?? fill.by('can-capacity', mass), magnets: fill.by('magnet-capacity', mass) }),
      controller: given.controller?.thermal?.capacity ?? fill.by('controller-heat-capacity', controller.mass),
      cells:
        given.battery?.supply !== undefined
          ? fill.fixed('of-a-supply', Number.POSITIVE_INFINITY)
          : (given.battery?.thermal?.capacity ?? fill.by('cell-heat-capacity', battery.mass)),
    },
    windingToStator:
      thermal?.windingToStator ??
      (toHousing === undefined
        ? fill.by(`${layout}-slot-contact`, bore, stack, fill.fixed('pole-count', 2 * motor.polePairs))
        : outrunner
          ? toHousing
          : fill.by('winding-of-housing', toHousing)),
    // a given way from stator to bell is the whole one: the magnets hang on the bell then
    statorToCan:
      thermal?.statorToCan ??
      (outrunner ? none : toHousing === undefined ? fill.by('press-fit', bore, stack) : fill.by('stator-of-housing', toHousing)),
    statorToMagnets: outrunner && thermal?.statorToCan !== undefined ? none : fill.by(`${layout}-gap`, bore, stack),
    // the printed way is all there is between an inrunner's winding and housing: its rotor hangs on the gap alone
    magnetsToCan: outrunner ? fill.by('bonded-magnets', diameter, stack) : toHousing === undefined ? fill.by('shaft-and-bearings') : none,
    toMount: wholeMount ?? joint,
    mount: wholeMount === undefined ? mountSurface(fill, cooling?.mount?.plate, diameter) : undefined,
    canToAir: closedCan ?? none,
    controllerToAir: given.controller?.thermal?.toAir ?? fill.by('controller-to-air', controller.mass),
    cellsToAir: given.battery?.thermal?.toAir ?? fill.by('cells-to-air', battery.mass),
    controllerConvection: given.controller?.thermal?.toAir === undefined ? fill.by('convective-share') : fill.by('holds-as-given'),
    cellsConvection: given.battery?.thermal?.toAir === undefined ? fill.by('convective-share') : fill.by('holds-as-given'),
    compartmentAirSpeed: cooling?.compartment?.speed ?? fill.by('still-compartment'),
    compartmentSpeedShare:
      cooling?.compartment?.shareOfVehicleSpeed ?? (flown ? fill.by('compartment-share') : fill.by('closed-compartment')),
    throughFlow: outrunner && stated === undefined ? fill.by('through-flow', bore, stack) : none,
    statorToAir: stated === undefined ? undefined : { conductance: stated, shaftSpeed: ownFlow?.atSpeed ?? fill.by('every-speed') },
    sideArea: shutCan ? none : fill.by('can-side', diameter, length),
    sideCovered: sunk ? (sink.coverage ?? fill.by('sink-coverage')) : fill.by('uncovered'),
    endArea: shutCan ? none : fill.by('can-ends', diameter),
    canDiameter: diameter,
    canLength: length,
    emissivity: fill.by('can-emissivity'),
    convectionFactor: fill.by('convection-error'),
    openness: open,
    airSpeed:
      cooling?.air?.speed ??
      (fan === undefined
        ? fill.by('still-air')
        : fill.by(
            'fan-air',
            fill.need(fan.flow, fan.place, 'flow', 'on its sheet, litres a minute or m³/h in free air'),
            fill.need(fan.diameter, fan.place, 'diameter', 'of its blades, by caliper'),
          )),
    // a motor behind an air propeller stands in part of its stream, whatever its layout; any other is taken to be shut in
    vehicleSpeedShare: cooling?.air?.shareOfVehicleSpeed ?? ducted ?? (flown && airScrew ? fill.by('flight-share') : shut),
    slipstreamShare: cooling?.air?.shareOfSlipstream ?? (airScrew ? ducted : undefined) ?? (airScrew ? fill.by('slipstream-share') : shut),
    ...(jacket !== undefined
      ? { jacket: completeJacket(fill, jacket), coil: undefined }
      : { jacket: undefined, coil: tube && { ...tube, covers: fill.choose('coil-covers', coil?.covers) } }),
    sink: fitted,
    strap: strap && { conductance: strap.conductance, covers: strap.covers },
    ...added(fill, { sink: fitted, jacket, coil: tube, strapMass: strap?.mass, cooling, motor }),
    endPlace: fill.by('end-place'),
    layout,
  };
}

const completeJacket = (fill: Filler, jacket: NonNullable<GivenCooling['waterJacket']>): StatedJacket<Datum> => ({
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

const mountSurface = (fill: Filler, plate: Datum | undefined, diameter: Datum): MountSurface<Datum> => ({
  area: plate === undefined ? fill.by('mount-faces', diameter) : fill.by('both-faces', plate),
  emissivity: fill.by('mount-emissivity'),
});

/** A coil before it is said where it lies. */
type Tube = Omit<WaterCoil<Datum>, 'covers'>;

/** What stands all round the can, fins on a can, a coil or a jacket round it, and what all of it weighs. */
function added(
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
    readonly coil: Tube | undefined;
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

/** Effective conductivity [W/(m·K)]; of a heat pipe that is not asked for more than it carries. */
const STRAP_CONDUCTIVITY = { copper: 390, aluminium: 200, 'heat-pipe': 10_000 } as const;

function completeStrap(fill: Filler, strap: NonNullable<GivenCooling['strap']>): HullStrap<Datum> & { readonly mass: Datum } {
  const area = fill.need(strap.crossSection, strap.place, 'cross_section', 'breadth times thickness of the strap');
  const length = fill.need(strap.length, strap.place, 'length', 'from the motor to where it lies on the hull');
  const material = fill.choose('strap-material', strap.material);
  const conductivity = fill.fixed(material === 'heat-pipe' ? 'pipe-conductivity' : 'strap-conductivity', STRAP_CONDUCTIVITY[material]);
  return {
    conductance: fill.by('strap', area, length, conductivity, strap.contact ?? fill.by('strap-joints')),
    covers: fill.choose('strap-covers', strap.covers),
    mass: fill.by(material === 'aluminium' ? 'aluminium-strap-mass' : 'copper-strap-mass', area, length),
  };
}

const FIN_CONDUCTIVITY = { aluminium: 200, copper: 390, steel: 45 } as const;

function completeSink(fill: Filler, sink: NonNullable<GivenCooling['heatSink']>): FittedSink<Datum> {
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
    conductivity: fill.fixed('fin-conductivity', FIN_CONDUCTIVITY[fill.choose('sink-material', sink.material)]),
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

/** Least intrinsic coercivity at 20 °C by grade [A/m], magnet makers' tables; UH, EH, AH from memory. */
const COERCIVITY = { N: 955e3, M: 1114e3, H: 1353e3, SH: 1592e3, UH: 1990e3, EH: 2388e3, AH: 2785e3 } as const;

/** What demagnetisation needs; nothing where the magnets' thickness or grade was not given. */
export function completeMagnet(fill: Filler, given: GivenDrive, motor: Motor<Datum>): Magnet<Datum> | undefined {
  const sheet = given.motor;
  if (sheet?.magnetThickness === undefined || sheet.magnetGrade === undefined) return undefined;
  const { layout, canDiameter, canLength } = motor;
  return {
    thickness: sheet.magnetThickness,
    gap: sheet.airGap ?? fill.by('magnet-gap'),
    remanence: fill.by('remanence'),
    remanenceCoefficient: motor.fluxCoefficient,
    coercivity: fill.fixed('grade-coercivity', COERCIVITY[sheet.magnetGrade]),
    coercivityCoefficient: fill.by('coercivity-coefficient'),
    statorRadius: fill.by('half', sheet.statorDiameter ?? fill.by(`${layout}-stator-diameter`, canDiameter)),
    stackLength: sheet.stackLength ?? fill.by(`${layout}-stack`, canLength),
  };
}
