/** The motor's geometry and what was given about its heat → the heat network; every gap filled by rule. */
import type { HeatPaths } from '../heat/heat-paths.js';
import type { Battery } from '../parts/battery.js';
import type { Controller } from '../parts/controller.js';
import type { Motor } from '../parts/motor.js';
import type { Filler } from './complete.js';
import type { Datum } from './datum.js';
import type { GivenDrive } from './given.js';

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
  const none = fill.fixed('no-path', 0);
  const outrunner = layout === 'outrunner';
  const cooling = given.cooling;
  const jacket = cooling?.waterJacket;
  const open = cooling?.air?.openness ?? fill.fixed('openness', outrunner ? 1 : 0);
  const mount = cooling?.mount?.conductance;
  const closedCan = thermal?.canToAir;
  if (outrunner && jacket !== undefined && jacket.covers !== 'mount') {
    fill.problems.push({
      kind: 'conflict',
      place: jacket.place,
      expected: 'a jacket on the mount of an outrunner',
      found: 'a jacket on its turning bell',
      hint: 'write covers: mount, or choose layout: inrunner',
    });
  }
  return {
    capacity: {
      winding: thermal?.windingCapacity ?? fill.by('winding-capacity', mass),
      stator: thermal?.statorCapacity ?? fill.by('stator-capacity', mass),
      can: thermal?.canCapacity ?? fill.by('can-capacity', mass),
      magnets: fill.by('magnet-capacity', mass),
      controller: given.controller?.thermal?.capacity ?? fill.by('controller-heat-capacity', controller.mass),
      cells: given.battery?.thermal?.capacity ?? fill.by('cell-heat-capacity', battery.mass),
    },
    windingToStator: thermal?.windingToStator ?? fill.by(`${layout}-slot-contact`, bore, stack),
    statorToCan: outrunner ? none : (thermal?.statorToCan ?? fill.by('press-fit', bore, stack)),
    statorToMagnets: fill.by(`${layout}-gap`, bore, stack),
    magnetsToCan: outrunner ? fill.by('bonded-magnets', diameter, stack) : fill.fixed('shaft-and-bearings', 0.05),
    statorToMount: outrunner ? (mount ?? fill.by('bearing-tube', diameter)) : none,
    canToMount: closedCan ?? (outrunner ? none : (mount ?? fill.by('flange', diameter))),
    controllerToAir: given.controller?.thermal?.toAir ?? fill.by('controller-to-air', controller.mass),
    cellsToAir: given.battery?.thermal?.toAir ?? fill.by('cells-to-air', battery.mass),
    throughFlow: outrunner ? fill.by('through-flow', bore, stack, open) : none,
    sideArea: closedCan === undefined ? fill.by('can-side', diameter, length) : none,
    endArea: closedCan === undefined ? fill.by('can-ends', diameter) : none,
    canDiameter: diameter,
    canLength: length,
    emissivity: fill.fixed('can-emissivity', 0.6),
    convectionFactor: fill.fixed('convection-error', 1),
    openness: open,
    airSpeed: cooling?.air?.speed ?? fill.fixed('still-air', 0),
    vehicleSpeedShare: cooling?.air?.shareOfVehicleSpeed ?? fill.fixed('no-share', 0),
    slipstreamShare: cooling?.air?.shareOfSlipstream ?? fill.fixed('no-share', 0),
    jacket:
      jacket === undefined
        ? undefined
        : {
            conductance: fill.need(
              jacket.conductance,
              jacket.place,
              'conductance',
              'watts carried away per kelvin between can and water; 1 to 3 W/K for model jackets',
            ),
            speed: fill.need(jacket.atSpeed, jacket.place, 'at_speed', 'the boat’s speed at which that conductance holds'),
            restShare: jacket.restShare ?? fill.fixed('jacket-rest', 0.12),
          },
    jacketCovers: jacket?.covers ?? 'can',
    layout,
  };
}
