/** The result of the question by a thermometer’s reading. @module */

import type { ThermometerPlaceId } from '../heat/thermometer.js';

/** From a thermometer's reading after the stop back to the hidden peak, with its range from the tolerances of the data. SI. */
export interface ReadingResult {
  readonly name: string;
  /** Where the thermometer sat; an infrared one, told the emissivity of the surface, looked at what that place is on. */
  readonly place: ThermometerPlaceId;
  /** Of the surface, where an infrared thermometer looked at it [1]. */
  readonly emissivity?: number;
  /** What was read, and how long after the stop [K, s]. */
  readonly reading: number;
  /** Time from the stop to the reading [s]. */
  readonly after: number;
  /** What the model expects there, nominally and as its 95 % interval before the reading is known [K]. */
  readonly expected: { readonly nominal: number; readonly low: number; readonly high: number };
  /** Highest winding temperature of the run, given the reading [K]. */
  readonly hiddenPeak: { readonly nominal: number; readonly low: number; readonly high: number };
  /** Winding temperature when the reading was taken, given the reading [K]. */
  readonly windingThen: { readonly nominal: number; readonly low: number; readonly high: number };
  /** What the copper has when this thermometer, so long after the stop, reads 60 °C [K]. */
  readonly copperAt60: { readonly nominal: number; readonly low: number; readonly high: number };
  /** How many standard deviations the reading lies from what the data allow [1]; above 3 the scenario is not what was driven. */
  readonly surprise: number;
  /** Number of draws [1]. */
  readonly samples: number;
}
