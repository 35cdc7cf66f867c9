/** What must not be passed: given limits first, then makers', classes and grades. @module */

import type { Limits } from '../../drive/drive-system.js';
import type { Battery } from '../../parts/battery/battery.js';
import type { Datum } from '../datum.js';
import type { GivenDrive } from '../given.js';
import { celsius } from '../rules/rule.js';
import type { Filler } from './filler.js';

const CUTOFF = { 'lithium-polymer': 3.3, 'lithium-ion': 2.8, 'lithium-iron-phosphate': 2.5, 'nickel-metal-hydride': 0.9 } as const;
/** IEC 60085 thermal classes [°C]. */
const CLASS_LIMIT = { A: 105, E: 120, B: 130, F: 155, H: 180, N: 200 } as const;
/** Working temperature by grade [°C], magnet makers' tables; UH, EH, AH from memory. */
const GRADE_LIMIT = { N: 80, M: 100, H: 120, SH: 150, UH: 180, EH: 200, AH: 230 } as const;

export function completeLimits(fill: Filler, given: GivenDrive, battery: Battery<Datum>): Limits<Datum> {
  const { limits, motor } = given;
  const maker = motor?.makerLimits;
  const none = fill.fixed('no-limit', Number.POSITIVE_INFINITY);
  const { dischargeRating: rating, supply, currentLimit } = given.battery ?? {};
  return {
    windingTemperature:
      limits?.winding ??
      (motor?.insulationClass === undefined
        ? fill.fixed('usual-insulation', celsius(CLASS_LIMIT.B))
        : fill.fixed('insulation-class', celsius(CLASS_LIMIT[motor.insulationClass]))),
    magnetTemperature:
      limits?.magnets ??
      (motor?.magnetGrade === undefined
        ? fill.fixed('usual-magnets', celsius(GRADE_LIMIT.M))
        : fill.fixed('magnet-grade', celsius(GRADE_LIMIT[motor.magnetGrade]))),
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
        : (given.battery?.cellCutoff ?? fill.fixed('chemistry-cutoff', CUTOFF[fill.choose('chemistry', given.battery?.chemistry)])),
    reserve: limits?.reserve ?? fill.by('no-reserve'),
    runTime: limits?.runTime ?? fill.fixed('no-limit', 0),
  };
}
