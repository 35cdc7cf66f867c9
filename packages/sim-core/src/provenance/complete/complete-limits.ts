/** What must not be passed: given limits first, then makers', classes and grades. @module */

import type { Limits } from '../../drive/drive-system.js';
import type { Battery } from '../../parts/battery/battery.js';
import type { Datum } from '../datum.js';
import type { GivenDrive } from '../given.js';
import type { Filler } from './filler.js';

export function completeLimits(fill: Filler, given: GivenDrive, battery: Battery<Datum>): Limits<Datum> {
  const { limits, motor } = given;
  const maker = motor?.makerLimits;
  const none = fill.fixed('no-limit', Number.POSITIVE_INFINITY);
  const { dischargeRating: rating, supply, currentLimit } = given.battery ?? {};
  return {
    windingTemperature:
      limits?.winding ??
      (motor?.insulationClass === undefined ? fill.by('usual-insulation') : fill.ofKind('insulation-class', motor.insulationClass)),
    magnetTemperature:
      limits?.magnets ?? (motor?.magnetGrade === undefined ? fill.by('usual-magnets') : fill.ofKind('magnet-grade', motor.magnetGrade)),
    controllerTemperature: limits?.controller ?? fill.by('usual-controller'),
    cellTemperature: limits?.cells ?? fill.by('usual-cells'),
    motorCurrent: maker?.current ?? none,
    inputPower: maker?.inputPower ?? none,
    shaftSpeed: maker?.shaftSpeed ?? none,
    busVoltage: maker?.voltage ?? none,
    batteryCurrent: currentLimit ?? (rating === undefined ? none : fill.by('rated-current', battery.capacity, rating)),
    batteryPower: limits?.batteryPower ?? none,
    batteryEnergy: limits?.energy ?? none,
    cellVoltage:
      supply !== undefined
        ? fill.fixed('no-limit', 0)
        : (given.battery?.cellCutoff ?? fill.ofKind('chemistry-cutoff', fill.choose('chemistry', given.battery?.chemistry))),
    reserve: limits?.reserve ?? fill.by('no-reserve'),
    runTime: limits?.runTime ?? fill.fixed('no-limit', 0),
  };
}
