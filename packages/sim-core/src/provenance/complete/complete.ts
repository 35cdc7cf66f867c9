/**
 * Given data → a complete system: what was given wins, every gap is filled by a named rule, what cannot be estimated is a problem.
 *
 * @module
 */

import type { DriveSystem, Load } from '../../drive/drive-system.js';
import { LIQUID_WATER } from '../../media/water.js';
import type { ScenarioProblem } from '../../problems/index.js';
import type { Data, Datum } from '../datum.js';
import { saidByFleet } from '../fleet.js';
import type { GivenDrive } from '../given.js';
import { withLearnt } from '../learnt.js';
import type { Chosen } from '../rules/choices.js';
import { checkHeat } from './check-heat.js';
import { completeBattery, completeController, completeWiring } from './complete-electrics.js';
import { completeGearbox } from './complete-gearbox.js';
import { completeHeat } from './complete-heat.js';
import { completeLimits } from './complete-limits.js';
import { completeLoad } from './complete-load.js';
import { completeMagnet } from './complete-magnet.js';
import { completeMotor } from './complete-motor.js';
import { completeVehicle } from './complete-vehicle.js';
import { createFiller, type Filler } from './filler.js';

export type Completion =
  | { readonly ok: true; readonly data: DriveSystem<Data>; readonly choices: readonly Chosen[] }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

/** Completes what `candidate` was given; all that cannot be is told at once. */
export function complete(candidate: string, whole: GivenDrive): Completion {
  const { fleet, motor: sheet } = whole;
  const given = fleet === undefined || sheet === undefined ? whole : { ...whole, motor: saidByFleet(sheet, fleet) };
  const fill = createFiller(candidate, fleet);
  const ambient = given.ambient;
  const airTemperature = ambient?.air ?? fill.by('standard-day');
  const altitude = ambient?.altitude ?? fill.by('sea-level');
  const airPressure = ambient?.pressure ?? fill.by('pressure-at-altitude', { altitude });
  const compartmentTemperature = ambient?.compartment ?? fill.by('as-the-air', { air: airTemperature });
  const surroundings = {
    airTemperature,
    airPressure,
    motorAirTemperature: fill.choose('air-from', given.cooling?.air?.from) === 'compartment' ? compartmentTemperature : airTemperature,
    compartmentTemperature,
    waterTemperature: ambient?.water === undefined ? fill.by('mild-water') : { ...ambient.water, within: LIQUID_WATER },
  };
  const battery = completeBattery(fill, given);
  const motor = completeMotor(fill, given);
  const controller = completeController(fill, given, battery.cellsInSeries, motor.inductance);
  const gearbox = completeGearbox(fill, given);
  const medium = { airTemperature, airPressure, waterTemperature: surroundings.waterTemperature, waterKind: ambient?.waterKind };
  const load: Load<Data> = completeLoad(fill, given, medium);
  const vehicle = completeVehicle(fill, given, battery.mass, motor.mass, gearbox.mass, medium);
  const start = {
    charge: given.start?.charge ?? fill.by('full-charge'),
    motorTemperature: given.start?.temperature ?? fill.by('as-the-air', { air: airTemperature }),
    controllerTemperature: given.start?.temperature ?? fill.by('as-the-air', { air: airTemperature }),
    cellTemperature: given.start?.batteryTemperature ?? given.start?.temperature ?? fill.by('as-the-air', { air: airTemperature }),
  };
  const wiring = { resistance: completeWiring(fill, given) };
  const heat = completeHeat(fill, given, motor, battery, controller);
  const magnet = completeMagnet(fill, given, motor);
  const limits = completeLimits(fill, given, battery);
  checkHeat(fill, given, heat, motor.mass, limits, surroundings);
  const drives = fill.choose('drives', given.drives);
  fill.choose('shaft-speed', given.solver?.shaftSpeed);
  if (fill.problems.length > 0) return { ok: false, problems: fill.problems };
  const data: DriveSystem<Data> = {
    surroundings,
    battery,
    wiring,
    controller,
    motor,
    magnet,
    gearbox,
    load,
    vehicle,
    heat,
    start,
    limits,
    otherLoads: otherLoadsOf(fill, given),
    drives,
    ...(given.solver?.shaftSpeed === undefined ? {} : { shaftSpeed: given.solver.shaftSpeed }),
  };
  return { ok: true, choices: fill.choices, data: given.learnt === undefined ? data : withLearnt(data, given.learnt) };
}

/** What else the pack feeds, a cooling fan included. */
function otherLoadsOf(fill: Filler, { otherLoads, cooling }: GivenDrive): Datum<'power'> {
  const fan = cooling?.fan?.power;
  if (fan === undefined) return otherLoads ?? fill.by('no-other-loads');
  return otherLoads === undefined ? fan : fill.by('with-fan', { other: otherLoads, fan });
}
