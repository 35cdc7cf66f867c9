/** What a thermometer's place is warmer than the air it counts from, at one moment of a run. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import { type ThermometerPlace, thermometerSource } from '../../heat/thermometer.js';
import type { StopBody } from '../../results/after-stop-result.js';

/** Air that the excess counts from [K]. */
export const airAround = ({ of }: ThermometerPlace, { surroundings }: DriveSystem): number =>
  of === 'controller' || of === 'cells' ? surroundings.compartmentTemperature : surroundings.motorAirTemperature;

/** The excess of what the thermometer sits on, before its share and its lag [K]. */
export const excessAt = (place: ThermometerPlace, system: DriveSystem, bodies: Readonly<Record<StopBody, number>>): number =>
  thermometerSource(place, system.heat.capacity, bodies) - airAround(place, system);
