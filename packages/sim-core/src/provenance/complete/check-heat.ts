/** Heat data that cannot be together: told as problems, each with what to do. @module */

import type { Limits, Surroundings } from '../../drive/drive-system.js';
import type { HeatPaths } from '../../heat/heat-paths.js';
import { formatQuantity, massText } from '../../quantities/index.js';
import type { Data, Datum, Place } from '../datum.js';
import type { GivenDrive } from '../given.js';
import type { Filler } from './filler.js';

/** No metal of a motor holds more heat than this per mass: aluminium 900, steel 460, copper 390 [J/(kg·K)]; handbook values, with room. */
const MOST_SPECIFIC_HEAT = 1000;
/** A winding warms in some seconds to some minutes; beyond these a conductance or capacity was misread [s]. */
const SHORTEST_WINDING = 0.2;
const LONGEST_WINDING = 1800;

export function checkHeat(
  fill: Filler,
  given: GivenDrive,
  heat: HeatPaths<Data>,
  mass: Datum,
  limits: Limits<Data>,
  surroundings: Surroundings<Data>,
): void {
  const conflict = (place: Place, expected: string, found: string, hint: string): void => {
    fill.problems.push({ kind: 'conflict', place, expected, found, hint });
  };
  const within = (section: { readonly place: Place } | undefined, key: string): Place => {
    const place = section?.place ?? given.place;
    return { ...place, path: `${place.path}.${key}` };
  };
  const placeOf = (datum: Datum, otherwise: Place): Place => (datum.origin.kind === 'given' ? datum.origin.place : otherwise);
  const { cooling, motor, start } = given;
  const temperature = (kelvin: number): string => formatQuantity(kelvin, 'temperature', { unit: '°C', decimals: 0 });

  // limits that are passed before anything runs
  const body = start?.temperature ?? surroundings.airTemperature;
  const cells = start?.batteryTemperature ?? body;
  for (const [key, limit, begins] of [
    ['winding', limits.windingTemperature, body],
    ['magnets', limits.magnetTemperature, body],
    ['controller', limits.controllerTemperature, body],
    ['cells', limits.cellTemperature, cells],
  ] as const) {
    if (limit.value <= begins.value)
      conflict(
        placeOf(limit, within(given.limits, key)),
        `a limit of the ${key} above the temperature they start at, ${temperature(begins.value)}`,
        temperature(limit.value),
        'raise the limit, or correct the ambient or start temperature',
      );
  }

  // water that is not there
  const wet = cooling?.waterJacket ?? cooling?.waterCoil ?? cooling?.strap;
  if (wet !== undefined) {
    if (given.vehicle?.wing !== undefined || given.wheel !== undefined)
      conflict(
        wet.place,
        'cooling for a vehicle without water',
        'a water jacket',
        'write cooling: { water_jacket: none }, or cool with air or a sink',
      );
    else if (given.ambient?.water === undefined)
      fill.missing(
        given.ambient?.place ?? { ...given.place, path: 'ambient' },
        'water',
        'the temperature of the cooling water',
        'a thermometer in the lake; the jacket cools towards it',
      );
  }

  // heat data that contradict each other
  const thermal = motor?.thermal;
  const heatKey = (key: string): Place => within(motor, `thermal.${key}`);
  givenTogether(given, conflict, placeOf, heatKey);
  if (thermal?.canToAir !== undefined) {
    const sink = cooling?.heatSink;
    if (sink !== undefined && (sink.covers ?? 'can') === 'can')
      conflict(sink.place, 'can_to_air or a heat sink on the can', 'both', 'a given can_to_air is the whole way from can to air; drop one');
    if (cooling?.air?.speed !== undefined)
      conflict(
        placeOf(thermal.canToAir, heatKey('can_to_air')),
        'can_to_air or cooling.air',
        'both',
        'a given can_to_air does not change with the air; drop it to have it calculated from the air speed',
      );
  }
  const { capacity } = heat;
  const sum = capacity.winding.value + capacity.stator.value + capacity.can.value;
  const given3 = thermal?.windingCapacity ?? thermal?.statorCapacity ?? thermal?.canCapacity;
  if (given3 !== undefined && sum > MOST_SPECIFIC_HEAT * mass.value)
    conflict(
      placeOf(given3, heatKey('winding_capacity')),
      `heat capacities of a motor of ${massText(mass.value)}, together below ${formatQuantity(MOST_SPECIFIC_HEAT * mass.value, 'heatCapacity', { unit: 'J/K', decimals: 0 })}`,
      formatQuantity(sum, 'heatCapacity', { unit: 'J/K', decimals: 0 }),
      'copper and iron hold about 0.4 J/K per gram; was another unit meant, or the mass?',
    );
  const known = thermal?.windingToStator ?? thermal?.windingCapacity;
  const time = capacity.winding.value / heat.windingToStator.value;
  if (known !== undefined && !(time > SHORTEST_WINDING && time < LONGEST_WINDING))
    conflict(
      placeOf(known, heatKey('winding_to_stator')),
      'a winding that follows its iron within 0.2 s to 30 min',
      `a time constant of ${formatQuantity(time, 'time', { unit: 's', decimals: 2 })}`,
      'winding_capacity over winding_to_stator is that time; one of them is off, or a resistance was meant: give it in K/W',
    );
}

