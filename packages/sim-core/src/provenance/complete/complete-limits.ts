/** What must not be passed: given limits first, then makers', classes and grades. @module */

import type { Limits } from '../../drive/drive-system.js';
import type { Battery } from '../../parts/battery/battery.js';
import type { Dimension } from '../../quantities/index.js';
import type { Data, Datum } from '../datum.js';
import type { GivenDrive } from '../given.js';
import type { Filler } from './filler.js';

export function completeLimits(fill: Filler, given: GivenDrive, battery: Battery<Data>): Limits<Data> {
  const { limits, motor } = given;
  const maker = motor?.makerLimits;
  const none = <D extends Dimension>(dimension: D): Datum<D> => fill.without('no-limit', dimension, Number.POSITIVE_INFINITY);
  const { dischargeRating: rating, supply, currentLimit } = given.battery ?? {};
  return {
    windingTemperature:
      limits?.winding ??
      (motor?.insulationClass === undefined ? fill.by('usual-insulation') : fill.ofKind('insulation-class', motor.insulationClass)),
    magnetTemperature:
      limits?.magnets ?? (motor?.magnetGrade === undefined ? fill.by('usual-magnets') : fill.ofKind('magnet-grade', motor.magnetGrade)),
    controllerTemperature: limits?.controller ?? fill.by('usual-controller'),
    cellTemperature: limits?.cells ?? fill.by('usual-cells'),
    motorCurrent: maker?.current ?? none('current'),
    inputPower: maker?.inputPower ?? none('power'),
    shaftSpeed: maker?.shaftSpeed ?? none('angularSpeed'),
    busVoltage: maker?.voltage ?? none('voltage'),
    batteryCurrent:
      currentLimit ?? (rating === undefined ? none('current') : fill.by('rated-current', { capacity: battery.capacity, rating })),
    batteryPower: limits?.batteryPower ?? none('power'),
    batteryEnergy: limits?.energy ?? none('energy'),
    cellVoltage:
      supply !== undefined
        ? fill.without('no-limit', 'voltage', 0)
        : (given.battery?.cellCutoff ?? fill.ofKind('chemistry-cutoff', fill.choose('chemistry', given.battery?.chemistry))),
    reserve: limits?.reserve ?? fill.by('no-reserve'),
    runTime: limits?.runTime ?? fill.without('no-limit', 'time', 0),
  };
}
