/** The motor's geometry and what was given about its heat → the heat network; every gap filled by rule. @module */

import type { HeatPaths, MountSurface } from '../../heat/heat-paths.js';
import type { Battery } from '../../parts/battery/battery.js';
import type { Controller } from '../../parts/controller.js';
import type { Motor } from '../../parts/motor.js';
import type { Data, Datum, Place } from '../datum.js';
import type { GivenDrive } from '../given.js';
import { added, completeCoil, completeJacket, completeSink, completeStrap } from './complete-fittings.js';
import type { Filler } from './filler.js';

export function completeHeat(
  fill: Filler,
  given: GivenDrive,
  motor: Motor<Data>,
  battery: Battery<Data>,
  controller: Controller<Data>,
): HeatPaths<Data> {
  const thermal = given.motor?.thermal;
  const { layout, canDiameter: diameter, canLength: length, mass } = motor;
  const stack = given.motor?.stackLength ?? fill.by(`${layout}-stack`, { can: length });
  const bore = given.motor?.statorDiameter ?? fill.by(`${layout}-stator-diameter`, { can: diameter });
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
  const joint = fill.by(outrunner ? 'bearing-tube' : 'flange', { can: diameter });
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
  const tube = coil === undefined ? undefined : completeCoil(fill, coil, given.ambient);
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
      : fill.by('cowl-share', {
          inlet: fill.need(cowl.inlet, 'area', cowl.place, 'inlet', 'the opening in front, breadth times height'),
          gap: fill.need(cowl.gap, 'length', cowl.place, 'gap', 'half of what the cowl is wider inside than the can'),
          can: diameter,
        });
  const fitted = sink === undefined ? undefined : completeSink(fill, sink);
  return {
    capacity: {
      winding: thermal?.windingCapacity ?? fill.by('winding-capacity', { mass }),
      stator: thermal?.statorCapacity ?? fill.by('stator-capacity', { mass }),
      ...(outrunner && thermal?.canCapacity !== undefined
        ? {
            can: fill.by('bell-capacity', { bell: thermal.canCapacity }),
            magnets: fill.by('bell-magnets-capacity', { bell: thermal.canCapacity }),
          }
        : { can: thermal?.canCapacity ?? fill.by('can-capacity', { mass }), magnets: fill.by('magnet-capacity', { mass }) }),
      controller: given.controller?.thermal?.capacity ?? fill.by('controller-heat-capacity', { mass: controller.mass }),
      cells:
        given.battery?.supply !== undefined
          ? fill.without('of-a-supply', 'heatCapacity', Number.POSITIVE_INFINITY)
          : (given.battery?.thermal?.capacity ?? fill.by('cell-heat-capacity', { mass: battery.mass })),
    },
    windingToStator:
      thermal?.windingToStator ??
      (toHousing === undefined
        ? fill.by(`${layout}-slot-contact`, { bore, stack, poles: fill.fixed('pole-count', 2 * motor.polePairs) })
        : outrunner
          ? toHousing
          : fill.by('winding-of-housing', { whole: toHousing })),
    // a given way from stator to bell is the whole one: the magnets hang on the bell then
    statorToCan:
      thermal?.statorToCan ??
      (outrunner
        ? none
        : toHousing === undefined
          ? fill.by('press-fit', { bore, stack })
          : fill.by('stator-of-housing', { whole: toHousing })),
    statorToMagnets: outrunner && thermal?.statorToCan !== undefined ? none : fill.by(`${layout}-gap`, { bore, stack }),
    // the printed way is all there is between an inrunner's winding and housing: its rotor hangs on the gap alone
    magnetsToCan: outrunner
      ? fill.by('bonded-magnets', { can: diameter, stack })
      : toHousing === undefined
        ? fill.by('shaft-and-bearings')
        : none,
    toMount: wholeMount ?? joint,
    mount: wholeMount === undefined ? mountSurface(fill, cooling?.mount?.plate, diameter) : undefined,
    canToAir: closedCan ?? none,
    controllerToAir: given.controller?.thermal?.toAir ?? fill.by('controller-to-air', { mass: controller.mass }),
    cellsToAir: given.battery?.thermal?.toAir ?? fill.by('cells-to-air', { mass: battery.mass }),
    controllerConvection: given.controller?.thermal?.toAir === undefined ? fill.by('convective-share') : fill.by('holds-as-given'),
    cellsConvection: given.battery?.thermal?.toAir === undefined ? fill.by('convective-share') : fill.by('holds-as-given'),
    compartmentAirSpeed: cooling?.compartment?.speed ?? fill.by('still-compartment'),
    compartmentSpeedShare:
      cooling?.compartment?.shareOfVehicleSpeed ?? (flown ? fill.by('compartment-share') : fill.by('closed-compartment')),
    throughFlow: outrunner && stated === undefined ? fill.by('through-flow', { bore, stack }) : none,
    statorToAir: stated === undefined ? undefined : { conductance: stated, shaftSpeed: ownFlow?.atSpeed ?? fill.by('every-speed') },
    sideArea: shutCan ? fill.by('no-surface') : fill.by('can-side', { can: diameter, length }),
    sideCovered: sunk ? (sink.coverage ?? fill.by('sink-coverage')) : fill.by('uncovered'),
    endArea: shutCan ? fill.by('no-surface') : fill.by('can-ends', { can: diameter }),
    canDiameter: diameter,
    canLength: length,
    emissivity: fill.by('can-emissivity'),
    convectionFactor: fill.by('convection-error'),
    openness: open,
    airSpeed:
      cooling?.air?.speed ??
      (fan === undefined
        ? fill.by('still-air')
        : fill.by('fan-air', {
            flow: fill.need(fan.flow, 'volumeFlow', fan.place, 'flow', 'on its sheet, litres a minute or m³/h in free air'),
            diameter: fill.need(fan.diameter, 'length', fan.place, 'diameter', 'of its blades, by caliper'),
          })),
    // a motor behind an air propeller stands in part of its stream, whatever its layout; any other is taken to be shut in
    vehicleSpeedShare: cooling?.air?.shareOfVehicleSpeed ?? ducted ?? (flown && airScrew ? fill.by('flight-share') : shut),
    slipstreamShare: cooling?.air?.shareOfSlipstream ?? (airScrew ? ducted : undefined) ?? (airScrew ? fill.by('slipstream-share') : shut),
    ...(jacket !== undefined ? { jacket: completeJacket(fill, jacket), coil: undefined } : { jacket: undefined, coil: tube }),
    sink: fitted,
    strap: strap && { conductance: strap.conductance, covers: strap.covers },
    ...added(fill, { sink: fitted, jacket, coil: tube, strapMass: strap?.mass, cooling, motor }),
    endPlace: fill.by('end-place'),
    layout,
  };
}

const mountSurface = (fill: Filler, plate: Datum<'area'> | undefined, diameter: Datum<'length'>): MountSurface<Data> => ({
  area: plate === undefined ? fill.by('mount-faces', { can: diameter }) : fill.by('both-faces', { face: plate }),
  emissivity: fill.by('mount-emissivity'),
});