type Conflict = (place: Place, expected: string, found: string, hint: string) => void;

/** Given ways of heat of which one holds the other already, or that have nothing to act on. */
function givenTogether(
  given: GivenDrive,
  conflict: Conflict,
  placeOf: (datum: Datum, otherwise: Place) => Place,
  heatKey: (key: string) => Place,
): void {
  const { motor, cooling, space } = given;
  const { windingToStator, statorToCan, canToAir, statorToAir, windingToHousing, housingToAmbient } = motor?.thermal ?? {};
  const outrunner = motor?.layout === 'outrunner';
  const both = (whole: Datum | undefined, wholeKey: string, part: Datum | undefined, partKey: string, hint: string): void => {
    if (whole !== undefined && part !== undefined) conflict(placeOf(part, heatKey(partKey)), `${wholeKey} or ${partKey}`, 'both', hint);
  };
  const printed = 'the printed way from winding to housing holds this one; keep the pair of the catalogue or your own figures';
  both(windingToHousing, 'winding_to_housing', windingToStator, 'winding_to_stator', printed);
  if (!outrunner) both(windingToHousing, 'winding_to_housing', statorToCan, 'stator_to_can', printed);
  const whole = 'the printed way from housing to ambient is the whole one; keep one of them';
  both(housingToAmbient, 'housing_to_ambient', canToAir, 'can_to_air', whole);
  both(housingToAmbient, 'housing_to_ambient', statorToAir?.conductance, 'stator_to_air', whole);
  const mount = cooling?.mount?.conductance ?? cooling?.mount?.plate;
  both(housingToAmbient, 'housing_to_ambient', mount, 'cooling.mount', whole);
  if (!outrunner) both(canToAir, 'can_to_air', mount, 'cooling.mount', 'a given can_to_air is the whole way from can to air; drop one');
  both(
    cooling?.mount?.conductance,
    'cooling.mount.conductance',
    cooling?.mount?.plate,
    'cooling.mount.plate',
    'a given conductance is the whole way by the mount to the air; keep it, or the plate',
  );
  const { air, heatSink } = cooling ?? {};
  const blown = air?.speed ?? air?.shareOfVehicleSpeed ?? air?.shareOfSlipstream ?? air?.openness;
  both(housingToAmbient, 'housing_to_ambient', blown, 'cooling.air', 'a given way to the air does not change with the air; drop one');
  if (housingToAmbient !== undefined && heatSink !== undefined && heatSink.covers !== 'controller')
    conflict(heatSink.place, 'housing_to_ambient or a heat sink on the motor', 'both', whole);
  if (statorToAir !== undefined && statorToAir.conductance === undefined)
    conflict(
      heatKey('stator_to_air'),
      'conductance of stator_to_air',
      'a speed alone',
      'give the watts per kelvin that it carries at that speed',
    );
  if (statorToAir?.atSpeed !== undefined && !outrunner)
    conflict(
      placeOf(statorToAir.atSpeed, heatKey('stator_to_air.at_speed')),
      'stator_to_air without a shaft speed, the can does not turn',
      'at_speed on an inrunner',
      'drop at_speed, or write layout: outrunner',
    );
  const plate = cooling?.mount?.plate;
  const { diameter, length } = space ?? {};
  if (plate !== undefined && diameter !== undefined) {
    const across = 0.25 * Math.PI * diameter.value ** 2;
    const most = Math.max(across, length === undefined ? 0 : diameter.value * length.value);
    if (plate.value > most)
      conflict(
        placeOf(plate, heatKey('mount')),
        `a plate that fits in the space, at most ${formatQuantity(most, 'area', { unit: 'cm²', decimals: 0 })}`,
        formatQuantity(plate.value, 'area', { unit: 'cm²', decimals: 0 }),
        'make the plate smaller, or correct space.diameter and space.length; give one face of it only',
      );
  }
}
