/** What moves: mass, drag and what carries it. @module */

import { monotoneCubic } from '../../numerics/interpolation.js';
import type { DragTable, Vehicle } from '../../parts/vehicle.js';
import type { Data, Datum } from '../datum.js';
import type { GivenDrive } from '../given.js';
import type { Medium } from './complete-measured-points.js';
import type { Filler } from './filler.js';

export function completeVehicle(
  fill: Filler,
  given: GivenDrive,
  packMass: Datum<'mass'>,
  motorMass: Datum<'mass'>,
  gearMass: Datum<'mass'>,
  medium: Medium,
): Vehicle<Data> {
  const vehicle = given.vehicle;
  const wheel = given.wheel;
  const none = fill.by('no-drag-area');
  const wing = vehicle?.wing;
  const marine = given.propeller?.kind === 'marine-series' || given.propeller?.medium === 'water';
  const density = fill.by('air-density', { temperature: medium.airTemperature, pressure: medium.airPressure });
  if (vehicle === undefined) {
    fill.take('vehicle');
    return {
      mass: fill.by('on-the-bench'),
      addedMass: fill.by('no-added-mass'),
      dragFactor: fill.without('no-wing', 'ratio', 1),
      dragArea: none,
      inducedFactor: fill.without('no-wing', 'ratio', 0),
      liftArea: fill.without('no-limit', 'area', Number.POSITIVE_INFINITY),
      density,
      rollingResistance: fill.by('no-rolling'),
      dragTable: undefined,
      carriedBy: 'bench',
    };
  }
  const own = fill.need(vehicle.mass, 'mass', vehicle.place, 'mass', 'weigh it ready to run, less motor and pack');
  if (given.propeller !== undefined && (vehicle.drag ?? vehicle.dragArea ?? wing) === undefined)
    fill.missing(vehicle.place, 'drag', 'drag, drag_area or a wing beside the mass', UNBRAKED);
  const wingArea = wing === undefined ? undefined : fill.need(wing.area, 'area', vehicle.place, 'wing.area', 'span times mean chord');
  const aspect =
    wing === undefined
      ? undefined
      : fill.need(wing.aspectRatio, 'ratio', vehicle.place, 'wing.aspect_ratio', 'span squared over wing area');
  return {
    mass: fill.by('all-up-mass', {
      own,
      pack: packMass,
      motor: motorMass,
      gearbox: gearMass,
      drives: fill.fixed('drive-count', fill.choose('drives', given.drives)),
    }),
    addedMass: vehicle.addedMass ?? (marine ? fill.by('added-mass') : fill.by('no-added-mass')),
    dragFactor: vehicle.dragFactor ?? fill.by('drag-error'),
    dragArea:
      wingArea !== undefined
        ? fill.by('wing-drag-area', { wing: wingArea, coefficient: wing?.zeroLiftDrag ?? fill.by('zero-lift-drag') })
        : (vehicle.dragArea ?? wheel?.dragArea ?? none),
    inducedFactor:
      wingArea !== undefined && aspect !== undefined
        ? fill.by('induced-factor', { wing: wingArea, aspect, efficiency: wing?.spanEfficiency ?? fill.by('span-efficiency') })
        : fill.without('no-wing', 'ratio', 0),
    liftArea:
      wingArea !== undefined
        ? fill.by('lift-area', { wing: wingArea, coefficient: wing?.mostLift ?? fill.by('most-lift') })
        : fill.without('no-limit', 'area', Number.POSITIVE_INFINITY),
    density,
    rollingResistance: wheel?.rollingResistance ?? fill.by('no-rolling'),
    dragTable: vehicle.drag === undefined || !drags(fill, vehicle) ? undefined : dragTable(vehicle.drag),
    carriedBy: wing !== undefined ? 'wing' : wheel !== undefined ? 'wheels' : 'water',
  };
}

const UNBRAKED =
  'nothing else would ever slow it. A bench or a hover has no vehicle: leave it out and hold a thrust, of each drive its share of the weight';

/** Whether some row tells of a speed; a problem where none does. */
function drags(fill: Filler, { drag, place }: NonNullable<GivenDrive['vehicle']>): boolean {
  if (drag?.some(({ speed }) => plain(speed) > 0)) return true;
  fill.missing(place, 'drag', 'a row of drag at a speed above 0', 'tow it at one speed, or write drag_area instead');
  return false;
}

const plain = (x: number | Datum): number => (typeof x === 'number' ? x : x.value);

function dragTable(rows: readonly { readonly speed: number | Datum; readonly force: number | Datum }[]): DragTable {
  const speeds = rows.map((row) => plain(row.speed));
  const forces = rows.map((row) => plain(row.force));
  if (speeds[0] > 0) {
    speeds.unshift(0);
    forces.unshift(0);
  }
  const { slope } = monotoneCubic(speeds, forces);
  const slopes = Float64Array.from(slope);
  slopes[0] = 0; // drag starts with the square of the speed
  return { speed: Float64Array.from(speeds), force: Float64Array.from(forces), slope: slopes };
}
